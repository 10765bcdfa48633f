#include "chem/inner/name_parts.h"

#include <algorithm>
#include <array>

#include "chem/inner/table.h"
#include "embedded/compound_names.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::name_key;

struct OldName {
  std::string_view name;
  std::string_view symbol;
  int charge;
};
// Names from before oxidation numbers were written.
constexpr std::array old_names{
    OldName{"cuprous", "Cu", 1},   OldName{"cupric", "Cu", 2},    OldName{"ferrous", "Fe", 2},
    OldName{"ferric", "Fe", 3},    OldName{"stannous", "Sn", 2},  OldName{"stannic", "Sn", 4},
    OldName{"plumbous", "Pb", 2},  OldName{"plumbic", "Pb", 4},   OldName{"mercuric", "Hg", 2},
    OldName{"cobaltous", "Co", 2}, OldName{"cobaltic", "Co", 3},  OldName{"chromous", "Cr", 2},
    OldName{"chromic", "Cr", 3},   OldName{"manganous", "Mn", 2}, OldName{"manganic", "Mn", 3},
    OldName{"nickelous", "Ni", 2}, OldName{"aurous", "Au", 1},    OldName{"auric", "Au", 3},
    OldName{"cerous", "Ce", 3},    OldName{"ceric", "Ce", 4},     OldName{"titanous", "Ti", 3},
    OldName{"argentic", "Ag", 2},  OldName{"argentous", "Ag", 1}, OldName{"bismuthous", "Bi", 3},
    OldName{"thallous", "Tl", 1},  OldName{"thallic", "Tl", 3},   OldName{"antimonous", "Sb", 3},
    OldName{"platinic", "Pt", 4},  OldName{"vanadous", "V", 3},   OldName{"uranous", "U", 4},
};

// Counting syllables; the second form drops its vowel before another ("tetroxide", "monoxide").
struct Syllable {
  int count;
  std::string_view full;
  std::string_view elided;
};
constexpr std::array syllables{
    Syllable{1, "mono", "mon"},   Syllable{2, "di", ""},        Syllable{3, "tri", ""},
    Syllable{4, "tetra", "tetr"}, Syllable{5, "penta", "pent"}, Syllable{6, "hexa", "hex"},
    Syllable{7, "hepta", "hept"}, Syllable{8, "octa", "oct"},   Syllable{9, "nona", "non"},
    Syllable{10, "deca", "dec"},  Syllable{11, "undeca", ""},   Syllable{12, "dodeca", ""},
};

struct HydrateSyllable {
  std::string_view text;
  int twice;  // water, doubled so that half is whole
};
constexpr std::array hydrates{
    HydrateSyllable{"hemi", 1},      HydrateSyllable{"mono", 2},    HydrateSyllable{"sesqui", 3},
    HydrateSyllable{"di", 4},        HydrateSyllable{"tri", 6},     HydrateSyllable{"tetra", 8},
    HydrateSyllable{"penta", 10},    HydrateSyllable{"hexa", 12},   HydrateSyllable{"hepta", 14},
    HydrateSyllable{"octa", 16},     HydrateSyllable{"nona", 18},   HydrateSyllable{"deca", 20},
    HydrateSyllable{"undeca", 22},   HydrateSyllable{"dodeca", 24}, HydrateSyllable{"hexadeca", 32},
    HydrateSyllable{"octadeca", 36},
};

// Anions that binary compounds without ions are named by.
constexpr std::array<std::string_view, 12> binary_anions{"fluoride",  "chloride", "bromide",  "iodide",
                                                         "oxide",     "sulfide",  "selenide", "nitride",
                                                         "phosphide", "hydride",  "boride",   "silicide"};

std::vector<ListedCompound> read_compounds() {
  std::vector<ListedCompound> read;
  inner::each_row(embedded::compound_names, [&read](inner::TableRow row) {
    ListedCompound c;
    c.name = row[0];
    c.formula = row[1];
    for (const std::string_view synonym : split(row[2], ';')) {
      if (!trim(synonym).empty()) c.synonyms.emplace_back(trim(synonym));
    }
    c.kind = row[3];
    if (!c.formula.empty()) {
      const Outcome<Formula> formula = read_formula(c.formula);
      promise(formula.ok(), "every formula in the table of compounds reads");
      c.water = formula->water_of_crystallisation().number();
    }
    read.push_back(std::move(c));
  });
  return read;
}

// Which of several listed compounds of one composition to name first.
int preference(const ListedCompound& c) {
  if (c.solution() || c.kind == "mixture") return 3;
  if (c.name == "dry ice" || c.name == "diamond") return 2;  // the same matter under a special name
  return c.kind == "acid" ? 0 : 1;
}

}  // namespace

NameBook::Parts::Parts() : compounds(read_compounds()) {
  std::vector<std::pair<int, std::pair<std::string, int>>> ranked;
  for (std::size_t i = 0; i < compounds.size(); ++i) {
    const int index = static_cast<int>(i);
    compound_book.add(name_key(compounds[i].name), index);
    for (const std::string& synonym : compounds[i].synonyms) compound_book.add(name_key(synonym), index);
    if (!compounds[i].formula.empty()) {
      ranked.push_back({preference(compounds[i]), {read_formula(compounds[i].formula)->hill(), index}});
    }
  }
  std::ranges::stable_sort(ranked, {}, [](const auto& r) { return r.first; });
  for (auto& [rank, entry] : ranked) by_composition.insert(std::move(entry));

  const auto add_cation = [this](std::string_view name, CationChoice choice) {
    cation_book.add(name_key(name), static_cast<int>(cations.size()));
    cations.push_back(choice);
  };
  for (const Element& e : elements()) {
    element_book.add(name_key(e.name), e.number);
    add_cation(e.name, {nullptr, e.number, std::nullopt});
    for (const Syllable& s : syllables) {
      if (s.count > 1) first_book.add(std::string(s.full) + name_key(e.name), s.count * 1000 + e.number);
    }
    first_book.add(name_key(e.name), 1000 + e.number);
  }
  for (const OldName& old : old_names) add_cation(old.name, {nullptr, find_element(old.symbol)->number, old.charge});
  for (const inner::Ion& ion : inner::polyatomic_cations()) {
    add_cation(ion.name, {&ion, 0, std::nullopt});
    for (const std::string& synonym : ion.synonyms) add_cation(synonym, {&ion, 0, std::nullopt});
  }

  for (std::size_t i = 0; i < inner::anions().size(); ++i) {
    const inner::Ion& ion = inner::anions()[i];
    const int index = static_cast<int>(i);
    anion_book.add(name_key(ion.name), index);
    for (const std::string& synonym : ion.synonyms) anion_book.add(name_key(synonym), index);
    for (const std::string& acid : ion.acids) acid_book.add(name_key(acid), index);
    if (std::ranges::find(binary_anions, ion.name) == binary_anions.end()) continue;
    for (const Syllable& s : syllables) {
      second_book.add(std::string(s.full) + ion.name, s.count * 1000 + index);
      if (!s.elided.empty() && ion.name.starts_with('o')) {
        second_book.add(std::string(s.elided) + ion.name, s.count * 1000 + index);
      }
    }
  }

  for (const HydrateSyllable& h : hydrates) hydrate_book.add(std::string(h.text) + "hydrate", h.twice);
  for (int n = 1; n <= 24; ++n) hydrate_book.add(std::to_string(n) + "hydrate", 2 * n);

  for (inner::PhraseBook* book : {&compound_book, &cation_book, &anion_book, &acid_book, &element_book, &first_book,
                                  &second_book, &hydrate_book}) {
    book->sort();
  }
}

const ListedCompound* NameBook::Parts::listed_solid(const Formula& formula) const {
  const ListedCompound* found = nullptr;
  const auto [begin, end] = by_composition.equal_range(formula.hill());
  for (auto at = begin; at != end; ++at) {
    const ListedCompound& c = compounds[static_cast<std::size_t>(at->second)];
    if (!c.inorganic_solid()) continue;
    if (found != nullptr) return nullptr;
    found = &c;
  }
  return found;
}

}  // namespace sash::chem
