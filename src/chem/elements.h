#pragma once
// The elements and their isotopes: symbols, names, standard atomic weights and atomic masses.
// Which table: the IUPAC standard atomic weights 2021, abridged to five figures. The CIAAW revised gadolinium, lutetium
// and zirconium in 2024; the 2021 values are kept, so that every molar mass comes from one published table. Not here:
// what a formula weighs (chem/molar_mass.h). Immutable once read; safe from any thread. Sources: Prohaska et al., Pure
// Appl. Chem. 94 (2022) 573-600, Table 1 (weights); AME2020, Wang et al., Chinese Phys. C 45 (2021) 030003 (isotope
// masses).

#include <compare>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace sash::chem {

/// One element. Weights are relative, numerically g/mol.
struct Element {
  int number = 0;                ///< atomic number
  std::string_view symbol;       ///< "Cu"
  std::string_view name;         ///< IUPAC spelling: "aluminium", "caesium", "sulfur"
  std::optional<double> weight;  ///< abridged standard atomic weight; none for elements without a characteristic one
  double bound = 0;              ///< the published plus-minus of the abridged weight: limits, not a standard deviation
  bool interval = false;      ///< natural material varies so much that the unabridged value is published as an interval
  std::string_view standard;  ///< the unabridged value as published: "[1.00784,1.00811]" or "63.546(0.003)"
};

/// Name of the table the weights are from, for display beside a result.
std::string_view weights_table_name();

std::span<const Element> elements();                   ///< by atomic number, 1 to 118
const Element* find_element(std::string_view symbol);  ///< exact case; nullptr when there is none
const Element& element(int number);                    ///< Requires: 1 <= number <= 118

/// The atomic mass of one nuclide and its standard uncertainty, in u; none when the evaluation does not list it.
struct IsotopeMass {
  double mass;
  double spread;
};
std::optional<IsotopeMass> isotope_mass(int number, int mass_number);

/// What is counted in a formula: an element as it occurs in nature, or one isotope of it.
struct Nuclide {
  int number = 0;                  ///< atomic number
  std::optional<int> mass_number;  ///< none: the natural mixture

  auto operator<=>(const Nuclide&) const = default;
  bool operator==(const Nuclide&) const = default;
};

std::string symbol_of(Nuclide what);  ///< "Cu", "[13C]", "D", "T"

}  // namespace sash::chem
