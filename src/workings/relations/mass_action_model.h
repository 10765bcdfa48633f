#pragma once
// One solution at equilibrium as a function: what was put in (mol/L, and a pH where one is held) to what is there. The
// constants are those of the tables, or the few that a person gives. Relations tie its results to figures. Immutable
// after construction; safe from any thread. Source: chem/mass_action.h, chem/equilibrium_constants.h.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chem/equilibrium_constants.h"
#include "chem/mass_action.h"
#include "support/outcome.h"

namespace sash::workings {

/// A constant that entered the model.
struct ModelConstant {
  std::size_t index = 0;  ///< among those of the system
  std::string equation;   ///< as printed
  double log_k = 0;       ///< log10
  double spread = 0;      ///< its standard uncertainty
  std::string source;
};

/// What one may ask of a solution.
struct Asked {
  enum class What {
    ph,
    species,      ///< mol/L dissolved
    precipitate,  ///< mol of a solid in one litre
    solubility,   ///< mol/L of a solid that dissolve until the solution is saturated with it
  };
  What what = What::ph;
  std::size_t index = 0;  ///< among the species or solids of the system
};

class MassActionModel {
 public:
  /// With the tables' constants at `celsius`.
  /// Fails: as chem::in_components and chem::system_of.
  static Outcome<MassActionModel> from_tables(const std::vector<chem::Formula>& put_in,
                                              const std::vector<chem::Formula>& solids, double celsius);

  /// With the constants in `text`, such as "CH3COOH = H^+ + CH3COO^-: 1.8e-5; AgCl(s) = Ag^+ + Cl^-: pK 9.74", without
  /// activities. Where H+ or OH- is among them, that of water is added. What they do not name only looks on.
  /// Fails: Code::malformed for a text that cannot be read; as ChemicalSystem.
  static Outcome<MassActionModel> from_text(std::string_view text, const std::vector<chem::Formula>& put_in);

  const chem::ChemicalSystem& system() const { return system_; }
  bool has_ph() const { return proton_.has_value(); }
  bool activities() const { return activities_; }

  /// Fails: Code::not_found for what the system does not have.
  Outcome<Asked> species(const chem::Formula& formula) const;
  Outcome<Asked> solid(const chem::Formula& formula, Asked::What what) const;

  /// mol/L of each substance put in, in the order given when it was made. Fails: as chem::equilibrium.
  Outcome<chem::Equilibrium> settle(std::span<const double> molarities, std::optional<double> held_ph) const;

  /// A pH, or mol/L. Fails: as settle.
  Outcome<double> answer(const Asked& asked, std::span<const double> molarities, std::optional<double> held_ph) const;

  /// The same solution by other constants: log10 of each of the system's raised by so much.
  MassActionModel shifted(std::span<const double> by) const;

  /// Those that made the species and solids that are there in `state`, but for traces, and those of `solids`, which are
  /// asked for.
  std::vector<ModelConstant> constants_behind(const chem::Equilibrium& state,
                                              const std::vector<chem::Formula>& solids) const;

 private:
  MassActionModel(chem::ChemicalSystem system, bool activities);
  Outcome<void> split_up(const std::vector<chem::Formula>& put_in);
  Outcome<std::vector<double>> in_components(const chem::Formula& formula) const;
  Outcome<chem::Equilibrium> settle_totals(std::vector<double> totals, std::optional<double> held_ph) const;
  Outcome<double> dissolving(const Asked& asked, std::vector<double> totals, std::optional<double> held_ph) const;
  std::vector<double> totals_of(std::span<const double> molarities) const;

  chem::ChemicalSystem system_;
  bool activities_ = false;
  double celsius_ = 25;
  std::optional<std::size_t> proton_;       // among the species; a component
  std::vector<std::vector<double>> split_;  // of each substance put in
  std::vector<ModelConstant> given_;        // one for each of the system's; empty: the tables'
};

}  // namespace sash::workings
