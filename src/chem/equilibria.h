#pragma once
// Real substances in water: what they become, the pH, what precipitates and what dissolves again, and how that changes
// as a reagent is run in. It names substances by formula and takes constants from chem/equilibrium_constants.h; redox
// reactions are not followed, every oxidation state stays what it was put in as.
// mol/L of solution. Pure, safe from any thread.
// Sources: as chem/equilibrium_constants.h and chem/mass_action.h.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "chem/equilibrium_constants.h"
#include "chem/mass_action.h"
#include "support/outcome.h"

namespace sash::chem {

/// So much of a substance in each litre of the mixture, before anything reacts.
struct Ingredient {
  Formula what;
  double molarity = 0;
};

struct MixtureChoice {
  SystemChoice system;
  bool activities = true;
  std::optional<double> held_ph;  ///< keeps the pH there, as a strong buffer would
};

struct SpeciesAmount {
  Formula formula;
  double molarity = 0;
};

/// A mixture at equilibrium.
struct Mixed {
  ChemicalSystem system;
  Equilibrium state;
  double ph = 7;
  std::vector<SpeciesAmount> dissolved;  ///< all of them, the most plentiful first
  std::vector<SpeciesAmount> solids;     ///< those that form, mol per litre of solution
  std::string note;
};

/// Lets everything react. Hydrates give up their water; water itself may be listed and is ignored.
/// Fails: Code::not_found for a substance no constant knows; Code::out_of_range for a molarity below 0; as equilibrium.
Outcome<Mixed> equilibrate(std::span<const Ingredient> ingredients, const MixtureChoice& choice = {});

/// -log10 of the activity of H+. Fails: as equilibrate.
Outcome<double> ph_of(std::span<const Ingredient> ingredients, const MixtureChoice& choice = {});

/// mol/L of a solid that dissolves in a medium until it is saturated, whatever it becomes there.
/// Fails: as equilibrate; Code::not_found when the solid is not tabulated; Code::out_of_range when it dissolves beyond
/// 10 mol/L.
Outcome<double> solubility(const Formula& solid, std::span<const Ingredient> medium, const MixtureChoice& choice = {});

struct SweepPoint {
  double added = 0;   ///< L of reagent
  double litres = 0;  ///< of the mixture
  double ph = 7;
  Equilibrium state;  ///< of Sweep::system; molarities in the mixture
};
struct Sweep {
  ChemicalSystem system;
  std::vector<SweepPoint> points;
};
/// Runs a reagent of the given strength into `litres` of a solution; volumes add up. One point for each volume.
/// Fails: as equilibrate; Code::out_of_range for volumes that cannot be.
Outcome<Sweep> sweep(std::span<const Ingredient> solution, double litres, std::span<const Ingredient> reagent,
                     std::span<const double> added, const MixtureChoice& choice = {});

/// How a substance splits up: components and their counts, H+ among them (negative where it takes H+ up), water left
/// out.
struct ComponentCount {
  Formula component;
  double count = 0;
};
/// Fails: Code::not_found when it cannot be made of known components.
Outcome<std::vector<ComponentCount>> in_components(const Formula& substance);

}  // namespace sash::chem
