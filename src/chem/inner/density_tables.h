#pragma once
// The tables of densities as read: measured curves at 20 °C, the coefficients of the density model, pure substances.
// Finding the row a person means is here too, because a formula may stand for several (C12H22O11).

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chem/density.h"
#include "chem/formula.h"
#include "support/outcome.h"

namespace sash::chem::inner {

constexpr double water_at_20 = 0.998207;  ///< g/mL, Tanaka et al. 2001

struct CurvePoint {
  double w;        ///< mass fraction
  double density;  ///< g/mL at 20 °C
};

struct DensityCurve {
  std::vector<std::string> names;
  std::string formula;
  std::optional<Formula> read;  ///< the same, read once
  std::string source;
  std::vector<CurvePoint> points;  ///< by rising w, pure water first
};

/// Laliberte and Cooper: the apparent specific volume of a solute as a function of w and temperature.
struct DensityModel {
  std::vector<std::string> names;
  std::string formula;
  std::optional<Formula> read;  ///< the same, read once
  std::string source;
  double c0, c1, c2, c3, c4;
  double t_min, t_max, w_max;

  bool covers(double w, double celsius) const;
  /// g/mL, from the density of water in g/mL. Requires: covers(w, celsius).
  double density(double w, double celsius, double water) const;
};

struct PureDensity {
  std::vector<std::string> names;
  std::string formula;
  std::optional<Formula> read;  ///< the same, read once
  std::string source;
  bool liquid;
  double density;  ///< g/mL
  double celsius;
};

/// What is known of one solute. The measured curve counts where it reaches; the model carries it to other temperatures
/// and, joined on at its end, to stronger solutions.
struct SolutionTables {
  std::string solute;  ///< as asked for
  const DensityCurve* curve = nullptr;
  const DensityModel* model = nullptr;

  /// Fails: Code::out_of_range, with what is covered.
  Outcome<Density> at(double w, double celsius) const;
  /// The largest mass fraction at() answers for; 0 when there is none at that temperature.
  double strongest(double celsius) const;
};

/// Both tables for a solute; at least one is there. Fails: Code::not_found, Code::ambiguous.
Outcome<SolutionTables> tables_of(std::string_view solute);

/// Fails: Code::not_found, Code::ambiguous.
Outcome<const PureDensity*> pure_row(std::string_view substance);

}  // namespace sash::chem::inner
