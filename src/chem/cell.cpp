#include "chem/cell.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <vector>

#include "chem/electrolysis.h"
#include "chem/equilibria.h"
#include "chem/gas.h"
#include "chem/inner/table.h"
#include "embedded/standard_potentials.h"
#include "quantity/said.h"
#include "quantity/show.h"
#include "support/check.h"

namespace sash::chem {
namespace {

constexpr double room = 25;               // °C
constexpr double nearly_balanced = 0.05;  // V: the constant is within a factor of some tens of 1
constexpr double slight = 1e-9;

// Net counts of an equation: what forms is positive. Hydroxide is counted as water less a proton, so that acid and base
// compare.
using Net = std::map<std::string, double>;

void count(Net& net, const Formula& formula, double times) {
  if (formula.is_electron()) return;
  const std::string text = formula.plain();
  if (text == "OH^-") {
    net["H2O"] += times;
    net["H^+"] -= times;
  } else if (text == "H3O^+") {
    net["H2O"] += times;
    net["H^+"] += times;
  } else {
    net[text] += times;
  }
}

Net cleaned(Net net) {
  std::erase_if(net, [](const auto& entry) { return std::fabs(entry.second) < slight; });
  return net;
}

double signed_count(const Equation& equation, std::size_t i) {
  const double n = equation.all()[i].coefficient.value_or(Fraction(1)).number();
  return equation.on_left(i) ? -n : n;
}

Net net_of(const Equation& equation) {
  Net net;
  for (std::size_t i = 0; i < equation.all().size(); ++i) {
    count(net, equation.all()[i].formula, signed_count(equation, i));
  }
  return cleaned(std::move(net));
}

// A row of the table as nets.
struct Couple {
  const StandardPotential* potential;
  Net net;
  double electrons;
  bool acid;  // H+ stands in it
  bool base;  // OH- does
};

bool names(const Equation& equation, std::string_view formula) {
  return std::ranges::any_of(equation.all(), [&](const Species& s) { return s.formula.plain() == formula; });
}

const std::vector<StandardPotential>& table() {
  static const std::vector<StandardPotential> rows = [] {
    std::vector<StandardPotential> read;
    inner::each_row(embedded::standard_potentials, [&read](inner::TableRow cells) {
      auto equation = read_equation(cells[0]);
      promise(equation.ok(), "the half-reactions of our table read");
      const double volts = inner::cell_number(cells[1]);
      const quantity::Said said{volts, {}, std::string(cells[1]), quantity::Hedge::exact, true};
      read.push_back({*std::move(equation), volts, quantity::reach_of(said), std::string(cells[2])});
    });
    return read;
  }();
  return rows;
}

double electrons_taken(const Equation& equation) {
  double taken = 0;
  for (std::size_t i = 0; i < equation.all().size(); ++i) {
    if (equation.all()[i].formula.is_electron()) taken -= signed_count(equation, i);
  }
  return taken;
}

const std::vector<Couple>& couples() {
  static const std::vector<Couple> all = [] {
    std::vector<Couple> made;
    for (const StandardPotential& p : table()) {
      const Equation& e = p.reduction;
      made.push_back({&p, net_of(e), electrons_taken(e), names(e, "H^+"), names(e, "OH^-")});
    }
    return made;
  }();
  return all;
}

bool is_free(const std::string& formula) { return formula == "H^+" || formula == "H2O"; }

/// Whether the couple may take part: what it uses is used up, what it makes forms.
bool fits(const Couple& couple, const Net& net, bool reduced) {
  return std::ranges::all_of(couple.net, [&](const auto& entry) {
    const auto it = net.find(entry.first);
    return is_free(entry.first) || (it != net.end() && (it->second > 0) == ((entry.second > 0) == reduced));
  });
}

/// How often the couples, each with its electrons taken by the other, stand in the equation; nothing when they do not
/// make it.
std::optional<double> times_in(const Couple& cathode, const Couple& anode, const Net& net) {
  Net made;
  for (const auto& [formula, n] : cathode.net) made[formula] += n / cathode.electrons;
  for (const auto& [formula, n] : anode.net) made[formula] -= n / anode.electrons;
  made = cleaned(std::move(made));
  if (made.size() != net.size() || made.empty()) return std::nullopt;
  std::optional<double> times;
  for (const auto& [formula, n] : net) {
    const auto it = made.find(formula);
    if (it == made.end()) return std::nullopt;
    const double ratio = n / it->second;
    if (!times) times = ratio;
    if (!(ratio > 0) || std::fabs(ratio - *times) > slight * *times) return std::nullopt;
  }
  return times;
}

/// A reaction in water: its net, and whether it is written in acid or in base.
struct InWater {
  Net net;
  bool acid = false;
  bool base = false;
};

std::optional<Cell> cell_in(const InWater& reaction) {
  const auto& [net, acid, base] = reaction;
  // Potentials are of ions in water: a flame is none of theirs.
  if (std::ranges::none_of(net, [](const auto& entry) { return entry.first.find('^') != std::string::npos; })) {
    return std::nullopt;
  }
  for (const Couple& cathode : couples()) {
    if ((cathode.acid && base) || (cathode.base && acid) || !fits(cathode, net, true)) continue;
    for (const Couple& anode : couples()) {
      if ((anode.acid && (base || cathode.base)) || (anode.base && (acid || cathode.acid))) continue;
      if (!fits(anode, net, false)) continue;
      const auto electrons = times_in(cathode, anode, net);
      if (!electrons) continue;
      const StandardPotential &taker = *cathode.potential, &giver = *anode.potential;
      return Cell{&taker, &giver, *electrons, taker.volts - giver.volts,
                  std::hypot(taker.rounding, giver.rounding) / std::numbers::sqrt3};
    }
  }
  return std::nullopt;
}

bool in_some_couple(const std::string& formula) {
  return std::ranges::any_of(couples(), [&](const Couple& c) { return c.net.contains(formula); });
}

InWater as_written(const Equation& equation) {
  return {net_of(equation), names(equation, "H^+") || names(equation, "H3O^+"), names(equation, "OH^-")};
}

/// The equation with its soluble salts, acids and bases taken apart into ions.
InWater taken_apart(const Equation& equation) {
  InWater reaction = as_written(equation);
  reaction.net.clear();
  for (std::size_t i = 0; i < equation.all().size(); ++i) {
    const Formula& formula = equation.all()[i].formula;
    const double n = signed_count(equation, i);
    const bool salt = formula.charge() == 0 && !in_some_couple(formula.plain());
    const auto parts = salt ? in_components(formula) : std::vector<ComponentCount>{};
    if (!parts || parts->empty()) {
      count(reaction.net, formula, n);
      continue;
    }
    for (const ComponentCount& part : *parts) {
      count(reaction.net, part.component, n * part.count);
      if (part.component.plain() != "H^+") continue;
      reaction.acid = reaction.acid || part.count > 0;
      if (part.count >= 0) continue;
      // A base: the proton it lacks was taken from water.
      reaction.base = true;
      reaction.net["H2O"] -= n * part.count;
    }
  }
  reaction.net = cleaned(std::move(reaction.net));
  return reaction;
}

}  // namespace

std::span<const StandardPotential> standard_potentials() { return table(); }

double Cell::gibbs() const { return -electrons * faraday * volts / 1000; }

double Cell::log_k() const {
  return electrons * faraday * volts / (gas_constant * (zero_celsius + room)) / std::numbers::ln10;
}

Outcome<Cell> cell_of(const Equation& equation) {
  const auto found = balance(equation);
  if (!found) return found.fault();
  if (found->status == BalanceStatus::impossible) {
    return Fault::of(Code::impossible, "'" + equation.plain() + "' does not balance. " + found->why);
  }
  const auto typed = verify(equation);
  const bool as_typed = found->status != BalanceStatus::balanced;
  if (as_typed && !(typed && typed->balanced)) {
    return Fault::of(Code::impossible,
                     "'" + equation.plain() + "' balances in several ways; type the coefficients that are meant.");
  }
  const Equation whole = as_typed ? equation : equation.with(found->coefficients);
  for (const InWater& reaction : {as_written(whole), taken_apart(whole)}) {
    if (const auto cell = cell_in(reaction)) return *cell;
  }
  return Fault::of(Code::not_found,
                   "The table of standard potentials has no two couples that make up '" + whole.plain() + "'.");
}

double nernst(double standard_volts, double electrons, double quotient, double celsius) {
  return standard_volts - gas_constant * (zero_celsius + celsius) / (electrons * faraday) * std::log(quotient);
}

std::string cell_sentence(const Cell& cell) {
  const std::string volts = quantity::show_with(cell.volts, cell.spread, "V");
  const std::string how = "E° = " + volts + ", n = " + quantity::show_number(cell.electrons, 3) +
                          ", ΔG° = " + quantity::show_with_unit(cell.gibbs(), "kJ/mol", 3) +
                          ", lg K = " + quantity::show_number(cell.log_k(), 3) + " at 25 °C";
  const std::string with =
      ", all dissolved at 1 mol/L and all gases at 1 bar (" + how + "); how fast it would go is another matter.";
  if (std::fabs(cell.volts) < nearly_balanced) return "By standard potentials it stops midway" + with;
  return cell.volts > 0 ? "By standard potentials it goes by itself" + with
                        : "By standard potentials it does not go by itself, but the other way round" + with;
}

}  // namespace sash::chem
