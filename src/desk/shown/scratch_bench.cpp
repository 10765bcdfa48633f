#include "desk/shown/scratch_bench.h"

#include <algorithm>
#include <array>
#include <map>
#include <string>

#include "chem/names.h"
#include "chem/solution.h"
#include "desk/shown/words.h"
#include "quantity/show.h"
#include "workings/check.h"

namespace sash::desk {
namespace {

using model::RelationType;
using narration::QuickFigure;
using quantity::Kind;

bool is_strength(Kind kind) {
  constexpr std::array kinds{Kind::molar_concentration, Kind::mass_concentration, Kind::molality,
                             Kind::mass_percent,        Kind::volume_percent,     Kind::mass_volume_percent};
  return std::ranges::find(kinds, kind) != kinds.end();
}

// A record of nothing but what was typed.
class ScratchBench {
 public:
  model::FigureId put(const QuickFigure& typed) {
    model::Figure figure = blank(typed.kind, typed.subject);
    figure.reading = typed.reading;
    figure.doubt = typed.doubt;
    return add(std::move(figure));
  }

  /// A figure to be worked out, with what its line is called.
  model::FigureId want(Kind kind, std::string words, const std::string& subject = {}) {
    const auto id = add(blank(kind, subject));
    wanted_.emplace_back(id, std::move(words));
    return id;
  }

  void tie(RelationType type, std::vector<model::Term> terms, std::map<std::string, std::string> given) {
    model::Relation relation;
    relation.id = {static_cast<std::int64_t>(record_.relations.size()) + 1};
    relation.type = type;
    relation.terms = std::move(terms);
    relation.given = std::move(given);
    record_.relations.push_back(std::move(relation));
  }

  /// What was wanted, then what works out besides, then how, then what was assumed.
  std::vector<ScratchLine> reckon() const {
    const workings::Report report = workings::check(record_);
    std::vector<ScratchLine> lines;
    for (const auto& [figure, words] : wanted_) {
      const auto* state = report.find(figure);
      if (state != nullptr && state->reconciled) lines.push_back({words, state->reconciled->text});
    }
    for (const auto& finding : report.findings) {
      for (const auto& each : finding.besides) {
        const bool told = std::ranges::find(lines, each.value.text, &ScratchLine::value) != lines.end();
        if (!told) lines.push_back({each.name, each.value.text});
      }
    }
    for (const auto& finding : report.findings) {
      for (const auto& line : finding.workings.lines) lines.push_back({"", workings::plain_text(line)});
      if (!finding.remark.empty()) lines.push_back({"", finding.remark, false, true});
    }
    std::vector<std::string> told;
    for (const auto& finding : report.findings) {
      const auto tell = [&](const std::string& sentence, bool bad) {
        if (std::ranges::find(told, sentence) != told.end()) return;
        told.push_back(sentence);
        lines.push_back({bad ? "missing" : "taken", sentence, false, bad});
      };
      for (const auto& note : finding.notes) tell(note, false);
      for (const auto& missing : finding.missing) tell(missing, true);
    }
    return lines;
  }

 private:
  static model::Figure blank(Kind kind, const std::string& subject) {
    model::Figure figure;
    figure.kind = kind;
    figure.subject = subject;
    return figure;
  }

  model::FigureId add(model::Figure figure) {
    if (record_.footages.empty()) {
      model::Footage nowhere;
      nowhere.id = {1};
      record_.footages.push_back(nowhere);
    }
    figure.id = {static_cast<std::int64_t>(record_.figures.size()) + 1};
    figure.place.footage = {1};
    record_.figures.push_back(figure);
    return figure.id;
  }

  model::Record record_;
  std::vector<std::pair<model::FigureId, std::string>> wanted_;
};

void append(std::vector<ScratchLine>& to, std::vector<ScratchLine> more) {
  for (auto& line : more) to.push_back(std::move(line));
}

// What is dissolved, where the name is that of the solution.
std::string substance_of(const std::string& subject) {
  constexpr std::string_view of_solution = " solution";
  if (!subject.ends_with(of_solution)) return subject;
  const std::string solute = subject.substr(0, subject.size() - of_solution.size());
  return chem::formula_of(solute) ? solute : subject;
}

// Units one asks back in, by kind.
std::vector<ScratchLine> in_other_units(const QuickFigure& q) {
  static const std::map<Kind, std::vector<std::string_view>> asked{
      {Kind::mass, {"mg", "g", "kg", "[oz_av]"}},
      {Kind::volume, {"uL", "mL", "L", "[foz_us]"}},
      {Kind::gas_volume, {"mL", "L"}},
      {Kind::temperature, {"Cel", "[degF]", "K"}},
      {Kind::pressure, {"kPa", "bar", "atm", "mm[Hg]", "[psi]"}},
      {Kind::energy, {"J", "kJ", "kcal_th", "kW.h"}},
      {Kind::length, {"mm", "cm", "m", "[in_i]"}},
      {Kind::duration, {"s", "min", "h"}}};
  std::vector<ScratchLine> lines;
  const auto units = asked.find(q.kind);
  if (units == asked.end()) return lines;
  for (const auto unit : units->second) {
    if (unit == q.reading.unit) continue;
    if (auto line = scratch_conversion(q, unit)) lines.push_back(std::move(*line));
  }
  return lines;
}

std::optional<chem::StrengthKind> strength_kind(Kind kind) {
  switch (kind) {
    case Kind::molar_concentration:
      return chem::StrengthKind::molarity;
    case Kind::mass_concentration:
      return chem::StrengthKind::grams_per_litre;
    case Kind::molality:
      return chem::StrengthKind::molality;
    case Kind::mass_percent:
      return chem::StrengthKind::mass_fraction;
    case Kind::volume_percent:
      return chem::StrengthKind::volume_fraction;
    case Kind::mass_volume_percent:
      return chem::StrengthKind::mass_per_volume;
    default:
      return std::nullopt;
  }
}

// How else the strength of a solution is said.
std::vector<ScratchLine> strengths(const QuickFigure& q) {
  const auto kind = strength_kind(q.kind);
  const auto unit = quantity::unit_for(q.kind, q.reading.unit);
  if (!kind || !unit) return {};
  double number = unit->to_si(q.reading.value);
  if (*kind == chem::StrengthKind::molarity || *kind == chem::StrengthKind::mass_per_volume) number /= 1000;
  const auto solution = chem::solution_of(substance_of(q.subject), *kind, number);
  if (!solution) return {{"", solution.fault().sentence, false, true}};
  const auto line = [](const char* words, double value, const char* unit_words) {
    return ScratchLine{words, quantity::show_with_unit(value, unit_words, 4)};
  };
  return {line("molarity", solution->molarity, "mol/L"), line("by mass", solution->w * 100, "% w/w"),
          line("dissolved", solution->grams_per_litre, "g/L"), line("molality", solution->molality, "mol/kg"),
          line("density", solution->density.value, "g/mL")};
}

// One quantity with the strength typed beside it, where there is one.
std::vector<ScratchLine> one(const QuickFigure& q, const QuickFigure* strength) {
  const std::string subject = substance_of(q.subject.empty() && strength != nullptr ? strength->subject : q.subject);
  if (subject.empty()) return in_other_units(q);
  ScratchBench bench;
  if (strength != nullptr) {
    const bool of_solute = q.kind == Kind::amount || (q.kind == Kind::mass && strength->kind != Kind::mass_percent);
    std::vector<model::Term> terms{{"strength", bench.put(*strength), ""}};
    if (q.kind == Kind::volume) terms.push_back({"solution_volume", bench.put(q), ""});
    if (q.kind == Kind::amount) terms.push_back({"solute_amount", bench.put(q), ""});
    if (q.kind == Kind::mass) terms.push_back({of_solute ? "solute_mass" : "solution_mass", bench.put(q), ""});
    if (of_solute) terms.push_back({"solution_volume", bench.want(Kind::volume, "volume"), ""});
    if (q.kind != Kind::amount) terms.push_back({"solute_amount", bench.want(Kind::amount, "dissolved"), ""});
    if (!of_solute || q.kind == Kind::amount) terms.push_back({"solute_mass", bench.want(Kind::mass, "that is"), ""});
    bench.tie(RelationType::in_solution, std::move(terms), {{"substance", subject}});
    return bench.reckon();
  }
  if (q.kind == Kind::gas_volume) {
    bench.tie(RelationType::gas_given_off,
              {{"volume", bench.put(q), ""}, {"amount", bench.want(Kind::amount, "amount"), ""}},
              {{"substance", subject}});
    return bench.reckon();
  }
  const std::map<Kind, std::string> slots{{Kind::mass, "mass"}, {Kind::volume, "volume"}, {Kind::amount, "amount"}};
  const auto slot = slots.find(q.kind);
  if (slot == slots.end()) return in_other_units(q);
  std::vector<model::Term> terms{{slot->second, bench.put(q), ""}};
  if (q.kind != Kind::amount) terms.push_back({"amount", bench.want(Kind::amount, "amount", subject), ""});
  if (q.kind != Kind::mass) terms.push_back({"mass", bench.want(Kind::mass, "mass", subject), ""});
  bench.tie(RelationType::same_portion, std::move(terms), {{"substance", subject}});
  return bench.reckon();
}

std::string in_equation(const chem::Equation& equation, const std::string& subject) {
  const auto formula = chem::formula_of(substance_of(subject));
  if (!formula) return {};
  for (const auto& species : equation.all()) {
    if (species.formula.plain() == formula->plain()) return species.formula.plain();
  }
  return {};
}

}  // namespace

std::vector<ScratchLine> scratch_quantities(const Quantities& typed) {
  std::vector<ScratchLine> lines;
  for (std::size_t i = 0; i < typed.size(); ++i) {
    if (typed[i].attached_to) continue;
    const auto strength =
        std::ranges::find_if(typed, [&](const QuickFigure& other) { return other.attached_to == std::optional(i); });
    const bool alone = strength == typed.end();
    append(lines,
           alone && is_strength(typed[i].kind) ? strengths(typed[i]) : one(typed[i], alone ? nullptr : &*strength));
  }
  return lines;
}

std::vector<ScratchLine> scratch_dilution(const Quantities& wanted, const QuickFigure& stock) {
  const auto volume = std::ranges::find(wanted, Kind::volume, &QuickFigure::kind);
  const auto strength = std::ranges::find_if(wanted, [](const QuickFigure& q) { return is_strength(q.kind); });
  if (volume == wanted.end() || strength == wanted.end()) {
    return {{"", "Type how much of what strength is wanted, as in 250 mL 2 M HCl from 12 M.", false, true}};
  }
  std::string subject = volume->subject;
  if (subject.empty()) subject = strength->subject;
  if (subject.empty()) subject = stock.subject;
  ScratchBench bench;
  bench.tie(RelationType::dilution,
            {{"strength_before", bench.put(stock), ""},
             {"strength_after", bench.put(*strength), ""},
             {"volume_after", bench.put(*volume), ""},
             {"volume_before", bench.want(Kind::volume, "of the stock"), ""}},
            {{"substance", substance_of(subject)}});
  auto lines = bench.reckon();
  lines.push_back({"then", "into part of the water, and water up to the mark"});
  return lines;
}

std::vector<ScratchLine> scratch_reaction(const chem::Equation& balanced, const Quantities& put_in) {
  ScratchBench bench;
  std::vector<model::Term> terms;
  for (std::size_t i = 0; i < put_in.size(); ++i) {
    const QuickFigure& q = put_in[i];
    if (q.attached_to) continue;
    const auto strength =
        std::ranges::find_if(put_in, [&](const QuickFigure& other) { return other.attached_to == std::optional(i); });
    const std::string subject = q.subject.empty() && strength != put_in.end() ? strength->subject : q.subject;
    const std::string species = in_equation(balanced, subject);
    if (species.empty()) {
      return {{"",
               "'" + (subject.empty() ? reading_text(q.kind, q.reading) : subject) +
                   "' is no substance of this equation; name it as the equation does.",
               false, true}};
    }
    model::FigureId figure = bench.put(q);
    if (strength != put_in.end()) {
      const auto dissolved = bench.want(Kind::amount, species, subject);
      bench.tie(RelationType::in_solution,
                {{"strength", bench.put(*strength), ""},
                 {q.kind == Kind::mass ? "solution_mass" : "solution_volume", figure, ""},
                 {"solute_amount", dissolved, ""}},
                {{"substance", species}});
      figure = dissolved;
    }
    terms.push_back({"reactant", figure, species});
  }
  for (const auto& species : balanced.right()) {
    const std::string formula = species.formula.plain();
    terms.push_back({"product", bench.want(Kind::mass, species.formula.unicode(), formula), formula});
  }
  bench.tie(RelationType::reaction, std::move(terms), {{"equation", balanced.plain()}});
  return bench.reckon();
}

std::vector<ScratchLine> scratch_share(const QuickFigure& part, const QuickFigure& whole) {
  ScratchBench bench;
  bench.tie(RelationType::share,
            {{"part", bench.put(part), ""},
             {"whole", bench.put(whole), ""},
             {"fraction", bench.want(Kind::percent_other, "share"), ""}},
            {});
  return bench.reckon();
}

std::optional<ScratchLine> scratch_conversion(const QuickFigure& q, std::string_view ucum) {
  const auto from = quantity::unit_for(q.kind, q.reading.unit);
  const auto to = quantity::unit_for(q.kind, ucum);
  if (!from || !to || !from->converts_to(*to)) return std::nullopt;
  const double value = to->from_si(from->to_si(q.reading.value));
  return ScratchLine{"in " + to->symbol(), quantity::show_with_unit(value, to->symbol(), 5)};
}

}  // namespace sash::desk
