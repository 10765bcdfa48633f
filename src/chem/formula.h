#pragma once
// Formula: one chemical formula as read from text: what it is made of, its charge, its hydrate parts, and how to print
// it. It does not know what it weighs (chem/molar_mass.h), what it is called (chem/names.h), or how much of it there
// is.
//
// What may be written: element symbols with counts; () [] {} nested; hydrate parts after · * • or a full stop, each
// with a number in front (·5H2O, ·0.5H2O, ·1/2H2O); charges ^2-, ^+, ²⁻, {2-} or a sign at the end; subscript digits
// (H₂O) or typesetters' H_2O; isotopes [13C], ^13C, ¹³C, D, T; the electron e^-; bonds = ≡ # and a hyphen between
// groups; Me, Et, iPr, nBu, tBu, Ph, Bn, Bz, Cp, Cy, Ac where it cannot be actinium, py, en, dien, bipy, phen, acac.
// What could be read in two ways is refused with both readings, never guessed. Pure values, safe from any thread.
// Reading is bounded: 4096 bytes, 32 nested brackets, counts below 1,000,000,000.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chem/elements.h"
#include "chem/fraction.h"
#include "support/outcome.h"

namespace sash::chem {

/// So many atoms of one kind. The count is whole except in a part such as ·0.5H2O.
struct AtomCount {
  Nuclide what;
  Fraction count;
  friend bool operator==(const AtomCount&, const AtomCount&) = default;
};

/// In the order of first mention; each kind once.
using Composition = std::vector<AtomCount>;

/// What stood in the text, piece by piece, so that a formula prints as it was written.
struct FormulaPiece {
  enum class Kind { atom, abbreviation, open, close, count, dot, multiplier, charge, bond };
  Kind kind = Kind::atom;
  std::string text;  ///< symbol, abbreviation, bracket, digits; the charge as "2-" or "+"
  std::optional<int> mass_number = std::nullopt;
  friend bool operator==(const FormulaPiece&, const FormulaPiece&) = default;
};

/// One part of a hydrate or double salt: CuSO4·5H2O has two, the second with multiplier 5.
struct FormulaPart {
  Fraction multiplier;
  Composition composition;  ///< of one such part, before multiplying
  int charge = 0;
};

class Formula {
 public:
  const Composition& composition() const { return composition_; }  ///< of the whole, multipliers applied
  int charge() const { return charge_; }                           ///< in elementary charges
  std::span<const FormulaPart> parts() const { return parts_; }    ///< at least one
  std::span<const FormulaPiece> pieces() const { return pieces_; }
  bool is_electron() const { return composition_.empty(); }
  Fraction count_of(Nuclide what) const;  ///< 0 when there is none
  Fraction atoms() const;                 ///< of all kinds together

  /// How many H2O follow the main part: 5 for CuSO4·5H2O, 0 for an anhydrous formula.
  Fraction water_of_crystallisation() const;

  std::string plain() const;    ///< ASCII that reads back as the same formula: "CuSO4*5H2O", "SO4^2-", "[13C]O2"
  std::string unicode() const;  ///< for people: "CuSO₄·5H₂O", "SO₄²⁻", "¹³CO₂"
  std::string hill() const;     ///< Hill order over the whole, with charge: "CuH10O9S"; does not keep structure

  /// Same atoms and same charge, however written.
  bool same_composition(const Formula& other) const;

 private:
  friend class FormulaReader;
  Composition composition_;
  std::vector<FormulaPart> parts_;
  std::vector<FormulaPiece> pieces_;
  int charge_ = 0;
};

/// Reads a formula that fills all of `text` but for surrounding white space.
/// Fails: Code::malformed, Code::unknown_name (no such element), Code::ambiguous (Fault::others holds what to type
/// instead), Code::out_of_range (a bound). Fault::offending is `text`, Fault::place the byte it went wrong at.
Outcome<Formula> read_formula(std::string_view text);

/// What was taken where letters have two readings that formulas tell apart, as a sentence: "Ac is read as acetyl,
/// CH3CO." Empty where there was nothing to tell.
std::string reading_taken(const Formula& formula);

/// A composition in Hill order: carbon and hydrogen first where there is carbon, then by symbol; then the charge.
std::string hill_text(Composition composition, int charge);

/// Adds `n` of `what` to a composition, keeping the order of first mention.
void add_atoms(Composition& to, Nuclide what, Fraction n);

}  // namespace sash::chem
