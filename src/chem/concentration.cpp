#include "chem/concentration.h"

#include <cmath>

namespace sash::chem {

Outcome<double> solve_dilution(const Dilution& d) {
  int missing = 0;
  for (const auto& part : {d.c1, d.v1, d.c2, d.v2}) {
    missing += part ? 0 : 1;
    if (part && (!(*part > 0) || !std::isfinite(*part))) {
      return Fault::of(Code::out_of_range, "Concentrations and volumes of a dilution must be numbers above 0.");
    }
  }
  if (missing != 1) {
    return Fault::of(Code::wrong_use, "A dilution has four figures; give three of them and leave one out.");
  }
  if (!d.c1) return *d.c2 * *d.v2 / *d.v1;
  if (!d.v1) return *d.c2 * *d.v2 / *d.c1;
  if (!d.c2) return *d.c1 * *d.v1 / *d.v2;
  return *d.c1 * *d.v1 / *d.c2;
}

}  // namespace sash::chem
