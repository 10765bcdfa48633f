#include "chem/inner/salts.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "chem/inner/name_words.h"
#include "chem/inner/table.h"
#include "embedded/cation_charges.h"
#include "embedded/ions.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::chem::inner {
namespace {

std::vector<std::string> listed(std::string_view cell) {
  std::vector<std::string> out;
  for (const std::string_view piece : split(cell, ';')) {
    if (!trim(piece).empty()) out.emplace_back(trim(piece));
  }
  return out;
}

std::vector<Ion> read_ions(bool cations) {
  std::vector<Ion> read;
  each_row(embedded::ions, [&read, cations](TableRow row) {
    if ((row[3] == "cation") != cations) return;
    const Outcome<Formula> formula = read_formula(row[1]);
    promise(formula.ok() && formula->charge() != 0, "every formula in the table of ions reads, with a charge");
    Ion ion;
    ion.name = row[0];
    ion.core = row[1].substr(0, row[1].find('^'));
    ion.synonyms = listed(row[2]);
    ion.acids = listed(row[4]);
    ion.charge = formula->charge();
    ion.organic = row[3].starts_with("organic");
    ion.atoms = formula->composition();
    read.push_back(std::move(ion));
  });
  return read;
}

bool needs_brackets(std::string_view core) {
  if (core.starts_with('[') && core.ends_with(']')) return false;
  const auto capitals = std::ranges::count_if(core, [](char c) { return c >= 'A' && c <= 'Z'; });
  const bool digits = std::ranges::any_of(core, [](char c) { return c >= '0' && c <= '9'; });
  return capitals > 1 || digits;
}

std::string times(std::string_view core, int n) {
  if (n == 1) return std::string(core);
  const std::string body = needs_brackets(core) ? "(" + std::string(core) + ")" : std::string(core);
  return body + std::to_string(n);
}

struct Counts {
  int cations;
  int anions;
};
Counts neutral_counts(const Ion& cation, const Ion& anion) {
  const int together = std::lcm(cation.charge, -anion.charge);
  return {together / cation.charge, together / -anion.charge};
}

}  // namespace

const std::vector<Ion>& anions() {
  static const std::vector<Ion> all = read_ions(false);
  return all;
}

const std::vector<Ion>& polyatomic_cations() {
  static const std::vector<Ion> all = read_ions(true);
  return all;
}

const std::vector<CationElement>& cation_elements() {
  static const std::vector<CationElement> all = [] {
    std::vector<CationElement> read;
    each_row(embedded::cation_charges, [&read](TableRow row) {
      CationElement c;
      c.symbol = row[0];
      const Element* e = find_element(row[0]);
      promise(e != nullptr, "every symbol in the table of cations is an element");
      c.name = e->name;
      for (const std::string_view charge : split(row[1], ';')) c.charges.push_back(cell_integer(charge));
      if (!row[2].empty()) c.usual = cell_integer(row[2]);
      read.push_back(std::move(c));
    });
    return read;
  }();
  return all;
}

const CationElement* find_cation_element(std::string_view symbol) {
  const auto& all = cation_elements();
  const auto at = std::ranges::find(all, symbol, &CationElement::symbol);
  return at == all.end() ? nullptr : &*at;
}

Ion element_cation(const Element& element, int charge) {
  if (element.symbol == "Hg" && charge == 1) {
    return *std::ranges::find(polyatomic_cations(), std::string_view("dimercury(I)"), &Ion::name);
  }
  const CationElement* known = find_cation_element(element.symbol);
  Ion ion;
  ion.name = element.name;
  ion.core = element.symbol;
  ion.charge = charge;
  // Silver is called silver, not silver(I); its second state is rare and named.
  const bool one_usual_state =
      known != nullptr && (known->charges.size() == 1 || element.symbol == "Ag") && known->usual == charge;
  ion.show_number = !one_usual_state;
  ion.atoms = {{Nuclide{element.number, std::nullopt}, 1}};
  return ion;
}

bool follows_charges(const Element& cation, const Ion& anion) {
  if (anion.name == "boride" || anion.name == "silicide") return false;
  const int z = cation.number;
  if (anion.name == "carbide") {
    const CationElement* known = find_cation_element(cation.symbol);
    constexpr int beryllium = 4;
    return known != nullptr && known->charges.size() == 1 && known->usual.value_or(0) <= 2 && z != beryllium;
  }
  constexpr std::array<std::string_view, 4> taken_up_by_metals{"hydride", "nitride", "phosphide", "arsenide"};
  if (std::ranges::find(taken_up_by_metals, anion.name) == taken_up_by_metals.end()) return true;
  const auto within = [z](int first, int last) { return first <= z && z <= last; };
  return !within(22, 29) && !within(40, 46) && !within(72, 79) && z < 90;  // titanium to copper and below, actinides
}

std::string cation_name(const Ion& cation) {
  if (cation.name == "dimercury(I)") return "mercury(I)";
  return cation.show_number ? cation.name + "(" + roman(cation.charge) + ")" : cation.name;
}

std::string salt_formula(const Ion& cation, const Ion& anion) {
  const Counts n = neutral_counts(cation, anion);
  if (anion.organic && n.cations == 1 && n.anions == 1) return anion.core + cation.core;
  return times(cation.core, n.cations) + times(anion.core, n.anions);
}

std::string salt_name(const Ion& cation, const Ion& anion) { return cation_name(cation) + " " + anion.name; }

std::optional<std::string> acid_salt_formula(const Ion& cation, int cations, const Ion& anion) {
  const int hydrogens = -anion.charge - cations * cation.charge;
  if (hydrogens < 0) return std::nullopt;
  if (hydrogens == 0) return times(cation.core, cations) + anion.core;
  return times(cation.core, cations) + times("H", hydrogens) + anion.core;
}

std::string acid_formula(const Ion& anion) {
  if (anion.organic && anion.charge == -1 && anion.core.ends_with('O')) return anion.core + "H";
  return times("H", -anion.charge) + anion.core;
}

std::string ion_formula(const Ion& ion) {
  const int size = ion.charge < 0 ? -ion.charge : ion.charge;
  return ion.core + "^" + (size == 1 ? "" : std::to_string(size)) + (ion.charge < 0 ? "-" : "+");
}

}  // namespace sash::chem::inner
