#pragma once
// Equation: a chemical equation as typed, with its species, states and arrow. Reading and printing only; balancing and
// verifying are in chem/balance.h, amounts in chem/stoichiometry.h.
//
// What may be written: species joined by +, each with an optional coefficient (2, 1/2, 0.5) before it and a state (s)
// (l) (g) (aq), with the form if wanted as in (s, graphite), or an arrow up or down for gas and precipitate; one of
// = -> --> → => ⇌ <=> and the like between the sides, where an = that blanks do not set off is a double bond; what
// stands on the arrow, as in "-[heat]->", "--heat-->", "->[H2SO4] ", is kept and not counted; electrons are e^-. Pure
// values, safe from any thread. Reading is bounded: 16384 bytes, 64 species.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chem/formula.h"
#include "support/outcome.h"

namespace sash::chem {

enum class State { solid, liquid, gas, aqueous };
std::string_view state_text(State state);  ///< "(s)", "(l)", "(g)", "(aq)"

/// One term of an equation.
struct Species {
  Formula formula;
  std::optional<Fraction> coefficient;  ///< as typed; none when nothing was typed
  std::optional<State> state;
};

/// A whole number of times each species, in the order written, left side first.
using Coefficients = std::vector<std::int64_t>;

class Equation {
 public:
  Equation(std::vector<Species> left, std::vector<Species> right, bool reversible = false, std::string on_arrow = {});

  std::span<const Species> all() const { return species_; }  ///< as written, left side first
  std::span<const Species> left() const { return all().first(left_count_); }
  std::span<const Species> right() const { return all().subspan(left_count_); }
  bool on_left(std::size_t index) const { return index < left_count_; }
  bool reversible() const { return reversible_; }
  const std::string& on_arrow() const { return on_arrow_; }  ///< reagents and conditions, as typed

  /// Where `formula` stands (same atoms and charge), if anywhere.
  std::optional<std::size_t> find(const Formula& formula) const;

  Equation with(const Coefficients& coefficients) const;  ///< Requires: one for each species

  std::string plain() const;    ///< "3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O"
  std::string unicode() const;  ///< "3 Cu + 8 HNO₃ → 3 Cu(NO₃)₂ + 2 NO + 4 H₂O"

 private:
  std::string print(bool unicode) const;
  std::vector<Species> species_;
  std::size_t left_count_;
  bool reversible_;
  std::string on_arrow_;
};

/// Reads one term: "2 H2O(l)".
/// Fails: as read_formula.
Outcome<Species> read_species(std::string_view text);

/// Fails: Code::malformed (no arrow, two arrows, an empty side), and as read_formula; Fault::place is in `text`.
Outcome<Equation> read_equation(std::string_view text);

}  // namespace sash::chem
