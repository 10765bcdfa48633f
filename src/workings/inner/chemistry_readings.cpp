// What may be different in the flask than in the words.
#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>

#include "chem/molar_mass.h"
#include "chem/names.h"
#include "quantity/show.h"
#include "support/text.h"
#include "workings/inner/explain.h"
#include "workings/relations/kind.h"
#include "workings/relations/species_amounts.h"

namespace sash::workings::inner {
namespace {

using model::RelationType;
using quantity::Kind;

const std::vector<std::string> hydrate_waters{"0.5", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "12"};

// Without a metal few hold water of crystallisation: oxalic and citric acid, ammonium oxalate, glucose, toluenesulfonic
// acid; as they are sold, common practice, no source.
bool is_sold_as_hydrate(const chem::Formula& formula) {
  static const std::vector<chem::Formula> sold = [] {
    std::vector<chem::Formula> list;
    for (const char* text : {"C2H2O4*2H2O", "C6H8O7*H2O", "(NH4)2C2O4*H2O", "C6H12O6*H2O", "C7H8SO3*H2O"})
      list.push_back(*chem::read_formula(text));
    return list;
  }();
  return std::any_of(sold.begin(), sold.end(), [&](const chem::Formula& f) { return f.same_composition(formula); });
}

// Of other than these, water of crystallisation is common.
bool holds_metal(const chem::Formula& formula) {
  static const std::set<std::string_view> others{"H", "He", "B",  "C",  "N",  "O",  "F",  "Ne", "Si", "P",
                                                 "S", "Cl", "Ar", "As", "Se", "Br", "Kr", "Te", "I",  "Xe"};
  const auto& atoms = formula.parts().front().composition;
  return std::any_of(atoms.begin(), atoms.end(), [&](const chem::AtomCount& atom) {
    return !others.contains(chem::element(atom.what.number).symbol);
  });
}

// The same formula with other water of crystallisation, none included; itself excluded.
std::vector<chem::Formula> other_hydrates(const chem::Formula& formula) {
  std::vector<chem::Formula> result;
  std::string bare = formula.plain();
  const auto dot = bare.find('*');
  if (dot != std::string::npos) {
    if (formula.water_of_crystallisation().zero()) return result;  // a double salt, no hydrate
    bare.resize(dot);
    if (auto anhydrous = chem::read_formula(bare)) result.push_back(std::move(*anhydrous));
  }
  if (formula.parts().front().composition.size() < 2) return result;  // elements hold no water
  const bool salt = holds_metal(formula);
  for (const std::string& waters : hydrate_waters) {
    auto hydrate = chem::read_formula(bare + "*" + (waters == "1" ? "" : waters) + "H2O");
    if (!hydrate || hydrate->same_composition(formula)) continue;
    if (salt || is_sold_as_hydrate(*hydrate)) result.push_back(std::move(*hydrate));
  }
  return result;
}

class Readings {
 public:
  Readings(const Finding& finding, const Drafted& drafted, const std::vector<const Drafted*>& all,
           const FigureBook& book)
      : finding_(finding), d_(drafted), all_(all), book_(book) {}

  std::vector<Explanation> run() {
    switch (d_.relation->type) {
      case RelationType::yield:
      case RelationType::reaction:
        residual_solvent();
        other_limiting_reactant();
        other_forms();
        other_product();
        unreacted_reactant();
        break;
      case RelationType::chain:
        residual_solvent();
        break;
      case RelationType::same_portion:
      case RelationType::in_solution:
        other_substance_form();
        break;
      default:
        break;
    }
    return std::move(result_);
  }

 private:
  void add(Explanation::Kind kind, std::string sentence, double assumes) {
    Explanation e;
    e.kind = kind;
    e.sentence = std::move(sentence);
    e.assumes = assumes;
    result_.push_back(std::move(e));
  }

  // The finding of the relation if it were written like this; nothing where that would not agree.
  std::optional<Finding> agreeing(model::Relation changed) const {
    if (over_the_top()) std::erase_if(changed.terms, [](const model::Term& t) { return t.slot == "percent"; });
    const Drafted trial{&changed, draft_of(changed, book_)};
    if (!trial.usable() || !obstacles(trial.draft, book_).empty()) return std::nullopt;
    std::vector<const Drafted*> drafted = all_;
    std::replace(drafted.begin(), drafted.end(), &d_, &trial);
    Finding finding = Judge(drafted, book_, {}).finding_of(trial);
    if (finding.verdict == Verdict::conflicts || finding.verdict == Verdict::unsettled) return std::nullopt;
    if (!finding.remark.empty()) return std::nullopt;
    const bool percent = finding.computed && finding.computed->unit == "%";
    if (percent && finding.computed->value < 100 * least_believable_yield) return std::nullopt;
    return finding;
  }
  bool agrees(model::Relation changed) const { return agreeing(std::move(changed)).has_value(); }

  // Where the yield was too high: what it would then be.
  std::string yield_then(const Finding& trial) const {
    if (!over_the_top() || !trial.computed || trial.computed->unit != "%") return {};
    return " (a yield of " + quantity::show_with_unit(trial.computed->value, "%", 3) + ")";
  }

  bool is_yield() const { return d_.relation->type == RelationType::yield; }
  bool gives_yield() const { return is_yield() || d_.relation->type == RelationType::chain; }

  // How many times too heavy the product is; nothing when that is not what is wrong.
  struct TooMuch {
    const FigureValue* product;
    double times;
  };
  std::optional<TooMuch> too_much() const {
    for (const model::Term& term : d_.relation->terms) {
      const bool product = term.slot == (is_yield() ? "actual" : "product");
      const FigureValue* value = product ? book_.find(term.figure) : nullptr;
      if (value == nullptr || !value->stated || value->figure->kind != Kind::mass) continue;
      if (finding_.said && finding_.computed && finding_.computed->figure == value->figure->id) {
        const double times = finding_.said->value / finding_.computed->value;
        if (times > 1 && std::isfinite(times)) return TooMuch{value, times};
      } else if (gives_yield() && finding_.computed && finding_.computed->unit == "%") {
        const double most = finding_.said ? std::min(finding_.said->value, 100.0) : 100.0;
        const double times = finding_.computed->value / most;
        if (times > 1 && std::isfinite(times)) return TooMuch{value, times};
      }
    }
    return std::nullopt;
  }

  std::string mass_text(const FigureValue& like, double si) const {
    return quantity::show_with_unit(like.from_si(si), like.unit.symbol(), 2);
  }

  void residual_solvent() {
    const auto much = too_much();
    if (!much) return;
    const double excess = much->product->si * (1 - 1 / much->times);
    const double share = 1 - 1 / much->times;
    if (share > 0.9) return;
    add(Explanation::Kind::residual_solvent,
        "Perhaps the product was not dry: " + mass_text(*much->product, excess) + " of its " +
            said_text(*much->product).text + " (" + quantity::show_number(100 * share, 2) +
            " %) would have to be water or another solvent.",
        1.2 + 4 * share);
  }

  void other_limiting_reactant() {
    if (d_.relation->given.contains("limiting")) return;
    std::size_t reactants = 0;
    for (const model::Term& term : d_.relation->terms) reactants += term.slot == "reactant" ? 1 : 0;
    if (reactants < 2) return;
    for (const model::Term& term : d_.relation->terms) {
      if (term.slot != "reactant" || term.about.empty()) continue;
      model::Relation changed = *d_.relation;
      changed.given["limiting"] = term.about;
      if (!agrees(changed)) continue;
      add(Explanation::Kind::other_limiting_reactant,
          "Perhaps it was worked out from " + term.about + " as the limiting reactant: that would agree.", 1.8);
    }
  }

  // Another hydrate of what was weighed in one of the terms.
  void other_forms() {
    for (const model::Term& term : d_.relation->terms) {
      const FigureValue* value = book_.find(term.figure);
      if (value == nullptr || value->figure->kind != Kind::mass) continue;
      std::string species = term.about;
      if (species.empty() && is_yield()) {
        const auto it = d_.relation->given.find("product");
        if (it != d_.relation->given.end()) species = it->second;
      }
      const auto formula = species.empty() ? chem::formula_of(value->figure->subject) : chem::formula_of(species);
      if (!formula) continue;
      if (!d_.relation->given.contains("equation")) {
        heavier_form(*value, *formula, term.slot);
        continue;
      }
      const std::string now = form_now(*formula);
      const auto written = chem::read_formula(now);
      std::vector<chem::Formula> forms;
      std::string yield;
      for (chem::Formula& form : other_hydrates(written ? *written : *formula)) {
        model::Relation changed = *d_.relation;
        changed.given["form:" + formula->plain()] = form.plain();
        const auto trial = agreeing(changed);
        if (!trial) continue;
        forms.push_back(std::move(form));
        yield = yield_then(*trial);
        if (over_the_top()) break;  // the least water that suffices
      }
      for (const chem::Formula& form : likeliest(std::move(forms))) say_form(*value, now, form, yield);
    }
  }

  // Without an equation only the masses tell: what is isolated may hold water that the theory does not count.
  void heavier_form(const FigureValue& value, const chem::Formula& formula, const std::string& slot) {
    const auto much = too_much();
    const auto bare = chem::molar_mass(formula);
    if (!much || !bare || slot != "actual") return;
    constexpr double by_weighing = 0.005;
    for (const chem::Formula& form : other_hydrates(formula)) {
      const auto heavier = chem::molar_mass(form);
      if (!heavier || heavier->value / bare->value < much->times * (1 - by_weighing)) continue;
      const double leaves = 100 * much->times * bare->value / heavier->value;
      say_form(value, formula.plain(), form, " (a yield of " + quantity::show_with_unit(leaves, "%", 3) + ")");
      return;
    }
  }

  // The forms that figures of the record are about, where there are such; else none of too many to choose from.
  std::vector<chem::Formula> likeliest(std::vector<chem::Formula> forms) const {
    constexpr std::size_t too_many = 3;
    if (forms.size() <= 1) return forms;
    std::vector<chem::Formula> spoken_of;
    for (const chem::Formula& form : forms) {
      if (is_spoken_of(form)) spoken_of.push_back(form);
    }
    if (!spoken_of.empty()) return spoken_of;
    if (forms.size() > too_many) forms.clear();
    return forms;
  }

  bool is_spoken_of(const chem::Formula& form) const {
    for (const Drafted* other : all_) {
      for (const model::Term& term : other->relation->terms) {
        const FigureValue* value = book_.find(term.figure);
        if (value == nullptr || value->figure->subject.empty()) continue;
        const auto known = chem::formula_of(value->figure->subject);
        if (known && known->same_composition(form)) return true;
      }
    }
    return false;
  }

  std::string form_now(const chem::Formula& formula) const {
    for (const std::string& key : {"form:" + formula.plain(), "form:" + formula.unicode()}) {
      const auto it = d_.relation->given.find(key);
      if (it != d_.relation->given.end()) return it->second;
    }
    return formula.plain();
  }

  void say_form(const FigureValue& value, const std::string& now, const chem::Formula& form, const std::string& yield) {
    const auto written = chem::read_formula(now);
    const std::string was = written ? written->unicode() : now;
    if (finding_.said && finding_.said->figure != value.figure->id && !over_the_top()) {
      const FigureValue* focus = book_.find(finding_.said->figure);
      add(Explanation::Kind::wrong_formula_weight,
          "Perhaps " + (focus != nullptr ? focus->name : std::string("it")) +
              " was worked out with the molar mass of " + form.unicode() + " instead of " + was + ".",
          2.0);
    } else {
      add(Explanation::Kind::other_hydrate,
          "Perhaps " + value.name + " was that of " + form.unicode() + yield +
              (over_the_top() ? " or a hydrate with more water" : "") + ", not of " + was + ".",
          2.0);
    }
  }

  // More than there can be, whatever was stated.
  bool over_the_top() const {
    return gives_yield() && finding_.computed && finding_.computed->unit == "%" && finding_.computed->value > 100;
  }

  // One of the other substances on the right-hand side.
  void other_product() {
    const auto equation = d_.relation->given.find("equation");
    if (equation == d_.relation->given.end()) return;
    const auto read = chem::read_equation(equation->second);
    if (!read) return;
    for (const chem::Species& s : read->right()) {
      model::Relation changed = *d_.relation;
      if (is_yield()) {
        changed.given["product"] = s.formula.plain();
      } else {
        const auto products = std::count_if(changed.terms.begin(), changed.terms.end(),
                                            [](const model::Term& t) { return t.slot == "product"; });
        if (products != 1) return;
        for (model::Term& t : changed.terms) {
          if (t.slot == "product") t.about = s.formula.plain();
        }
      }
      const auto trial = changed == *d_.relation ? std::nullopt : agreeing(changed);
      if (!trial) continue;
      add(Explanation::Kind::other_product,
          "Perhaps what was weighed was " + s.formula.unicode() + yield_then(*trial) +
              ", another product of the equation.",
          3.0);
    }
  }

  // Reactant that stayed in the product weighs along.
  void unreacted_reactant() {
    const auto much = too_much();
    if (!much) return;
    const double excess = much->product->si * (1 - 1 / much->times);
    for (const model::Term& term : d_.relation->terms) {
      const FigureValue* value = term.slot == "reactant" ? book_.find(term.figure) : nullptr;
      if (value == nullptr || !value->stated || value->figure->kind != Kind::mass || value->si <= excess) continue;
      const std::string name = term.about.empty() ? value->figure->subject : term.about;
      add(Explanation::Kind::unreacted_reactant,
          "Perhaps reactant stayed in it: " + mass_text(*much->product, excess) + " of the " + said_text(*value).text +
              (name.empty() ? "" : " of " + name) + " would have to be weighed along with the product.",
          2.5 + excess / value->si);
    }
  }

  // A solute or portion that was another hydrate than thought.
  void other_substance_form() {
    const auto given = d_.relation->given.find("substance");
    std::string text = given != d_.relation->given.end() ? given->second : std::string();
    for (const model::Term& term : d_.relation->terms) {
      const FigureValue* value = text.empty() ? book_.find(term.figure) : nullptr;
      if (value != nullptr) text = value->figure->subject;
    }
    const auto formula = text.empty() ? Outcome<chem::Formula>(Fault{}) : chem::formula_of(text);
    if (!formula) return;
    std::vector<chem::Formula> forms;
    for (chem::Formula& form : other_hydrates(*formula)) {
      model::Relation changed = *d_.relation;
      changed.given["substance"] = form.plain();
      if (agrees(changed)) forms.push_back(std::move(form));
    }
    for (const chem::Formula& form : likeliest(std::move(forms))) {
      const bool bare = form.water_of_crystallisation().zero();
      add(bare ? Explanation::Kind::wrong_formula_weight : Explanation::Kind::other_hydrate,
          bare ? "Perhaps the molar mass of anhydrous " + form.unicode() + " was used for " + formula->unicode() + "."
               : "Perhaps it was " + form.unicode() + ", not " + formula->unicode() + ".",
          2.0);
    }
  }

  const Finding& finding_;
  const Drafted& d_;
  const std::vector<const Drafted*>& all_;
  const FigureBook& book_;
  std::vector<Explanation> result_;
};

}  // namespace

std::vector<Explanation> readings_of_chemistry(const Finding& finding, const Drafted& drafted,
                                               const std::vector<const Drafted*>& all, const FigureBook& book) {
  return Readings(finding, drafted, all, book).run();
}

}  // namespace sash::workings::inner
