#include "chem/inner/name_words.h"

#include <algorithm>
#include <array>

#include "support/check.h"
#include "support/text.h"

namespace sash::chem::inner {
namespace {

constexpr std::array<std::string_view, 21> number_words{
    "zero",     "one",     "two",     "three",     "four",     "five",     "six",
    "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",   "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"};

constexpr std::array<std::string_view, 9> romans{"i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix"};

std::optional<int> roman_number(std::string_view s) {
  const auto at = std::ranges::find(romans, s);
  if (at == romans.end()) return std::nullopt;
  return static_cast<int>(at - romans.begin()) + 1;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c & 0x80) != 0; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

// One spelling of those that differ between sides of the ocean.
std::string one_spelling(std::string text) {
  if (text.find("sulph") != std::string::npos) text = replace_all(std::move(text), "sulph", "sulf");
  if (text.find("aluminum") != std::string::npos) text = replace_all(std::move(text), "aluminum", "aluminium");
  if (text.starts_with("cesium")) text.insert(1, "a");
  if (text.ends_with("ised")) text.replace(text.size() - 4, 4, "ized");
  return text;
}

std::string as_number(std::string text) {
  const auto word = std::ranges::find(number_words, text);
  if (word != number_words.end()) return std::to_string(word - number_words.begin());
  // A lone i or v is more often a letter than a numeral; those are looked at where a numeral is expected.
  if (text.size() > 1) {
    if (const auto number = roman_number(text)) return std::to_string(*number);
  }
  return text;
}

// The numbers in "(ii)", "(ii,iv)" or "(2+)" starting at `at`; nothing when the bracket holds anything else.
std::optional<std::vector<std::string>> bracketed_numbers(std::string_view word, std::size_t at, std::size_t& end) {
  const auto close = word.find(')', at);
  if (word[at] != '(' || close == std::string_view::npos) return std::nullopt;
  std::vector<std::string> numbers;
  for (std::string_view inside : split(word.substr(at + 1, close - at - 1), ',')) {
    if (inside.ends_with('+')) inside.remove_suffix(1);
    if (const auto number = roman_number(inside)) {
      numbers.push_back(std::to_string(*number));
    } else if (!inside.empty() && inside.size() < 3 && std::ranges::all_of(inside, is_digit)) {
      numbers.emplace_back(inside);
    } else {
      return std::nullopt;
    }
  }
  end = close + 1;
  return numbers;
}

void add_word(std::string_view heard, std::size_t index, std::vector<NameToken>& out) {
  // The raised comma of typesetters is the apostrophe of "Epsom's".
  const std::string word = replace_all(to_lower(heard), "’", "'");
  const std::size_t before = out.size();
  for (std::size_t at = 0; at < word.size();) {
    std::size_t end = at;
    if (auto numbers = bracketed_numbers(word, at, end)) {
      for (std::string& n : *numbers) out.push_back({std::move(n), heard, index, false, false});
      at = end;
    } else if (is_digit(word[at])) {
      while (end < word.size() && is_digit(word[end])) ++end;
      out.push_back({word.substr(at, end - at), heard, index, false, false});
      at = end;
    } else if (is_letter(word[at])) {
      std::string text;
      // The apostrophe of "Epsom's" belongs to its word.
      for (; end < word.size() && (is_letter(word[end]) || word[end] == '\''); ++end) {
        if (word[end] != '\'') text.push_back(word[end]);
      }
      out.push_back({as_number(one_spelling(std::move(text))), heard, index, false, false});
      at = end;
    } else {
      ++at;
    }
  }
  if (out.size() == before) return;
  out.back().ends_word = true;
  out.back().stops = std::string_view(",.;:!?").find(word.back()) != std::string_view::npos;
}

}  // namespace

std::vector<NameToken> name_tokens(std::span<const std::string_view> words, std::size_t at, std::size_t most) {
  std::vector<NameToken> out;
  for (std::size_t i = at; i < words.size() && i < at + most; ++i) {
    const std::size_t before = out.size();
    add_word(words[i], i, out);
    if (out.size() == before || out.back().stops) break;
  }
  return out;
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  for (const std::string_view word : split(text, ' ')) {
    if (!trim(word).empty()) words.push_back(trim(word));
  }
  return words;
}

std::string name_key(std::string_view text) {
  std::vector<NameToken> tokens;
  for (const std::string_view word : words_of(text)) add_word(word, 0, tokens);
  std::string key;
  for (const NameToken& t : tokens) key += t.text;
  return key;
}

std::optional<int> number_in(std::string_view token, bool slips) {
  if (!token.empty() && token.size() <= 2 && std::ranges::all_of(token, is_digit)) {
    return static_cast<int>(*read_integer(token));
  }
  if (!slips) return std::nullopt;
  if (token == "i" || token == "won") return 1;
  if (token == "to" || token == "too") return 2;
  if (token == "tree" || token == "free") return 3;
  if (token == "for" || token == "fore") return 4;
  if (token == "v") return 5;
  if (token == "ate") return 8;
  return std::nullopt;
}

std::string roman(int number) {
  promise(number >= 1 && number <= static_cast<int>(romans.size()), "oxidation numbers lie between 1 and 9");
  std::string text(romans[static_cast<std::size_t>(number) - 1]);
  for (char& c : text) c = static_cast<char>(c - 'a' + 'A');
  return text;
}

void PhraseBook::add(std::string key, int value) {
  if (!key.empty()) entries_.emplace_back(std::move(key), value);
}

void PhraseBook::sort() { std::ranges::stable_sort(entries_, {}, &std::pair<std::string, int>::first); }

std::vector<PhraseBook::Hit> PhraseBook::hits(std::span<const NameToken> tokens, std::size_t at) const {
  std::vector<Hit> found;
  std::string key;
  for (std::size_t i = at; i < tokens.size(); ++i) {
    key += tokens[i].text;
    auto entry = std::ranges::lower_bound(entries_, key, {}, &std::pair<std::string, int>::first);
    if (entry == entries_.end() || !entry->first.starts_with(key)) break;
    const bool number_follows = i + 1 < tokens.size() && is_digit(tokens[i + 1].text[0]);  // as in "nickel(II)"
    if (!tokens[i].ends_word && !number_follows) continue;
    for (; entry != entries_.end() && entry->first == key; ++entry) found.push_back({i + 1, entry->second});
    if (tokens[i].stops) break;
  }
  return found;
}

std::optional<int> PhraseBook::exact(std::string_view key) const {
  const auto entry = std::ranges::lower_bound(entries_, key, {}, &std::pair<std::string, int>::first);
  if (entry == entries_.end() || entry->first != key) return std::nullopt;
  return entry->second;
}

}  // namespace sash::chem::inner
