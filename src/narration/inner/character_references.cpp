#include "narration/inner/character_references.h"

#include <algorithm>
#include <array>
#include <vector>

#include "embedded/html_character_references.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

struct Named {
  std::string_view name;  ///< without '&', with ';' where it has one
  std::string text;
};

std::vector<Named> read_names() {
  std::vector<Named> names;
  bool header = true;
  for (const std::string_view row : split_lines(embedded::html_character_references)) {
    if (header) {
      header = false;
      continue;
    }
    const auto cells = split(row, '\t');
    promise(cells.size() == 3, "a row of the character references has three cells");
    Named named{cells[0], {}};
    for (const std::string_view hex : split(cells[1], ' ')) {
      char32_t c = 0;
      for (const char d : hex) c = c * 16 + static_cast<char32_t>(d <= '9' ? d - '0' : d - 'A' + 10);
      append_utf8(named.text, c);
    }
    names.push_back(std::move(named));
  }
  std::sort(names.begin(), names.end(), [](const Named& a, const Named& b) { return a.name < b.name; });
  return names;
}

const std::vector<Named>& names() {
  static const std::vector<Named> all = read_names();
  return all;
}

/// What HTML makes of numbers 0x80 to 0x9F: the characters of windows-1252.
constexpr std::array<char16_t, 32> windows_1252 = {0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                   0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0x8D,   0x017D, 0x8F,
                                                   0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                   0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};

int digit_of(char c, int base) {
  if (c >= '0' && c <= '9') return c - '0';
  if (base == 16 && c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (base == 16 && c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

/// `at` stands behind the '#'.
std::size_t consume_number(std::string_view text, std::size_t at, std::string& to) {
  std::size_t p = at;
  int base = 10;
  if (p < text.size() && (text[p] == 'x' || text[p] == 'X')) {
    base = 16;
    ++p;
  }
  const std::size_t first = p;
  char32_t number = 0;
  while (p < text.size() && digit_of(text[p], base) >= 0) {
    number = std::min<char32_t>(number * static_cast<char32_t>(base) + static_cast<char32_t>(digit_of(text[p], base)),
                                0x110000);
    ++p;
  }
  if (p == first) return 0;
  if (p < text.size() && text[p] == ';') ++p;
  if (number == 0 || number > 0x10FFFF || (number >= 0xD800 && number <= 0xDFFF)) {
    number = 0xFFFD;
  } else if (number >= 0x80 && number <= 0x9F) {
    number = windows_1252[number - 0x80];
  }
  append_utf8(to, number);
  return p - at;
}

std::size_t consume_name(std::string_view text, std::size_t at, std::string& to) {
  constexpr std::size_t longest = 33;  // "CounterClockwiseContourIntegral;" has 32
  std::size_t length = 0;
  while (length < longest && at + length < text.size()) {
    const char c = text[at + length];
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (!letter && c != ';') break;
    ++length;
    if (c == ';') break;
  }
  for (; length > 0; --length) {
    const std::string_view name = text.substr(at, length);
    const auto it = std::lower_bound(names().begin(), names().end(), name,
                                     [](const Named& n, std::string_view wanted) { return n.name < wanted; });
    if (it != names().end() && it->name == name) {
      to += it->text;
      return length;
    }
  }
  return 0;
}

}  // namespace

std::size_t consume_reference(std::string_view text, std::size_t at, char stop, std::string& to) {
  if (at >= text.size()) return 0;
  const char c = text[at];
  if (c == '\t' || c == '\n' || c == '\f' || c == ' ' || c == '<' || c == '&' || (stop != '\0' && c == stop)) return 0;
  if (c != '#') return consume_name(text, at, to);
  const std::size_t used = consume_number(text, at + 1, to);
  return used == 0 ? 0 : used + 1;
}

std::string decode_references(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '&') {
      out += text[i];
      continue;
    }
    const std::size_t used = consume_reference(text, i + 1, '\0', out);
    if (used == 0) out += '&';
    i += used;
  }
  return out;
}

}  // namespace sash::narration
