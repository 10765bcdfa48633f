#include "chem/inner/abbreviations.h"

namespace sash::chem::inner {

Composition atoms_of(const Abbreviation& a) {
  Composition atoms;
  const auto put = [&atoms](int number, int n) {
    if (n > 0) add_atoms(atoms, Nuclide{number, std::nullopt}, n);
  };
  put(6, a.carbon);
  put(1, a.hydrogen);
  put(7, a.nitrogen);
  put(8, a.oxygen);
  return atoms;
}

}  // namespace sash::chem::inner
