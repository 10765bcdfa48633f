#pragma once
// What is printed about a balanced equation: the table of moles and masses, or, with amounts put in, what limits, what
// is left and what can form. Text for people and JSON for programs.

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>

#include "chem/equation.h"
#include "cli/put_in.h"

namespace sash::cli {

/// Moles and masses by the coefficients: one line for each species.
/// Fails: as chem::molar_mass.
Outcome<std::string> ratio_text(const chem::Equation& balanced);
Outcome<nlohmann::ordered_json> ratio_json(const chem::Equation& balanced);

/// One reactant or product when so much was put in; amounts in mol with standard uncertainties.
struct Share {
  std::size_t species = 0;
  bool given = false;
  bool limiting = false;
  double taken = 0, taken_spread = 0;  ///< reactants given
  double used = 0, used_spread = 0;    ///< reactants: used up; products: formed
  double left = 0, left_spread = 0;    ///< reactants given
  double equivalents = 0;              ///< reactants given: times what the limiting one needs
  double grams_per_mol = 0;
  std::optional<double> litres;  ///< of a gas formed, at the room's conditions
  bool close = false;            ///< given, not limiting, but within its uncertainty it might be
};

struct Accounts {
  std::vector<Share> reactants;
  std::vector<Share> products;
};

/// Fails: as chem::react; Code::wrong_use when something put in is no reactant.
Outcome<Accounts> account(const chem::Equation& balanced, std::span<const PutIn> put_in, const GasRoom& room);

std::string accounts_text(const chem::Equation& balanced, std::span<const PutIn> put_in, const Accounts& accounts,
                          const GasRoom& room);
nlohmann::ordered_json accounts_json(const chem::Equation& balanced, std::span<const PutIn> put_in,
                                     const Accounts& accounts, const GasRoom& room);

}  // namespace sash::cli
