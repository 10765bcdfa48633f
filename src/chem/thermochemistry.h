#pragma once
// Tabulated enthalpies and heat capacities, and the enthalpy of a reaction from them. What heat does to a temperature
// is chem/heat.h. All at 25 °C and 1 bar; solutes at infinite dilution, so the heat of mixing strong solutions is not
// what these give.
// kJ/mol and J/(mol K). Pure, safe from any thread.
// Sources: each row of the tables names its own (CRC Handbook; CODATA; NBS Tables of Chemical
// Thermodynamic Properties; Parker, NSRDS-NBS 2; OpenStax Chemistry 2e, Appendix G; PHREEQC minteq.v4).

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chem/equation.h"
#include "support/outcome.h"

namespace sash::chem {

/// A tabulated figure. The spread is the rounding of its last digit: half of it, rectangular.
struct Tabulated {
  double value = 0;
  double spread = 0;
  std::string source;
};

/// Of formation from the elements, kJ/mol. Without a state the one state that is tabulated is taken.
/// Fails: Code::not_found; Code::ambiguous when several states are tabulated and none is given (in Fault::others).
Outcome<Tabulated> formation_enthalpy(const Formula& what, std::optional<State> state = std::nullopt);

/// J/(mol K) at constant pressure. Fails: as formation_enthalpy.
Outcome<Tabulated> molar_heat_capacity(const Formula& what, std::optional<State> state = std::nullopt);

/// One term of a sum over an equation: the coefficient is negative on the left.
struct HeatTerm {
  double coefficient = 0;
  double enthalpy = 0;  ///< kJ/mol
};
/// kJ for the reaction as written. Pure sum.
double reaction_enthalpy(std::span<const HeatTerm> terms);

struct ReactionHeat {
  double value = 0;   ///< kJ for the equation as written with its coefficients; negative gives heat off
  double spread = 0;  ///< from the tables' last digits
  std::vector<std::string> sources;
};
/// Of a balanced equation; species without a state as in formation_enthalpy, ions in water.
/// Fails: as formation_enthalpy, naming all such species in Fault::others; Code::unsupported for electrons.
Outcome<ReactionHeat> reaction_enthalpy(const Equation& equation);

/// kJ/mol of dissolving in very much water; negative warms. Fails: Code::not_found; Code::ambiguous.
Outcome<Tabulated> solution_enthalpy(const Formula& solute, std::optional<State> state = std::nullopt);

/// kJ per mol of water formed (per mol of base for ammonia), when an acid named so meets a strong base, or ammonia a
/// strong acid. Fails: Code::not_found.
Outcome<Tabulated> neutralisation_enthalpy(std::string_view acid_or_base);

struct PhaseChange {
  std::optional<double> fusion;  ///< kJ/mol at the melting point
  std::optional<double> melting_kelvin;
  std::optional<double> vaporisation;  ///< kJ/mol at the boiling point
  std::optional<double> boiling_kelvin;
  std::optional<double> vaporisation_25;  ///< kJ/mol at 25 °C
  std::string source;
};
/// Of a substance named by name or formula. Fails: Code::not_found; Code::ambiguous.
Outcome<PhaseChange> phase_change(std::string_view substance);

/// J/(g K): water by temperature, vessels and materials by name ("glass", "polystyrene"), else a substance from its
/// molar heat capacity. Fails: Code::not_found; Code::out_of_range (water outside 0 to 100 °C).
Outcome<Tabulated> heat_capacity(std::string_view material, double celsius = 25);
/// The mean between two temperatures: what a warming from one to the other takes, in J/(g K). Fails: as heat_capacity.
Outcome<Tabulated> mean_heat_capacity(std::string_view material, double from, double to);

}  // namespace sash::chem
