#pragma once
// Groups and ligands that chemists write by a short name inside a formula. Private to the part. Pure.
// Source: IUPAC Nomenclature of Inorganic Chemistry, Recommendations 2005, Table VII (ligands); Standard Abbreviations
// and Acronyms, J. Org. Chem. guidelines for authors (groups).

#include <array>
#include <string_view>

#include "chem/formula.h"

namespace sash::chem::inner {

// Group abbreviations that no element symbol can be mistaken for; acetyl needs an O before it and is handled apart.
struct Abbreviation {
  std::string_view text;
  int carbon;
  int hydrogen;
  int nitrogen;
  int oxygen;
};
// A longer one stands before the one it begins with.
inline constexpr std::array abbreviations{
    Abbreviation{"Me", 1, 3, 0, 0},   Abbreviation{"Et", 2, 5, 0, 0},    Abbreviation{"Bu", 4, 9, 0, 0},
    Abbreviation{"Ph", 6, 5, 0, 0},   Abbreviation{"Bn", 7, 7, 0, 0},    Abbreviation{"Bz", 7, 5, 0, 1},
    Abbreviation{"Cp", 5, 5, 0, 0},   Abbreviation{"Cy", 6, 11, 0, 0},   Abbreviation{"py", 5, 5, 1, 0},
    Abbreviation{"en", 2, 8, 2, 0},   Abbreviation{"acac", 5, 7, 0, 2},  Abbreviation{"bipy", 10, 8, 2, 0},
    Abbreviation{"bpy", 10, 8, 2, 0}, Abbreviation{"phen", 12, 8, 2, 0}, Abbreviation{"dien", 4, 13, 3, 0},
    Abbreviation{"iPr", 3, 7, 0, 0},  Abbreviation{"i-Pr", 3, 7, 0, 0},  Abbreviation{"nPr", 3, 7, 0, 0},
    Abbreviation{"n-Pr", 3, 7, 0, 0}, Abbreviation{"tBu", 4, 9, 0, 0},   Abbreviation{"t-Bu", 4, 9, 0, 0},
    Abbreviation{"nBu", 4, 9, 0, 0},  Abbreviation{"n-Bu", 4, 9, 0, 0},  Abbreviation{"sBu", 4, 9, 0, 0},
    Abbreviation{"s-Bu", 4, 9, 0, 0}, Abbreviation{"iBu", 4, 9, 0, 0},   Abbreviation{"i-Bu", 4, 9, 0, 0},
};
inline constexpr Abbreviation acetyl{"Ac", 2, 3, 0, 1};

/// The atoms of one of them.
Composition atoms_of(const Abbreviation& abbreviation);

}  // namespace sash::chem::inner
