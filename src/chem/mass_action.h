#pragma once
// A set of species and solids tied by mass action, and its equilibrium: any species, any constants, as many or as few
// as are wanted. Which constants belong to which substances is chem/equilibrium_constants.h; mixing real substances is
// chem/equilibria.h.
// mol/L at one temperature. Water is the solvent: its activity is 1 and it is left out of every balance. Pure, safe
// from any thread. Sources: mass action; C. W. Davies, Ion Association (1962) for activity coefficients, A = 0.509 at
// 25 °C.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "chem/equation.h"
#include "support/outcome.h"

namespace sash::chem {

/// One dissolved species: so much of each component, and the logarithm of the constant that makes it from them.
struct DissolvedSpecies {
  Formula formula;
  std::vector<double> components;
  double log_beta = 0;
  std::vector<double> rests_on = {};  ///< how far log_beta rises with log10 of each constant; later ones: not at all
};

/// One solid that may form: it dissolves to so much of each component, log10 of their product at saturation.
struct FormingSolid {
  Formula formula;
  std::vector<double> components;
  double log_solubility = 0;
  std::vector<double> rests_on = {};  ///< as that of a species
};

/// A constant of a system, as it was added.
struct TyingConstant {
  Equation equation;
  double log_k = 0;
  Formula made;  ///< the species or solid it brought in
};

class ChemicalSystem {
 public:
  /// Every other species is made of these and water. They count as species themselves.
  /// Fails: Code::wrong_use for a component given twice or water.
  static Outcome<ChemicalSystem> of(std::span<const Formula> components);

  /// Adds the one species of the equation that is not known yet, with log10 K of the equation as written; or the solid
  /// when one is marked (s). Water may stand on either side.
  /// Fails: Code::wrong_use unless exactly one is new; Code::impossible when the equation does not balance.
  Outcome<void> add(const Equation& equation, double log_k);
  /// The same from text. Fails: also as read_equation.
  Outcome<void> add(std::string_view equation, double log_k);

  std::size_t component_count() const { return component_count_; }
  std::span<const DissolvedSpecies> species() const { return species_; }  ///< components first
  std::span<const FormingSolid> solids() const { return solids_; }
  std::span<const TyingConstant> constants() const { return constants_; }  ///< in the order they were added
  std::optional<std::size_t> find(const Formula& formula) const;           ///< among the species
  std::optional<std::size_t> find_solid(const Formula& formula) const;

  /// log10 K of any equation among the species and solids of this system.
  /// Fails: Code::not_found for a species it does not have; Code::impossible when the components do not balance.
  Outcome<double> log_k(const Equation& equation) const;

  /// The same system with log10 of each constant raised by so much. Requires: one number for each constant.
  ChemicalSystem shifted(std::span<const double> by) const;

 private:
  std::optional<std::vector<double>> in_components(const Species& species) const;
  std::size_t component_count_ = 0;
  std::vector<DissolvedSpecies> species_;
  std::vector<FormingSolid> solids_;
  std::vector<TyingConstant> constants_;
};

/// What is put in, in terms of the components.
struct Amounts {
  std::vector<double> totals;                ///< mol/L of each component; that of H+ may be negative (a base)
  std::vector<std::optional<double>> fixed;  ///< mol/L of components held constant (a pH); may be empty
};

struct Equilibrium {
  std::vector<double> molarity;                  ///< of each species, mol/L
  std::vector<double> solid;                     ///< of each solid, mol per litre of solution; 0 when it does not form
  std::vector<double> log_saturation;            ///< of each solid: below 0 under-, 0 saturated
  std::vector<double> log_activity_coefficient;  ///< of each species; 0 without activities
  double ionic_strength = 0;                     ///< mol/L, of the species
  int steps = 0;
  std::string note;  ///< a sentence when a model was used beyond its range; may be empty
};

/// Solves for everything at once. With `activities`, by the Davies equation.
/// Fails: Code::impossible when a component that can only be positive has a total below 0; Code::not_finite;
/// Code::out_of_range for fixed concentrations not above 0; Code::unsupported when the iteration does not settle.
Outcome<Equilibrium> equilibrium(const ChemicalSystem& system, const Amounts& amounts, bool activities = false);

}  // namespace sash::chem
