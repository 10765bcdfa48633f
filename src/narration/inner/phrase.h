#pragma once
// Quantity phrases: a number, or a range of two, with its unit, wherever one stands in the narration; and bare numbers
// that may turn out to have one. What the phrase is about, and whether it is a figure at all, later passes decide.
// Pure.

#include <optional>
#include <string>
#include <vector>

#include "model/figure.h"
#include "narration/inner/number_words.h"
#include "narration/inner/token.h"
#include "quantity/kind.h"

namespace sash::narration {

/// What became of a phrase.
enum class Fate : std::uint8_t {
  open,        ///< a bare number nobody has explained yet
  figure,      ///< a quantity of the procedure
  capacity,    ///< how much a vessel holds, how large a piece of equipment is, what it is rated for
  distractor,  ///< a year, money, a step, an idiom ...
  unscored,    ///< a ratio, a vague amount, a constant of matter: understood, but no figure
};

/// What the words around a volume say it is of, whatever substance it is about.
enum class State : std::uint8_t { unknown, gas, liquid };

struct Phrase {
  std::size_t first = 0;  ///< tokens [first, last)
  std::size_t last = 0;
  std::size_t number_last = 0;  ///< behind the number (of a range: the second)
  SpokenNumber number;
  std::optional<double> upper;
  double value = 0;
  std::string digits;
  std::string unit;  ///< UCUM; empty while unknown
  quantity::Kind kind = quantity::Kind::other;
  model::Hedge hedge = model::Hedge::exact;
  std::optional<double> half_width;  ///< a stated plus-minus, in `unit`
  bool unit_said = false;
  bool bare_degrees = false;
  bool misheard = false;
  bool fraction = false;         ///< a share without a unit
  State state = State::unknown;  ///< of a volume
  Fate fate = Fate::open;
  const char* rule = "";
  double confidence = 0;
};

/// All phrases in order, without overlap. `blocked[i]`: token i belongs to a name ("copper two nitrate") or a label
/// ("step two") and starts no number.
std::vector<Phrase> find_phrases(const TokenStream& s, const std::vector<bool>& blocked);

/// The phrase at token `at`, when one begins there.
std::optional<Phrase> read_phrase(const TokenStream& s, std::size_t at);

}  // namespace sash::narration
