#pragma once
// The table of equilibrium constants, all sets of it, and the system of every species that some components can form.
// Several sources give one complex different constants: one consistent set is for the solver, the others are listed for
// comparison and never mixed in. Solving is chem/mass_action.h.
// 25 °C and ionic strength 0 unless a row says otherwise. Immutable; safe from any thread.
// Sources: USGS PHREEQC database minteq.v4.dat; OpenStax Chemistry 2e, Appendices J and K; D. Harvey, Analytical
// Chemistry 2.1, Appendix 12 (ammines); ThermoChimie; others by row.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "chem/mass_action.h"
#include "support/outcome.h"

namespace sash::chem {

struct EquilibriumConstant {
  Equation equation;
  double log_k = 0;               ///< log10
  double rounding = 0;            ///< of it: half a unit of the last printed digit
  std::optional<double> delta_h;  ///< kJ/mol, to carry it to other temperatures
  std::string set;                ///< "minteq.v4", "OpenStax J", "OpenStax K", "other"
  bool for_solver = false;
  std::string source;

  /// log10 at another temperature by van 't Hoff; the same without an enthalpy.
  double log_k_at(double celsius) const;
};

std::span<const EquilibriumConstant> equilibrium_constants();

/// The rows whose equation has these species with these counts on both sides, in whatever order; water and the order of
/// sides count. For a solid, mark it (s).
std::vector<const EquilibriumConstant*> constants_of(const Equation& equation);

/// The standard uncertainty of log10 of a constant of `system`: half of how far the sources lie apart that tell what
/// the same substance is made with, taken as rectangular; where there is one source, what its digits leave open. A
/// source more than a power of ten off the others' is left out: it means something else, or is in error.
double log_k_spread(const ChemicalSystem& system, std::size_t constant, double celsius = 25);

struct SystemChoice {
  double celsius = 25;
  bool solids = true;
  /// Alkali ions paired with anions (NaCO3^- ...). The Davies equation counts what holds those together already: with
  /// them the pH of the NBS standard buffers comes out 0.1 too low, without them within 0.02.
  bool alkali_pairs = false;
  std::vector<Formula> only;     ///< when not empty: no species but these, the components and H+/OH-; solids too
  std::vector<Formula> without;  ///< species and solids left out
};
/// Every species of the solver's set that can be made of these components. H+ comes first and is always one.
/// Fails: Code::not_found for a component no constant knows.
Outcome<ChemicalSystem> system_of(std::span<const Formula> components, const SystemChoice& choice = {});

/// The components the solver's set is written in: "Ag^+", "NH4^+", "CO3^2-", ...
std::span<const Formula> known_components();

}  // namespace sash::chem
