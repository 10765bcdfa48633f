#include "chem/density_curve.h"

#include <limits>

#include "chem/inner/density_tables.h"

namespace sash::chem {

Outcome<SolutionCurve> solution_curve(std::string_view solute, double celsius) {
  constexpr double trace = 0.01;
  auto tables = inner::tables_of(solute);
  if (!tables) return tables.fault();
  const auto there = tables->at(trace, celsius);
  if (!there) return there.fault();
  return SolutionCurve{[tables = *std::move(tables), celsius](double w) {
                         const auto density = tables.at(w, celsius);
                         return density ? density->value : std::numeric_limits<double>::quiet_NaN();
                       },
                       there->source};
}

}  // namespace sash::chem
