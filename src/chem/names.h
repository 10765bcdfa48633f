#pragma once
// Names and formulas of compounds, both ways: from what people say at a bench ("copper two sulphate pentahydrate",
// "washing soda", "H two S O four") to the preferred chemical English and a formula, and back. A few hundred names are
// listed with their synonyms; salts, acids, hydrates and binary compounds follow from rules, so that a name nobody
// listed is understood too. What has two readings is given back with its candidates. Not here: how strong a solution is
// meant (chem's solutions), or what a substance can do to somebody. Immutable once built; safe from any thread.
// Sources: rules after IUPAC Nomenclature of Inorganic Chemistry, Recommendations 2005, and of Organic Chemistry 2013;
// names checked against OPSIN 2.7.0, the CRC Handbook and PubChem, trivial names by common practice. Each row of
// assets/tables/compound_names.tsv, ions.tsv and cation_charges.tsv names its own.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chem/formula.h"
#include "support/outcome.h"

namespace sash::chem {

/// How sure it is that a name was meant.
enum class NameReading {
  name,            ///< a name in words, spelled in any usual way
  written,         ///< a formula in one word: "CuSO4"
  spoken_formula,  ///< a formula said letter by letter: "H two S O four"
};

struct KnownName {
  std::string preferred;               ///< "copper(II) sulfate pentahydrate"; the formula itself where no name is known
  std::optional<std::string> formula;  ///< "CuSO4·5H2O"; none for mixtures and where the candidates differ
  std::optional<double> water;         ///< water of crystallisation said or implied; none when nothing was said
  bool anhydrous = false;              ///< "anhydrous" was said
  bool is_solution_word = false;       ///< the word means a solution ("bleach", "vinegar"): the formula is its solute
  bool is_mixture = false;             ///< no single substance: "gunpowder"
  std::string assumption;              ///< a sentence when something unsaid was taken: "Copper is taken as copper(II)."
  std::vector<std::string>
      candidates;  ///< preferred names of other readings; the formula is empty when none is favoured
  NameReading reading = NameReading::name;
  bool doubtful = false;  ///< ordinary English words too: "no two", "so two"
};

struct NameMatch {
  std::size_t length = 0;  ///< words taken
  KnownName known;
};

/// The dictionary and its rules. Building takes some milliseconds; standard() does it once.
class NameBook {
 public:
  static const NameBook& standard();

  /// The longest name that begins at words[at]. A word that ends in a comma or full stop ends the name.
  /// Spoken formulas are taken only when they make a substance that is known, and single letters or English words
  /// ("no", "as") never are by themselves.
  std::optional<NameMatch> find_longest(std::span<const std::string_view> words, std::size_t at) const;

  /// The name that fills all of `text`.
  std::optional<KnownName> find(std::string_view text) const;

  /// Names of a formula, the best first: listed ones of the same composition, then one made by rule. Empty when
  /// unknown.
  std::vector<std::string> names_of(const Formula& formula) const;

  /// The listed name nearest in spelling, for "did you mean".
  std::optional<std::string> nearest(std::string_view text) const;

  struct Parts;  ///< of no use outside the part
  ~NameBook();

 private:
  NameBook();
  std::unique_ptr<const Parts> parts_;
};

/// NameBook::standard().find(text).
std::optional<KnownName> normalise_name(std::string_view text);

/// The formula of a name, or `text` read as a formula when it is one.
/// Fails: Code::ambiguous (Fault::others lists the candidates), Code::unknown_name (with the nearest spelling, or what
/// is wrong with it as a formula), Code::unsupported for mixtures.
Outcome<Formula> formula_of(std::string_view text);

/// The best name of a formula, if one is known.
std::optional<std::string> name_of(const Formula& formula);

}  // namespace sash::chem
