#pragma once
// Amounts through a balanced equation: what limits, what is left over, how much can form, how much is needed; and
// formulas from analysis. Values only: the uncertainty of a chain of figures is the business of the workings. Amounts
// are in mol, masses in g. Pure, safe from any thread. Sources: the definitions of amount of substance and extent of
// reaction, IUPAC Green Book, 3rd ed., section 2.10.

#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "chem/equation.h"
#include "support/outcome.h"

namespace sash::chem {

/// mol in `grams` of it. Fails: as molar_mass.
Outcome<double> amount_of(const Formula& what, double grams);
/// g in `mol` of it. Fails: as molar_mass.
Outcome<double> mass_of(const Formula& what, double mol);

/// Mol of `wanted` that go with `mol` of `known` in the equation, by its coefficients (absent ones count 1).
/// Requires: both are indices into equation.all().
double amount_with(const Equation& equation, std::size_t known, double mol, std::size_t wanted);
/// The same in grams of both. Fails: as molar_mass.
Outcome<double> mass_with(const Equation& equation, std::size_t known, double grams, std::size_t wanted);

/// So much of one reactant was taken.
struct Given {
  std::size_t species;  ///< index into equation.all(), on the left
  double mol;
};

struct ReactantUse {
  std::size_t species;
  double given;        ///< mol
  double used;         ///< mol, when the limiting reactant is used up
  double left;         ///< mol left over; 0 for what limits
  double equivalents;  ///< how many times what the limiting reactant needs of it
  bool limiting;       ///< more than one when they are given in exact proportion
};

struct ProductYield {
  std::size_t species;
  double mol;   ///< theoretical yield
  double mass;  ///< theoretical yield, g
};

struct ReactionOutcome {
  double extent;                       ///< mol of the reaction as written
  std::vector<ReactantUse> reactants;  ///< those given, in the order given
  std::vector<ProductYield> products;  ///< all on the right but electrons, in the order written
};

/// Lets the reaction run until a given reactant is used up; reactants not given are there in plenty.
/// Fails: Code::wrong_use (nothing given, a species given twice or not on the left), Code::not_finite and
/// Code::out_of_range for amounts that are no positive numbers, Code::impossible when the coefficients do not balance
/// (the sentence says what is off); as molar_mass.
Outcome<ReactionOutcome> react(const Equation& balanced, std::span<const Given> given);

/// 100 * actual/theoretical; both in one unit. Fails: Code::out_of_range unless theoretical > 0 and actual >= 0.
Outcome<double> percent_yield(double actual, double theoretical);

/// Mass fraction of the water of crystallisation, 0 when there is none. Fails: as molar_mass.
Outcome<double> water_fraction(const Formula& hydrate);

/// One element found by analysis, in grams or in percent by mass.
struct ElementMass {
  Nuclide what;
  double mass;
};

/// The simplest whole-number composition that fits within `tolerance` (relative, of each ratio), trying up to 12 times
/// the least element. Fails: Code::impossible when none fits; Code::out_of_range for masses that are not positive.
Outcome<Composition> empirical_formula(std::span<const ElementMass> found, double tolerance = 0.02);

/// How many empirical units make a molar mass of `molar_mass` g/mol: the nearest whole number.
/// Fails: Code::impossible when that is further off than `tolerance` (relative).
Outcome<std::int64_t> empirical_units(const Composition& empirical, double molar_mass, double tolerance = 0.03);

/// Carbon, hydrogen and, as the rest of the sample, oxygen, from the carbon dioxide and water of a combustion; all in
/// g. Fails: Code::impossible when carbon and hydrogen weigh more than the sample.
Outcome<std::vector<ElementMass>> combustion_analysis(double sample, double carbon_dioxide, double water);

/// The balanced complete combustion of a compound of C, H, O, N and S, to CO2, H2O, N2 and SO2.
/// Fails: Code::unsupported for other elements, ions, and what has nothing to burn.
Outcome<Equation> complete_combustion(const Formula& fuel);

}  // namespace sash::chem
