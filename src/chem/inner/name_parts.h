#pragma once
// The dictionary behind NameBook: listed compounds, ions and elements under all their spellings. Built once, then
// immutable.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "chem/inner/name_words.h"
#include "chem/inner/salts.h"
#include "chem/names.h"

namespace sash::chem {

/// One row of the table of compounds.
struct ListedCompound {
  std::string name;
  std::vector<std::string> synonyms;
  std::string formula;  ///< empty for mixtures
  std::string kind;
  double water = 0;  ///< of crystallisation in `formula`

  bool solution() const { return kind == "solution"; }
  bool inorganic_solid() const { return kind == "salt" || kind == "oxide" || kind == "oxidiser" || kind == "base"; }
};

/// What the first word of a salt may mean.
struct CationChoice {
  const inner::Ion* polyatomic = nullptr;  ///< or an element:
  int element = 0;
  std::optional<int> charge;  ///< fixed by an old name such as "cupric"
};

struct NameBook::Parts {
  Parts();

  std::vector<ListedCompound> compounds;
  std::vector<CationChoice> cations;
  inner::PhraseBook compound_book;                 ///< to an index into compounds
  inner::PhraseBook cation_book;                   ///< to an index into cations
  inner::PhraseBook anion_book;                    ///< to an index into inner::anions()
  inner::PhraseBook acid_book;                     ///< the same, by the names of the acids
  inner::PhraseBook element_book;                  ///< to an atomic number
  inner::PhraseBook first_book;                    ///< "dinitrogen", "carbon": count * 1000 + atomic number
  inner::PhraseBook second_book;                   ///< "tetroxide": count * 1000 + index into inner::anions()
  inner::PhraseBook hydrate_book;                  ///< "pentahydrate": twice the water
  std::multimap<std::string, int> by_composition;  ///< Hill text to compounds, in order of preference

  /// The listed inorganic solid of this composition, if there is exactly one.
  const ListedCompound* listed_solid(const Formula& formula) const;
};

}  // namespace sash::chem
