#pragma once
// The recursive-descent reader behind Unit::parse, one object a parse. UCUM 2.1 grammar, bounded in length and depth.

#include <optional>
#include <string>
#include <string_view>

#include "quantity/inner/unit_atoms.h"
#include "quantity/unit.h"
#include "support/outcome.h"

namespace sash::quantity {

class UnitReader {
 public:
  explicit UnitReader(std::string_view text) : text_(text) {}
  Outcome<Unit> read();

 private:
  /// What has been read so far: a product of powers of atoms.
  struct Term {
    Scale scale;
    Dimension dimension;
    std::string symbol;
    const inner::Atom* lone = nullptr;  ///< the atom that may not stand in a product, when the term is only that
    std::size_t lone_at = 0;
  };

  Outcome<Term> term();
  Outcome<Term> component();
  Outcome<Term> bracketed();
  Outcome<Term> annotated_one();
  Outcome<Term> atom_to_a_power();
  Outcome<Term> from_atom(const inner::Atom& atom, const inner::Prefix* prefix, int power, std::size_t at) const;
  Outcome<Term> unknown(std::string_view name, std::size_t at) const;
  Outcome<void> skip_annotation();
  std::string_view next_token();
  bool at_end() const { return at_ >= text_.size(); }
  char peek() const { return at_end() ? '\0' : text_[at_]; }
  Fault malformed(std::string why, std::size_t at) const;

  std::string_view text_;
  std::size_t at_ = 0;
  std::string words_;  ///< text of the annotations: the symbol of a unit that is otherwise one
};

}  // namespace sash::quantity
