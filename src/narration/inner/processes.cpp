#include "narration/inner/processes.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "embedded/electrode_products.h"
#include "narration/inner/reacting.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

/// What an electrode gives, and how many electrons one unit of it takes.
struct ElectrodeProduct {
  std::string_view name;
  std::string_view formula;
  std::string_view electrons;
};

const std::vector<ElectrodeProduct>& electrode_products() {
  static const std::vector<ElectrodeProduct> all = [] {
    std::vector<ElectrodeProduct> rows;
    bool header = true;
    for (const std::string_view line : split_lines(embedded::electrode_products)) {
      if (std::exchange(header, false)) continue;
      const auto cells = split(line, '\t');
      promise(cells.size() == 4, "a row of the electrode products has four cells");
      rows.push_back({cells[0], cells[1], cells[2]});
    }
    return rows;
  }();
  return all;
}

const ElectrodeProduct* electrode_product(const std::string& subject) {
  const auto& all = electrode_products();
  const std::string name = substance_of(subject);
  const auto it = std::find_if(all.begin(), all.end(), [&](const ElectrodeProduct& p) { return p.name == name; });
  return it == all.end() ? nullptr : &*it;
}

class Processes {
 public:
  Processes(const std::vector<SpokenFigure>& figures, const std::vector<Sample>& samples,
            const std::vector<SpokenRelation>& found)
      : figures_(figures), samples_(samples), found_(found) {}

  std::vector<SpokenRelation> run() {
    for (std::size_t i = 0; i < figures_.size(); ++i) {
      if (figures_[i].corrected_by) continue;
      if (figures_[i].kind == Kind::current) electrolysis(i);
      if (figures_[i].kind == Kind::temperature_change) heat(i);
      if (figures_[i].role == Role::stated_result) titration(i);
    }
    chain();
    return std::move(out_);
  }

 private:
  Kind kind(std::size_t i) const { return figures_[i].kind; }
  bool stands(std::size_t i) const { return !figures_[i].corrected_by && !figures_[i].reading.upper; }

  /// "half an amp for twenty minutes": the time said right behind the current, and what the charge makes.
  void electrolysis(std::size_t current) {
    if (figures_[current].role == Role::other) return;
    if (current + 1 >= figures_.size() || kind(current + 1) != Kind::duration || !stands(current + 1)) return;
    const std::size_t time = current + 1;
    for (std::size_t k = time + 1; k < figures_.size() && k <= time + 8; ++k) {
      const SpokenFigure& f = figures_[k];
      const ElectrodeProduct* product = electrode_product(f.subject);
      if (product == nullptr || !stands(k) || (f.kind != Kind::mass && f.kind != Kind::amount)) continue;
      if (f.role != Role::stated_result) continue;
      if (f.kind == Kind::mass && restates_amount(k)) continue;  // tied to its moles already
      SpokenRelation r;
      r.type = RelationType::electrolysis;
      r.terms = {{"current", current, ""}, {"duration", time, ""}, {"product", k, std::string(product->formula)}};
      r.given["electrons"] = std::string(product->electrons);
      r.label = f.subject;
      r.rule = "what a current makes in its time";
      r.confidence = 0.75;
      out_.push_back(std::move(r));
    }
  }

  bool restates_amount(std::size_t k) const {
    const auto first = figures_[k].same_sample_as;
    return first && kind(*first) == Kind::amount;
  }

  /// The two temperatures before a change that it may lie between: of the same thing, said last.
  void heat(std::size_t change) {
    std::vector<std::size_t> two;
    for (std::size_t k = change; k-- > 0 && change - k < 8 && two.size() < 2;) {
      if (kind(k) != Kind::temperature || !stands(k) || figures_[k].role == Role::other) continue;
      if (figures_[k].subject != figures_[change].subject) continue;
      if (figures_[k].same_sample_as && !two.empty() && *figures_[k].same_sample_as == two.front()) continue;
      two.push_back(k);
    }
    if (two.size() < 2 || figures_[two[0]].reading.unit != figures_[two[1]].reading.unit) return;
    std::size_t before = two[1];
    std::size_t after = two[0];
    if (figures_[after].reading.value == figures_[before].reading.value) return;
    // A change is said without its sign: "it dropped four degrees".
    if (figures_[after].reading.value < figures_[before].reading.value && figures_[change].reading.value > 0)
      std::swap(before, after);
    SpokenRelation r;
    r.type = RelationType::heat;
    r.terms = {
        {"temperature_before", before, ""}, {"temperature_after", after, ""}, {"temperature_change", change, ""}};
    r.label = figures_[change].subject;
    r.rule = "a temperature change and the temperatures it lies between";
    r.confidence = 0.7;
    out_.push_back(std::move(r));
  }

  bool is_titrant(std::size_t i) const { return figures_[i].subject_rule == "what is in the burette"; }

  /// The strength, or the amount, of what was titrated: from the titrant used and the portion it was run into.
  void titration(std::size_t result) {
    const SpokenFigure& found = figures_[result];
    if (found.kind != Kind::molar_concentration && found.kind != Kind::amount) return;
    std::optional<std::size_t> used;
    for (std::size_t k = result; k-- > 0 && result - k < 6 && !used;) {
      if (is_titrant(k) && stands(k) && figures_[k].role != Role::other) used = k;
    }
    if (!used || substance_of(figures_[*used].subject) == substance_of(found.subject)) return;
    std::optional<std::size_t> strength;
    std::optional<std::size_t> sample;
    for (std::size_t k = *used; k-- > 0 && *used - k < 12;) {
      const SpokenFigure& f = figures_[k];
      const bool titrant = substance_of(f.subject) == substance_of(figures_[*used].subject);
      if (!strength && titrant && f.kind == Kind::molar_concentration && stands(k)) strength = k;
      const bool taken = (f.kind == Kind::volume || f.kind == Kind::mass) && f.reading.unit != "[drp]";
      if (!sample && !titrant && taken && stands(k) && substance_of(f.subject) == substance_of(found.subject))
        sample = k;
    }
    if (!strength || (!sample && found.kind != Kind::amount)) return;
    const auto equation = neutralisation(found.subject, figures_[*used].subject);
    if (!equation || !done_.insert({*used, substance_of(found.subject)}).second) return;
    SpokenRelation r;
    r.type = RelationType::titration;
    r.terms = {{"titrant_volume", *used, ""}, {"titrant_strength", *strength, ""}};
    if (found.kind == Kind::amount) {
      r.terms.push_back({"sample_amount", result, ""});
    } else {
      r.terms.push_back({kind(*sample) == Kind::volume ? "sample_volume" : "sample_mass", *sample, ""});
      r.terms.push_back({"sample_strength", result, ""});
    }
    r.given["equation"] = equation->text;
    r.given["analyte"] = equation->one;
    r.given["titrant"] = equation->other;
    r.label = found.subject;
    r.rule = "what a titration found";
    r.confidence = 0.75;
    out_.push_back(std::move(r));
  }

  /// Two reactions of which the second starts with what the first made, with what was isolated of each.
  void chain() {
    for (const SpokenRelation& first : found_) {
      if (first.type != RelationType::reaction || first.terms.empty()) continue;
      for (const SpokenRelation& second : found_) {
        if (second.type != RelationType::reaction || &first == &second || second.terms.empty()) continue;
        link(first, second);
      }
    }
  }

  static const SpokenTerm* product_of(const SpokenRelation& r) {
    const auto it =
        std::find_if(r.terms.begin(), r.terms.end(), [](const SpokenTerm& t) { return t.slot == "product"; });
    return it == r.terms.end() ? nullptr : &*it;
  }

  void link(const SpokenRelation& first, const SpokenRelation& second) {
    const SpokenTerm* middle = product_of(first);
    const SpokenTerm* last = product_of(second);
    if (middle == nullptr || last == nullptr || middle->about == last->about || last->figure < middle->figure) return;
    const bool goes_on = std::any_of(second.terms.begin(), second.terms.end(), [&](const SpokenTerm& t) {
      return t.slot == "reactant" && t.about == middle->about;
    });
    const auto one = isolated(middle->figure);
    const auto two = isolated(last->figure);
    if (!goes_on || !one || !two) return;
    SpokenRelation r;
    r.type = RelationType::chain;
    r.terms = {{"start", first.terms.front().figure, ""}, {"product", *one, "1"}, {"product", *two, "2"}};
    r.given = {{"equation:1", first.given.at("equation")},
               {"equation:2", second.given.at("equation")},
               {"from:1", first.terms.front().about},
               {"to:1", middle->about},
               {"from:2", middle->about},
               {"to:2", last->about}};
    const auto share = carried(second, middle->about, *one);
    if (!share) return;
    r.given["carried:2"] = *share;
    r.label = figures_[*two].subject;
    r.rule = "what the first reaction made goes into the second";
    r.confidence = 0.5;
    out_.push_back(std::move(r));
  }

  /// What was weighed of the substance of an expected amount.
  std::optional<std::size_t> isolated(std::size_t expected) const {
    const std::string substance = substance_of(figures_[expected].subject);
    for (std::size_t k = 0; k < figures_.size(); ++k) {
      const SpokenFigure& f = figures_[k];
      if (f.role == Role::product && f.kind == Kind::mass && stands(k) && substance_of(f.subject) == substance)
        return k;
    }
    return std::nullopt;
  }

  /// The share of the first product that was weighed into the second reaction: "10/14.6".
  std::optional<std::string> carried(const SpokenRelation& second, const std::string& species,
                                     std::size_t whole) const {
    for (const SpokenTerm& t : second.terms) {
      if (t.slot != "reactant" || t.about != species) continue;
      const model::Reading& part = figures_[t.figure].reading;
      const model::Reading& all = figures_[whole].reading;
      if (kind(t.figure) != Kind::mass || part.unit != all.unit || part.digits.empty() || all.digits.empty())
        return std::nullopt;
      return part.value >= all.value ? "1" : part.digits + "/" + all.digits;
    }
    return std::nullopt;
  }

  const std::vector<SpokenFigure>& figures_;
  const std::vector<Sample>& samples_;
  const std::vector<SpokenRelation>& found_;
  std::set<std::pair<std::size_t, std::string>> done_;  ///< titrations: the titrant volume and the analyte
  std::vector<SpokenRelation> out_;
};

}  // namespace

std::vector<SpokenRelation> processes(const std::vector<SpokenFigure>& figures, const std::vector<Sample>& samples,
                                      const std::vector<SpokenRelation>& found) {
  return Processes(figures, samples, found).run();
}

}  // namespace sash::narration
