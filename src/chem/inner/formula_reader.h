#pragma once
// The hand-written reader behind read_formula: one pass over the text, brackets on an explicit stack so that nesting
// costs no call stack. Private to the part.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "chem/formula.h"
#include "support/text.h"

namespace sash::chem {

class FormulaReader {
 public:
  explicit FormulaReader(std::string_view text) : text_(text) {}
  Outcome<Formula> read();

 private:
  struct Group {
    char bracket = 0;
    std::size_t at = 0;  ///< where it was opened
    Composition inside;
    int charge = 0;
    bool charged = false;  ///< a charge was read: only the end of the group may follow
  };
  using Kind = FormulaPiece::Kind;

  // Each reads one thing at at_ and moves past it; false when fault_ was set.
  bool step();
  bool electron();
  bool unit_from_letter();
  std::optional<bool> acetyl_or_actinium();
  bool isotope_from_superscript();
  bool mass_number_after_bracket();
  bool abbreviation();
  bool open(char bracket);
  bool close(char bracket);
  bool dot(std::size_t length);
  bool full_stop();
  bool caret_charge();
  /// "(2-)" or "{+}" at at_ as a charge; nothing when the bracket holds something else.
  std::optional<bool> charge_in_brackets();
  bool is_bond_at(std::size_t at) const;  ///< = ≡ # between units, or a hyphen before a capital
  bool bond(std::size_t length);
  bool oxidation_state(std::string_view numeral);  ///< refuses it, with both readings
  bool bare_charge();
  bool multiplier();
  /// The count after a unit: 1 when none is written. `bracket` is the closing bracket before it, or 0.
  std::optional<std::int64_t> count(char bracket);
  /// Digits directly before a bare sign: which belong to the count, which to the charge.
  std::optional<std::int64_t> split_count_and_charge(std::string_view digits, char bracket);

  bool add(const Composition& unit, std::int64_t times);
  bool set_charge(std::int64_t charge);
  bool charge_fits(Fraction charge, int& to);
  bool end_part();
  Outcome<Formula> finish();

  bool fail(Code code, std::size_t at, std::string sentence, std::vector<std::string> others = {});
  std::string character(std::size_t at) const;  ///< "character 3 of 'CuXx2'"
  CodePoint peek(std::size_t at) const;
  std::string_view digits_at(std::size_t at) const;
  bool ends_group_at(std::size_t at) const;  ///< nothing, a closing bracket or a dot stands there
  void piece(Kind kind, std::string text, std::optional<int> mass_number = std::nullopt);

  std::string_view text_;
  std::size_t at_ = 0;
  std::vector<Group> groups_{1};
  Fraction multiplier_ = 1;
  Formula made_;
  std::optional<Fault> fault_;
};

}  // namespace sash::chem
