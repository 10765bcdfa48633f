#include "narration/inner/everyday.h"

#include <string_view>
#include <unordered_map>

#include "embedded/everyday_words.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

/// What the table says of a word: "look" is common and likens.
struct Sorts {
  bool common = false;
  bool holder = false;
  bool likeness = false;
  bool manner = false;
};

bool* sort_named(std::string_view name, Sorts& sorts) {
  if (name == "common") return &sorts.common;
  if (name == "holder") return &sorts.holder;
  if (name == "likeness") return &sorts.likeness;
  return name == "manner" ? &sorts.manner : nullptr;
}

Sorts sorts_of(std::string_view word) {
  static const std::unordered_map<std::string_view, Sorts> words = [] {
    std::unordered_map<std::string_view, Sorts> read;
    const std::vector<std::string_view> lines = split_lines(embedded::everyday_words);
    for (std::size_t i = 1; i < lines.size(); ++i) {  // behind the header
      const auto cells = split(lines[i], '\t');
      promise(cells.size() == 3, "a row of the everyday words has three cells");
      bool* const sort = sort_named(cells[1], read[cells[0]]);
      promise(sort != nullptr, "an everyday word is of a sort that is known");
      *sort = true;
    }
    return read;
  }();
  const auto found = words.find(word);
  return found == words.end() ? Sorts() : found->second;
}

}  // namespace

bool is_common_word(std::string_view word) { return sorts_of(word).common; }

bool is_everyday(const TokenStream& s, std::size_t at, std::size_t last) {
  if (sorts_of(s.text(last)).holder) return true;
  if (last != at + 1) return false;
  const std::string_view word = s.text(at);
  if (word == "lead") return s.is(at - 1, "the") ? false : s.is(at + 1, "to") || s.is(at + 1, "the");
  if (word == "tin") return s.is(at + 1, "can") || s.is(at + 1, "of");
  if (word == "gold" || word == "silver")
    return s.is(at + 1, "colored") || s.is(at + 1, "medal") || s.is(at + 1, "color");
  if (word == "air") return s.is(at - 1, "the") || s.is(at - 1, "fresh") || s.is(at - 1, "in");
  return word == "ice";
}

bool is_likened(const TokenStream& s, std::size_t at) {
  std::size_t of = at;
  for (int words = 0; words < 2 && of > 0 && sorts_of(s.text(of - 1)).manner; ++words) --of;
  if (of > 0 && (s.is(of - 1, "a") || s.is(of - 1, "an") || s.is(of - 1, "the") || s.is(of - 1, "some"))) --of;
  return of >= 2 && (s.is(of - 1, "of") || s.is(of - 1, "like")) && sorts_of(s.text(of - 2)).likeness;
}

}  // namespace sash::narration
