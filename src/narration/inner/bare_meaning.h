#pragma once
// What a number without a unit may mean, and the tools that the rules for it share. Private to the recognition.

#include <optional>
#include <string>

#include "narration/inner/scene.h"

namespace sash::narration {

/// A reading of a bare number: what sort of quantity it is, in which unit, and the rule that says so.
struct Meaning {
  quantity::Kind kind;
  std::string unit;
  const char* rule;
  double confidence;
};

/// The last figure before phrase `index` with a unit, of one of the kinds `wanted` accepts, at most `reach` tokens
/// back.
template <class Wanted>
const Phrase* last_figure(const Scene& s, std::size_t index, std::size_t reach, Wanted wanted) {
  const std::size_t here = s.phrases[index].first;
  for (std::size_t i = index; i-- > 0;) {
    const Phrase& p = s.phrases[i];
    if (here - p.first > reach) return nullptr;
    if (p.fate == Fate::figure && wanted(p)) return &p;
  }
  return nullptr;
}

inline bool is_mass(const Phrase& p) { return p.kind == quantity::Kind::mass; }
inline bool is_volume(const Phrase& p) { return p.kind == quantity::Kind::volume && p.unit != "[drp]"; }
inline bool is_temperature(const Phrase& p) { return p.kind == quantity::Kind::temperature; }
inline bool is_length(const Phrase& p) { return p.kind == quantity::Kind::length; }
inline bool is_duration(const Phrase& p) { return p.kind == quantity::Kind::duration; }
inline bool plain_whole(const Phrase& p) { return !p.number.decimal && !p.upper && !p.fraction; }

/// The token before the number, past hedges: the verb or preposition that governs it.
std::size_t governor(const Scene& s, const Phrase& p);

bool governed_by_state(const Scene& s, const Phrase& p);

/// Whether the clause ends behind the number: nothing follows that could be counted.
bool ends_clause(const Scene& s, const Phrase& p);

/// The nearest of `words` among the `reach` tokens before the number; of the question before it, when the number is the
/// answer: "what's it in moles? >> point six eight".
template <std::size_t N>
std::optional<std::size_t> find_or_asked(const Scene& s, const Phrase& p, const WordSet<N>& words, std::size_t reach) {
  std::size_t first = p.first;
  const std::size_t begin = s.begin_of_sentence(first);
  if (first <= begin + (s.tokens.is(begin, ">>") ? 1u : 0u)) first = begin;
  return s.find_before(first, words, reach);
}

/// The unit in which a number of that size was last weighed: "14.67" goes with "14.87 grams", not with "192 milligrams"
/// said since.
const Phrase* weighed_alike(const Scene& s, std::size_t index);

std::optional<Meaning> like(const Phrase* p, const char* rule, double confidence);

/// Words that may stand between a verb and its number.
bool stands_between(std::string_view word);
bool is_verb_of_state(std::string_view word);

}  // namespace sash::narration
