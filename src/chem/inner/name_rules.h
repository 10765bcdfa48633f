#pragma once
// The grammar of names: what a run of words can mean, as listed names, salts, acids, ions, binary compounds, written
// and spoken formulas. Private to the part; pure.

#include <span>
#include <vector>

#include "chem/inner/name_parts.h"

namespace sash::chem {

class NameRules {
 public:
  NameRules(const NameBook::Parts& parts, std::span<const inner::NameToken> tokens) : parts_(parts), tokens_(tokens) {}

  struct Reading {
    std::size_t end = 0;  ///< token after it; 0 when there is none
    KnownName known;
  };
  /// The longest reading that begins with the first token.
  std::optional<Reading> longest();

 private:
  void listed(std::size_t at);
  void salts(std::size_t at);
  void salt(const CationChoice& choice, std::optional<int> multiplicity, std::size_t at);
  /// Whether the tokens from `at` to `end` can be a counted simple anion too: "tri" and "iodide".
  bool counts_anions(std::size_t at, std::size_t end) const;
  /// "disodium phosphate": so many cations, hydrogen for the rest of the charge.
  void counted_salt(const inner::Ion& cation, int cations, const inner::Ion& anion, std::size_t end);
  /// "copper sulfate": the usual state, said as an assumption, or the states to choose from.
  void unsaid_state(const Element& e, const inner::CationElement& element, const inner::Ion& anion, std::size_t end);
  void acids(std::size_t at);
  void binary(std::size_t at);
  void single_ions(std::size_t at);
  void element_names(std::size_t at);
  void written();
  void spoken();
  bool in_usual_order(const std::string& name, const Formula& formula) const;

  /// Offers a reading: kept when longer than the best so far. A hydrate that follows is taken along.
  void offer(std::size_t end, KnownName known);
  KnownName with_water(KnownName known, double water) const;
  KnownName from_formula(const std::string& formula, std::string rule_name) const;
  std::optional<int> number_at(std::size_t at) const;
  bool ends_here(std::size_t end) const;  ///< a name may end before token `end`

  const NameBook::Parts& parts_;
  std::span<const inner::NameToken> tokens_;
  bool anhydrous_said_ = false;
  std::optional<Reading> best_;
};

/// Names of a formula, best first; the rule behind NameBook::names_of.
std::vector<std::string> names_by_rule(const NameBook::Parts& parts, const Formula& formula);

/// "pentahydrate" for 5, "hemihydrate" for 0.5.
std::string hydrate_word(double water);

/// The formula that spoken letters and numbers make, and the token after it: "H two S O four". Only where it reads.
struct SpokenFormula {
  std::string formula;
  std::size_t end;
  bool english = false;  ///< each of its words is an English one: "no two", "so two"
};
std::vector<SpokenFormula> spoken_formulas(std::span<const inner::NameToken> tokens);

}  // namespace sash::chem
