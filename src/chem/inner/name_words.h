#pragma once
// Words of chemical names made comparable: lower case, one spelling (sulf-, aluminium, caesium), numbers as digits
// whether they were written (II), 2 or "two". Private to the part; pure.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sash::chem::inner {

/// A piece of a word: a run of letters or a number.
struct NameToken {
  std::string text;        ///< "sulfate", "2"
  std::string_view heard;  ///< the whole word as it came
  std::size_t word = 0;    ///< index in the words given
  bool ends_word = false;  ///< last piece of its word
  bool stops = false;      ///< a comma or the like follows: no name goes on from here
};

/// Pieces of words[at...], at most `most` words.
std::vector<NameToken> name_tokens(std::span<const std::string_view> words, std::size_t at, std::size_t most);

std::vector<std::string_view> words_of(std::string_view text);

/// All of `text` as one key: pieces run together, so that "hydrogen carbonate" and "hydrogencarbonate" are one.
std::string name_key(std::string_view text);

/// 2 for "2"; with `slips`, also for words a recogniser writes in its place ("to", "too").
std::optional<int> number_in(std::string_view token, bool slips);

std::string roman(int number);  ///< Requires: 1 to 9

/// A sorted list of keys, each with a number to find what it stands for.
class PhraseBook {
 public:
  void add(std::string key, int value);
  void sort();

  struct Hit {
    std::size_t end;  ///< token after the phrase
    int value;
  };
  /// Every phrase that begins at tokens[at] and ends with a word or before a number, shortest first.
  std::vector<Hit> hits(std::span<const NameToken> tokens, std::size_t at) const;
  std::optional<int> exact(std::string_view key) const;

 private:
  std::vector<std::pair<std::string, int>> entries_;
};

}  // namespace sash::chem::inner
