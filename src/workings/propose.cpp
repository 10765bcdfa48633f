#include "workings/propose.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>

namespace sash::workings {
namespace {

using model::Figure;
using model::Relation;
using model::RelationType;
using quantity::Kind;

bool is_strength(Kind kind) {
  switch (kind) {
    case Kind::molar_concentration:
    case Kind::mass_concentration:
    case Kind::molality:
    case Kind::mass_percent:
    case Kind::volume_percent:
    case Kind::mass_volume_percent:
      return true;
    default:
      return false;
  }
}

// Slots and givens of a solution's figures are not those of a pure portion's.
std::string solution_slot(Kind kind) {
  if (is_strength(kind)) return "strength";
  if (kind == Kind::volume) return "solution_volume";
  if (kind == Kind::mass) return "solution_mass";
  if (kind == Kind::amount) return "solute_amount";
  if (kind == Kind::density) return "density";
  return {};
}

std::string portion_slot(Kind kind) {
  if (kind == Kind::mass) return "mass";
  if (kind == Kind::volume) return "volume";
  if (kind == Kind::amount) return "amount";
  if (kind == Kind::density) return "density";
  if (kind == Kind::molar_mass) return "molar_mass";
  return {};
}

class Proposing {
 public:
  explicit Proposing(const model::Record& record) : record_(record) {
    for (const Figure& f : record.figures) {
      if (f.corrected_by || f.origin.standing == model::Standing::refused) continue;
      figures_.push_back(&f);
    }
    std::sort(figures_.begin(), figures_.end(), [](const auto* a, const auto* b) { return a->id < b->id; });
    for (const Relation& r : record.relations) taken_.insert(signature(r));
  }

  std::vector<Relation> run() {
    portions();
    yields();
    durations();
    std::stable_sort(found_.begin(), found_.end(),
                     [](const Relation& a, const Relation& b) { return a.origin.confidence > b.origin.confidence; });
    return std::move(found_);
  }

 private:
  using Signature = std::pair<RelationType, std::set<model::FigureId>>;

  static Signature signature(const Relation& r) {
    Signature s{r.type, {}};
    for (const model::Term& t : r.terms) s.second.insert(t.figure);
    return s;
  }

  void offer(RelationType type, std::vector<model::Term> terms, const std::string& rule, double confidence,
             const std::string& substance = {}) {
    Relation r;
    r.type = type;
    r.terms = std::move(terms);
    r.origin = {model::Standing::proposed, rule, confidence};
    if (!substance.empty()) r.given["substance"] = substance;
    if (taken_.insert(signature(r)).second) found_.push_back(std::move(r));
  }

  // What a figure is about: its own subject, or its portion's.
  std::string subject_of(const Figure& f) const {
    if (!f.subject.empty()) return f.subject;
    const model::Portion* portion = f.portion ? model::find(record_, *f.portion) : nullptr;
    return portion != nullptr ? portion->subject : std::string();
  }

  void portions() {
    std::map<model::PortionId, std::vector<const Figure*>> by_portion;
    for (const Figure* f : figures_) {
      if (f->portion) by_portion[*f->portion].push_back(f);
    }
    for (const auto& [id, figures] : by_portion) {
      restatements(figures);
      const bool solution =
          std::any_of(figures.begin(), figures.end(), [](const auto* f) { return is_strength(f->kind); });
      solution ? in_solution(figures) : same_portion(figures);
    }
  }

  // The first figure of each kind: further ones restate it.
  std::vector<model::Term> one_each(const std::vector<const Figure*>& figures, std::string (*slot_of)(Kind)) const {
    std::vector<model::Term> terms;
    std::set<Kind> seen;
    for (const Figure* f : figures) {
      const std::string slot = slot_of(f->kind);
      if (!slot.empty() && seen.insert(f->kind).second) terms.push_back({slot, f->id, {}});
    }
    return terms;
  }

  std::string common_subject(const std::vector<const Figure*>& figures) const {
    for (const Figure* f : figures) {
      if (auto subject = subject_of(*f); !subject.empty()) return subject;
    }
    return {};
  }

  void same_portion(const std::vector<const Figure*>& figures) {
    auto terms = one_each(figures, portion_slot);
    const auto extensive = std::count_if(terms.begin(), terms.end(), [](const model::Term& t) {
      return t.slot == "mass" || t.slot == "volume" || t.slot == "amount";
    });
    if (extensive >= 2) {
      offer(RelationType::same_portion, std::move(terms), "quantities of one portion", 0.9, common_subject(figures));
    }
  }

  void in_solution(const std::vector<const Figure*>& figures) {
    auto terms = one_each(figures, solution_slot);
    if (terms.size() >= 2) {
      offer(RelationType::in_solution, std::move(terms), "a strength and how much of it", 0.85,
            common_subject(figures));
    }
  }

  void restatements(const std::vector<const Figure*>& figures) {
    std::map<Kind, std::vector<model::Term>> same;
    for (const Figure* f : figures) {
      if (!portion_slot(f->kind).empty() || is_strength(f->kind)) same[f->kind].push_back({"same", f->id, {}});
    }
    for (auto& [kind, terms] : same) {
      if (terms.size() >= 2) offer(RelationType::same_portion, std::move(terms), "one quantity stated again", 0.7);
    }
  }

  // A percent yield goes with what was isolated and, of the same subject, what could have formed.
  void yields() {
    for (const Figure* percent : figures_) {
      if (percent->kind != Kind::percent_yield) continue;
      const std::string subject = subject_of(*percent);
      const auto first = [&](auto fits) -> const Figure* {
        for (const Figure* f : figures_) {
          const bool quantity = f->kind == Kind::mass || f->kind == Kind::amount;
          if (quantity && (subject.empty() || subject_of(*f) == subject) && fits(f->role)) return f;
        }
        return nullptr;
      };
      const Figure* actual =
          first([](model::Role r) { return r == model::Role::product || r == model::Role::recovered; });
      const Figure* theory = first([](model::Role r) { return r == model::Role::stated_result; });
      if (actual == nullptr) continue;
      std::vector<model::Term> terms{{"percent", percent->id, {}}, {"actual", actual->id, {}}};
      if (theory != nullptr) terms.push_back({"theoretical", theory->id, {}});
      offer(RelationType::yield, std::move(terms), "a yield and what was isolated", theory != nullptr ? 0.8 : 0.5);
    }
  }

  void durations() {
    for (const Figure* f : figures_) {
      if (f->kind == Kind::duration && f->place.until) {
        offer(RelationType::duration, {{"stated", f->id, {}}}, "a time pinned to a span", 0.6);
      }
    }
  }

  const model::Record& record_;
  std::vector<const Figure*> figures_;
  std::set<Signature> taken_;
  std::vector<Relation> found_;
};

}  // namespace

std::vector<Relation> propose(const model::Record& record) { return Proposing(record).run(); }

}  // namespace sash::workings
