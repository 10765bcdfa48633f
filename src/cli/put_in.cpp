#include "cli/put_in.h"

#include <cmath>

#include "chem/commercial.h"
#include "chem/gas.h"
#include "chem/molar_mass.h"
#include "chem/names.h"
#include "chem/thermochemistry.h"
#include "quantity/said.h"
#include "quantity/show.h"
#include "quantity/trade_unit.h"
#include "support/text.h"

namespace sash::cli {
namespace {

using quantity::Dimension;
using quantity::Kind;
namespace dimension = quantity::dimension;

/// A number with its unit at the front of a text.
struct Measured {
  double value = 0;   // SI
  double spread = 0;  // SI, standard, from the digits
  Dimension dimension;
  std::optional<Kind> kind;
  bool percent = false;
  std::string said;  // "25 mL"
};

std::size_t number_length(std::string_view text) {
  std::size_t n = 0;
  while (n < text.size() && ((text[n] >= '0' && text[n] <= '9') || text[n] == '.' || text[n] == ',')) ++n;
  return n;
}

std::string_view first_words(std::string_view text, int count) {
  std::size_t end = 0;
  for (int i = 0; i < count && end < text.size(); ++i) {
    while (end < text.size() && text[end] == ' ') ++end;
    while (end < text.size() && text[end] != ' ') ++end;
  }
  return text.substr(0, end);
}

Fault cannot_read(std::string_view text, const std::string& lack) {
  return Fault::of(Code::malformed,
                   "'" + std::string(text) + "' " + lack +
                       "; type an amount and a substance, such as '5.0 g Cu' or "
                       "'25 mL 2.0 M HCl'.",
                   std::string(text));
}

// Takes "25 mL" off the front of `rest`; the unit may have two words ("% w/v", "cubic centimetres").
Outcome<Measured> take_measured(std::string_view& rest, std::string_view whole) {
  rest = trim(rest);
  const std::size_t digits = number_length(rest);
  const auto number =
      digits > 0 ? read_number(replace_all(std::string(rest.substr(0, digits)), ",", "")) : std::nullopt;
  if (!number) return cannot_read(whole, "does not begin with a number");
  const std::string_view after = trim(rest.substr(digits));
  // One word is tried first, for a substance may look like the second ("g H2"); but "% w/v" is one unit.
  const std::string_view second = trim(first_words(after, 2).substr(first_words(after, 1).size()));
  const bool convention = after.starts_with('%') && second.size() == 3 && second[1] == '/';
  for (const int words : {convention ? 2 : 1, convention ? 1 : 2}) {
    const std::string_view spelled = first_words(after, words);
    const auto unit = quantity::read_trade_unit(spelled);
    if (!unit) continue;
    const quantity::Said said{*number, {}, std::string(rest.substr(0, digits)), {}, false};
    const Kind kind = unit->kind.value_or(Kind::other);
    const auto estimate = quantity::estimate_of(said, kind, unit->unit.symbol());
    Measured m{unit->unit.to_si(estimate.best),
               estimate.spread.standard * unit->unit.slope_at(*number),
               unit->unit.dimension(),
               unit->kind,
               spelled.starts_with('%') || spelled == "percent",
               {}};
    m.said = std::string(rest.substr(0, digits)) + " " + std::string(trim(spelled));
    rest = trim(after.substr(spelled.size()));
    if (starts_with_no_case(rest, "of ")) rest = trim(rest.substr(3));
    if (!(m.value > 0) || !std::isfinite(m.value)) {
      return Fault::of(Code::out_of_range, "The amount in '" + std::string(whole) + "' must be above 0.",
                       std::string(whole));
    }
    return m;
  }
  return cannot_read(whole, after.empty() ? "has no unit" : "has no unit after its number");
}

bool is_concentration(const Measured& m) {
  return m.percent || m.dimension == dimension::amount / dimension::volume ||
         m.dimension == dimension::mass / dimension::volume;
}

constexpr double millilitre = 1e-6;  // m3

class Reading {
 public:
  Reading(std::string_view text, const GasRoom& room) : text_(text), room_(room) {}

  Outcome<PutIn> run() {
    std::string_view rest = text_;
    const Outcome<Measured> much = take_measured(rest, text_);
    if (!much) return much.fault();
    std::optional<Measured> strength;
    if (number_length(rest) > 0) {
      // "2-propanol" begins with a digit too.
      std::string_view after = rest;
      if (const auto read = take_measured(after, text_); read && is_concentration(*read)) {
        strength = *read;
        rest = after;
      }
    }
    if (rest.empty()) return cannot_read(text_, "names no substance");
    out_.said = much->said + (strength ? " of " + strength->said + " " : " ") + std::string(rest);
    name_ = rest;

    const auto commercial = strength ? Outcome<chem::CommercialSolution>(Fault{}) : chem::commercial_solution(rest);
    const bool solution_word = commercial && !chem::read_formula(rest);
    Outcome<chem::Formula> what = chem::formula_of(solution_word ? commercial->solution.solute : std::string(rest));
    if (!what) return what.fault();
    out_.what = std::move(what).value();
    const auto molar = chem::molar_mass(out_.what);
    if (!molar) return molar.fault();
    molar_ = molar->value;

    Outcome<double> mol = Fault{};
    if (solution_word && much->dimension != dimension::amount) {
      out_.taken.push_back(commercial->assumption);
      mol = of_solution(*much, commercial->solution);
    } else if (strength) {
      mol = of_strength(*much, *strength);
    } else {
      mol = of_pure(*much);
    }
    if (!mol) return mol.fault();
    const double relative = std::hypot(much->spread / much->value, strength ? strength->spread / strength->value : 0.0);
    out_.mol = *mol;
    out_.spread = out_.mol * relative;
    return std::move(out_);
  }

 private:
  Outcome<double> of_pure(const Measured& much) {
    if (much.dimension == dimension::amount) return much.value;
    if (much.dimension == dimension::mass) return much.value * 1000 / molar_;
    if (much.dimension != dimension::volume) return wrong_unit(much);
    if (is_usually_gas(out_.what)) {
      out_.taken.push_back(out_.what.unicode() + " is taken as an ideal gas at " +
                           quantity::show_number(room_.celsius) + " °C and " + quantity::show_number(room_.kilopascal) +
                           " kPa.");
      return much.value / chem::molar_volume(room_.celsius + chem::zero_celsius, room_.kilopascal * 1000);
    }
    auto density = chem::density_of(name_);
    if (!density) {
      return Fault::of(Code::not_found,
                       "No density is known for '" + std::string(name_) +
                           "' as a liquid; give its mass, or the strength "
                           "of its solution, as in '25 mL 2.0 M " +
                           std::string(name_) + "'.",
                       std::string(text_));
    }
    note_density(density->value, std::string(name_));
    return much.value / millilitre * density->value / molar_;
  }

  Outcome<double> of_strength(const Measured& much, const Measured& strength) {
    const bool by_volume = much.dimension == dimension::volume;
    if (by_volume && strength.dimension == dimension::amount / dimension::volume) return much.value * strength.value;
    if (by_volume && strength.dimension == dimension::mass / dimension::volume) {
      return much.value * strength.value * 1000 / molar_;
    }
    if (much.dimension == dimension::amount || (!by_volume && much.dimension != dimension::mass)) {
      return wrong_unit(much);
    }
    if (by_volume && strength.kind == Kind::mass_volume_percent) return much.value * strength.value * 1000 / molar_;
    if (!by_volume && strength.percent && strength.kind != Kind::volume_percent) {
      return much.value * 1000 * strength.value / molar_;
    }
    const chem::StrengthKind kind = strength.kind == Kind::volume_percent ? chem::StrengthKind::volume_fraction
                                    : strength.percent                    ? chem::StrengthKind::mass_fraction
                                    : strength.dimension == dimension::amount / dimension::volume
                                        ? chem::StrengthKind::molarity
                                        : chem::StrengthKind::grams_per_litre;
    const double in_table = kind == chem::StrengthKind::molarity ? strength.value / 1000 : strength.value;
    const auto solution = chem::solution_of(name_, kind, in_table);
    if (!solution) return solution.fault();
    if (strength.percent && !strength.kind) out_.taken.push_back("The percentage is taken as by mass.");
    return of_solution(much, *solution);
  }

  Outcome<double> of_solution(const Measured& much, const chem::Solution& solution) {
    if (much.dimension == dimension::mass) return much.value * 1000 * solution.w / solution.molar_mass;
    if (much.dimension != dimension::volume) return wrong_unit(much);
    note_density(solution.density.value, "the solution");
    return much.value * 1000 * solution.molarity;
  }

  void note_density(double value, const std::string& of) {
    out_.taken.push_back("The density of " + of + " is taken as " + quantity::show_significant(value, 4) +
                         " g/mL at 20 °C.");
  }

  Outcome<double> wrong_unit(const Measured& much) const {
    return Fault::of(Code::wrong_dimension,
                     "'" + much.said + "' is no amount of a substance; give a mass, a volume or moles.",
                     std::string(text_));
  }

  std::string_view text_;
  const GasRoom& room_;
  std::string_view name_;
  double molar_ = 0;
  PutIn out_;
};

}  // namespace

bool is_usually_gas(const chem::Formula& what) {
  const auto in = [&what](chem::State state) { return chem::formation_enthalpy(what, state).ok(); };
  return in(chem::State::gas) && !in(chem::State::liquid) && !in(chem::State::solid);
}

Outcome<PutIn> read_put_in(std::string_view text, const GasRoom& room) { return Reading(text, room).run(); }

}  // namespace sash::cli
