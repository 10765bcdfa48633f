#include "cli/inner/equation_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "chem/gas.h"
#include "chem/molar_mass.h"
#include "chem/stoichiometry.h"
#include "quantity/show.h"
#include "support/text.h"

namespace sash::cli {
namespace {

using nlohmann::ordered_json;
using quantity::show_number;
using quantity::show_with;

double coefficient(const chem::Species& s) { return s.coefficient.value_or(chem::Fraction(1)).number(); }

// Columns are counted in characters, for a subscript takes three bytes.
std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (c & 0xC0) != 0x80; }));
}
std::string padded(std::string text, std::size_t width) {
  text.append(width - std::min(width, columns(text)), ' ');
  return text;
}

std::size_t widest_formula(const chem::Equation& equation) {
  std::size_t width = 7;
  for (const auto& s : equation.all()) width = std::max(width, columns(s.formula.unicode()));
  return width;
}

bool forms_gas(const chem::Species& s) {
  if (s.state) return *s.state == chem::State::gas;
  return is_usually_gas(s.formula);
}

double molar_volume(const GasRoom& room) {
  return 1000 * chem::molar_volume(room.celsius + chem::zero_celsius, room.kilopascal * 1000);
}

std::string mol_and_grams(const Share& s, double mol, double spread) {
  return show_with(mol, spread, "mol") + " = " + show_with(mol * s.grams_per_mol, spread * s.grams_per_mol, "g");
}

}  // namespace

Outcome<std::string> ratio_text(const chem::Equation& balanced) {
  const std::size_t width = widest_formula(balanced);
  const auto all = balanced.all();
  const auto first_of_mass = std::ranges::find_if(all, [](const auto& s) { return !s.formula.is_electron(); });
  if (first_of_mass == all.end()) return std::string();
  std::string out = "  " + padded("", width) + "     mol       g/mol           g   g to 1 g of " +
                    first_of_mass->formula.unicode() + "\n";
  std::optional<double> first;
  for (const auto& s : balanced.all()) {
    if (s.formula.is_electron()) continue;
    const auto molar = chem::molar_mass(s.formula);
    if (!molar) return molar.fault();
    const double mass = coefficient(s) * molar->value;
    if (!first) first = mass;
    out += fmt::format("  {} {:>7g} {:>11.3f} {:>11.3f}   {:.4f}\n", padded(s.formula.unicode(), width), coefficient(s),
                       molar->value, mass, mass / *first);
  }
  return out;
}

Outcome<ordered_json> ratio_json(const chem::Equation& balanced) {
  ordered_json out = ordered_json::array();
  for (std::size_t i = 0; i < balanced.all().size(); ++i) {
    const auto& s = balanced.all()[i];
    if (s.formula.is_electron()) continue;
    const auto molar = chem::molar_mass(s.formula);
    if (!molar) return molar.fault();
    out.push_back({{"species", s.formula.plain()},
                   {"side", balanced.on_left(i) ? "left" : "right"},
                   {"mol", coefficient(s)},
                   {"molar_mass", molar->value},
                   {"mass", coefficient(s) * molar->value}});
  }
  return out;
}

Outcome<Accounts> account(const chem::Equation& balanced, std::span<const PutIn> put_in, const GasRoom& room) {
  std::vector<chem::Given> given;
  std::vector<double> relative(balanced.all().size(), 0);
  for (const PutIn& p : put_in) {
    const auto found = balanced.find(p.what);
    if (!found) {
      // A hydrate may be weighed for the salt of the equation, but then the equation has to say so.
      return Fault::of(Code::wrong_use,
                       p.what.unicode() + " (from '" + p.said + "') is not in " + balanced.unicode() +
                           "; write it into the equation, or name what is in it.",
                       p.said);
    }
    given.push_back({*found, p.mol});
    relative[*found] = p.spread / p.mol;
  }
  const auto outcome = chem::react(balanced, given);
  if (!outcome) return outcome.fault();
  double extent_relative = 0;
  for (const auto& r : outcome->reactants) {
    if (r.limiting) extent_relative = std::max(extent_relative, relative[r.species]);
  }
  Accounts out;
  for (std::size_t i = 0; i < balanced.left().size(); ++i) {
    const auto& s = balanced.all()[i];
    if (s.formula.is_electron()) continue;
    const auto molar = chem::molar_mass(s.formula);
    if (!molar) return molar.fault();
    Share share;
    share.species = i;
    share.grams_per_mol = molar->value;
    share.used = outcome->extent * coefficient(s);
    share.used_spread = share.used * extent_relative;
    const auto use = std::ranges::find(outcome->reactants, i, &chem::ReactantUse::species);
    if (use != outcome->reactants.end()) {
      share.given = true;
      share.limiting = use->limiting;
      share.taken = use->given;
      share.taken_spread = use->given * relative[i];
      share.left = use->left;
      share.left_spread = std::hypot(share.taken_spread, share.used_spread);
      share.equivalents = use->equivalents;
      share.close = !use->limiting && share.left < 2 * share.left_spread;
    }
    out.reactants.push_back(share);
  }
  for (const auto& p : outcome->products) {
    Share share;
    share.species = p.species;
    share.used = p.mol;
    share.used_spread = p.mol * extent_relative;
    share.grams_per_mol = p.mass / p.mol;
    if (forms_gas(balanced.all()[p.species])) share.litres = p.mol * molar_volume(room);
    out.products.push_back(share);
  }
  return out;
}

std::string accounts_text(const chem::Equation& balanced, std::span<const PutIn> put_in, const Accounts& accounts,
                          const GasRoom& room) {
  const std::size_t width = widest_formula(balanced);
  const auto name = [&](const Share& s) { return padded(balanced.all()[s.species].formula.unicode(), width); };
  std::string out;
  std::vector<std::string> limiting;
  for (const Share& s : accounts.reactants) {
    if (s.limiting) limiting.push_back(balanced.all()[s.species].formula.unicode());
  }
  out += "limiting: " + join(limiting, " and ") + (limiting.size() > 1 ? ", in exact proportion" : "") + "\n";
  for (const Share& s : accounts.reactants) {
    out += "  " + name(s) + "  ";
    if (!s.given) {
      out += "needs " + mol_and_grams(s, s.used, s.used_spread) + "\n";
      continue;
    }
    out += "taken " + mol_and_grams(s, s.taken, s.taken_spread);
    if (s.limiting) {
      out += ", used up\n";
      continue;
    }
    out += ", uses " + mol_and_grams(s, s.used, s.used_spread) + "\n  " + padded("", width) + "  left " +
           mol_and_grams(s, s.left, s.left_spread) + ", " + quantity::show_significant(s.equivalents, 3) +
           " times what is needed\n";
    if (s.close) {
      out += "  " + padded("", width) + "  Its digits leave open whether it limits instead.\n";
    }
  }
  bool gas = false;
  for (const Share& s : accounts.products) {
    out += "  " + name(s) + "  forms " + mol_and_grams(s, s.used, s.used_spread);
    if (s.litres) {
      gas = true;
      const double spread = s.used > 0 ? *s.litres * s.used_spread / s.used : 0;
      out += " = " + show_with(*s.litres, spread, "L") + " as gas";
    }
    out += "\n";
  }
  for (const PutIn& p : put_in) {
    for (const std::string& sentence : p.taken) out += "  " + sentence + "\n";
  }
  if (gas) {
    out += "  Gas volumes are of an ideal dry gas at " + show_number(room.celsius) + " °C and " +
           show_number(room.kilopascal) + " kPa.\n";
  }
  return out + "  (theoretical amounts; ± is one standard uncertainty from the digits as typed)\n";
}

ordered_json accounts_json(const chem::Equation& balanced, std::span<const PutIn> put_in, const Accounts& accounts,
                           const GasRoom& room) {
  ordered_json out;
  const auto amount = [](const Share& s, double mol, double spread) {
    return ordered_json{{"mol", mol},
                        {"mol_uncertainty", spread},
                        {"mass", mol * s.grams_per_mol},
                        {"mass_uncertainty", spread * s.grams_per_mol}};
  };
  auto& reactants = out["reactants"] = ordered_json::array();
  for (const Share& s : accounts.reactants) {
    ordered_json one{{"species", balanced.all()[s.species].formula.plain()}, {"limiting", s.limiting}};
    if (s.given) {
      one["taken"] = amount(s, s.taken, s.taken_spread);
      one["left"] = amount(s, s.left, s.left_spread);
      one["equivalents"] = s.equivalents;
    }
    one[s.given ? "used" : "needed"] = amount(s, s.used, s.used_spread);
    reactants.push_back(std::move(one));
  }
  auto& products = out["products"] = ordered_json::array();
  for (const Share& s : accounts.products) {
    ordered_json one{{"species", balanced.all()[s.species].formula.plain()}};
    one["formed"] = amount(s, s.used, s.used_spread);
    if (s.litres) one["volume"] = *s.litres;
    products.push_back(std::move(one));
  }
  out["volume_unit"] = "L";
  out["gas_celsius"] = room.celsius;
  out["gas_kilopascal"] = room.kilopascal;
  auto& taken = out["assumptions"] = ordered_json::array();
  for (const PutIn& p : put_in) {
    for (const std::string& sentence : p.taken) taken.push_back(sentence);
  }
  return out;
}

}  // namespace sash::cli
