#pragma once
// Ions by name, and the formula and name of what two of them make. Private to the part; immutable, pure.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "chem/formula.h"

namespace sash::chem::inner {

struct Ion {
  std::string name;  ///< "sulfate"; for cations of one element without its number: "copper"
  std::vector<std::string> synonyms;
  std::vector<std::string> acids;  ///< of an anion: "sulfuric acid"
  std::string core;                ///< formula without charge: "SO4"
  int charge = 0;                  ///< signed
  bool organic = false;
  bool show_number = false;  ///< named with its oxidation number: "copper(II)"
  Composition atoms;
};

/// An element as a cation: its usual charges, and the one meant when none is said, if that is clear.
struct CationElement {
  std::string symbol;
  std::string name;
  std::vector<int> charges;
  std::optional<int> usual;
};

const std::vector<Ion>& anions();
const std::vector<Ion>& polyatomic_cations();
const std::vector<CationElement>& cation_elements();
const CationElement* find_cation_element(std::string_view symbol);

/// The cation of one element with a charge, named with its number where the element has several. Mercury(I) is the ion
/// of two atoms.
Ion element_cation(const Element& element, int charge);

/// Whether charges tell the formula of the two named without a state. They do not where a metal takes up the other
/// element: titanium nitride is TiN, zirconium boride ZrB2, cobalt silicide CoSi2, copper phosphide Cu3P.
bool follows_charges(const Element& cation, const Ion& anion);

std::string cation_name(const Ion& cation);  ///< "copper(II)", "ammonium", "silver"

/// "CuSO4", "Fe2(SO4)3", "CH3COONa".
std::string salt_formula(const Ion& cation, const Ion& anion);
std::string salt_name(const Ion& cation, const Ion& anion);

/// A salt with fewer cations than the anion's charge asks, the rest hydrogen: 1 sodium, phosphate: "NaH2PO4".
std::optional<std::string> acid_salt_formula(const Ion& cation, int cations, const Ion& anion);

std::string acid_formula(const Ion& anion);  ///< "H2SO4"; "CH3COOH" for organic anions that end in their oxygen

std::string ion_formula(const Ion& ion);  ///< "SO4^2-"

}  // namespace sash::chem::inner
