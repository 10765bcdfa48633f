#pragma once
// The density of one solute's solutions as a function of strength, for what follows the curve: it looks the tables up
// once. Single densities are chem/density.h. Pure; the function may be called from any thread.
// Sources: as chem/density.h.

#include <functional>
#include <string_view>

#include "chem/density.h"

namespace sash::chem {

struct SolutionCurve {
  std::function<double(double w)> density;  ///< g/mL at a mass fraction; NaN where no table covers it
  std::string source;
};

/// At one temperature. Fails: as solution_density.
Outcome<SolutionCurve> solution_curve(std::string_view solute, double celsius = table_celsius);

}  // namespace sash::chem
