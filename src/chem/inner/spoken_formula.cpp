// Formulas as they are said: letters one by one or as chunks a recogniser wrote together, numbers as words, "dot"
// before the water, brackets never heard ("Cu N O three two" is Cu(NO3)2).

#include <algorithm>
#include <array>
#include <functional>

#include "chem/inner/name_rules.h"

namespace sash::chem {
namespace {

using inner::NameToken;

constexpr std::size_t most_units = 24;
constexpr std::size_t most_readings = 64;

// One element symbol, a number, or a dot, and the token after it.
struct Unit {
  enum class Kind { symbol, number, dot } kind;
  std::string text;
  std::size_t end;  // token after; 0 inside a token
};

std::string as_symbol(std::string_view letters) {
  std::string symbol(letters);
  symbol[0] = static_cast<char>(symbol[0] - 'a' + 'A');
  return symbol;
}

bool ascii_letters(std::string_view s) {
  return !s.empty() && std::ranges::all_of(s, [](char c) { return c >= 'a' && c <= 'z'; });
}

constexpr std::array<std::string_view, 22> english{"no", "as", "in", "i",  "he", "be", "at", "ho", "so", "of", "ah",
                                                   "oh", "pa", "hi", "us", "am", "la", "on", "a",  "or", "os", "cos"};

// Groups that stand in brackets when two numbers follow them.
constexpr std::array<std::string_view, 8> groups{"NO3", "OH", "ClO", "SCN", "CN", "PO4", "SO4", "NH4"};

}  // namespace

std::vector<SpokenFormula> spoken_formulas(std::span<const NameToken> tokens) {
  // Letters run together across tokens: "n a o h", "na oh" and "naoh" are one string of letters with token marks.
  struct Sound {
    char letter = 0;      // or
    int number = 0;       // a number, or
    bool dot = false;     // the dot before the water
    std::size_t end = 0;  // token after, at the last sound of a word
    bool single = false;  // said as a single letter
  };
  std::vector<Sound> sounds;
  std::size_t letters_total = 0;
  for (std::size_t t = 0; t < tokens.size() && sounds.size() < most_units; ++t) {
    const NameToken& token = tokens[t];
    const auto number = inner::number_in(token.text, !sounds.empty() && token.text.size() > 1);
    const bool follows_number = !sounds.empty() && sounds.back().letter == 0;
    if (number && *number > 0 && !(follows_number && inner::number_in(token.text, false) == std::nullopt)) {
      sounds.push_back({0, *number, false, t + 1, false});
    } else if (token.text == "dot" || token.text == "times" || token.text == "point") {
      sounds.push_back({0, 0, true, 0, false});
    } else if (ascii_letters(token.text) && token.text.size() <= 4) {
      for (std::size_t i = 0; i < token.text.size(); ++i) {
        sounds.push_back({token.text[i], 0, false, i + 1 == token.text.size() ? t + 1 : 0, token.text.size() == 1});
        ++letters_total;
      }
    } else {
      break;
    }
    if (token.stops) break;
  }
  if (letters_total == 0 || sounds.size() < 2) return {};

  // Letters become symbols in every way that reads; names decide later which of them is a substance.
  std::vector<SpokenFormula> found;
  const auto mark = [&found, tokens](const std::string& formula, std::size_t end, std::size_t sounds_used) {
    if (end == 0 || sounds_used < 2) return;
    const bool all_english = std::ranges::all_of(tokens.first(end), [](const NameToken& t) {
      return inner::number_in(t.text, true).has_value() || std::ranges::find(english, t.text) != english.end();
    });
    found.push_back({formula, end, all_english});
  };
  const std::function<void(std::size_t, std::string, bool)> go = [&](std::size_t i, std::string text, bool after_dot) {
    if (found.size() >= most_readings || i >= sounds.size()) return;
    const Sound& s = sounds[i];
    if (s.dot) {
      if (!text.empty()) go(i + 1, text + "·", true);
      return;
    }
    if (s.number > 0) {
      if (text.empty()) return;
      const std::string n = s.number == 1 ? "" : std::to_string(s.number);
      if (after_dot) {
        go(i + 1, text + n, false);
        return;
      }
      const bool second_number = text.back() >= '0' && text.back() <= '9';
      if (second_number || text.ends_with("OH") || text.ends_with("ClO") || text.ends_with("CN")) {
        for (const std::string_view group : groups) {
          if (!text.ends_with(group) || (text.size() == group.size() && group != "NH4")) continue;
          const std::string bracketed = text.substr(0, text.size() - group.size()) + "(" + std::string(group) + ")" + n;
          mark(bracketed, s.end, i + 1);
          go(i + 1, bracketed, false);
        }
        if (second_number) return;
      }
      mark(text + n, s.end, i + 1);
      go(i + 1, text + n, false);
      return;
    }
    if (i + 1 < sounds.size() && sounds[i + 1].letter != 0) {
      const std::string two = as_symbol(std::string{s.letter, sounds[i + 1].letter});
      if (find_element(two) != nullptr) {
        mark(text + two, sounds[i + 1].end, i + 2);
        go(i + 2, text + two, false);
      }
    }
    const std::string one = as_symbol(std::string{s.letter});
    if (find_element(one) != nullptr) {
      mark(text + one, s.end, i + 1);
      go(i + 1, text + one, false);
    }
  };
  go(0, "", false);
  return found;
}

}  // namespace sash::chem
