#include "narration/inner/heard_names.h"

#include <algorithm>
#include <optional>

#include "narration/inner/everyday.h"
#include "narration/inner/number_words.h"
#include "narration/inner/sounds.h"
#include "narration/inner/unit_words.h"
#include "narration/inner/word_set.h"
#include "support/text.h"

namespace sash::narration {

namespace {

constexpr std::size_t most_words = 4;

/// Whether a name is to be expected at `at`: "ten mils of ...", "0.02 molar ...".
bool name_expected(const TokenStream& s, std::size_t at) {
  constexpr WordSet describing{"cold", "hot",   "warm",    "dilute", "dry", "pure",
                               "the",  "fresh", "boiling", "this",   "my",  "concentrated"};
  for (int k = 0; k < 2 && at > 0 && describing.has(s.text(at - 1)); ++k) --at;
  const std::size_t unit_end = at > 0 && s.is(at - 1, "of") ? at - 1 : at;
  for (std::size_t words = 1; words <= 2 && words <= unit_end; ++words) {
    const auto unit = read_spoken_unit(s, unit_end - words,
                                       unit_end - words > 0 && s.is_type(unit_end - words - 1, Token::Type::number));
    if (unit && unit->last == unit_end && unit->kind != quantity::Kind::duration) return true;
  }
  return false;
}

void add_word(std::string& words, std::string_view word) { words.append(words.empty() ? "" : " ").append(word); }

}  // namespace

const Material* heard_material(const TokenStream& s, std::size_t at, std::size_t& last) {
  const bool expected = name_expected(s, at);
  if (expected && read_spoken_number(s, at)) return nullptr;  // "20 mils of point one molar"
  const Material* found = nullptr;
  std::string words;
  for (std::size_t i = at; i < s.size() && i < at + most_words; ++i) {
    const std::string_view word = s.text(i);
    const bool common_word = is_common_word(word) && word != "all" && word != "for";
    if (s[i].type != Token::Type::word || (i == at && (common_word || (!expected && word.size() < 3)))) break;
    add_word(words, word);
    if (common_word) continue;
    const bool enough = expected ? i > at || word.size() >= 5 : i > at;
    if (!enough) continue;
    const std::string key = sounds_of(words);
    if (key.size() < (expected ? 3u : 7u)) continue;
    if (const Material* m = Materials::all().sounding(key)) {
      // Few sounds are alike by chance: "brown" is no "piranha".
      constexpr std::size_t telling = 5;
      if (i == at && key.size() < telling && !nearest_spelling(word, m->words)) continue;
      found = m;
      last = i + 1;
    }
  }
  return found;
}

void HeardNames::learn(const TokenStream& s, std::size_t first, std::size_t last, const Material& material) {
  std::string words;
  for (std::size_t k = first; k < last; ++k) add_word(words, s.text(k));
  by_sound_.emplace(sounds_of(words), &material);
}

void HeardNames::recognise_again(const TokenStream& s, std::vector<Mention>& found) const {
  if (by_sound_.empty()) return;
  std::vector<Mention> all;
  std::size_t next = 0;
  for (std::size_t i = 0; i < s.size();) {
    while (next < found.size() && found[next].last <= i) ++next;
    std::string words;
    std::size_t last = i;
    const Material* known = nullptr;
    for (std::size_t k = i; k < i + most_words && k < s.size() && s[k].type == Token::Type::word; ++k) {
      add_word(words, s.text(k));
      if (const auto it = by_sound_.find(sounds_of(words)); it != by_sound_.end() && k > i) {
        known = it->second;
        last = k + 1;
      }
    }
    const bool mention_here = next < found.size() && found[next].first == i;
    if (known != nullptr && (!mention_here || found[next].last < last)) {
      all.push_back(mention_of(*known, i, last));
      i = last;
    } else if (mention_here) {
      i = found[next].last;
      all.push_back(std::move(found[next++]));
    } else {
      ++i;
    }
  }
  found = std::move(all);
}

}  // namespace sash::narration
