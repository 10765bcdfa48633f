#pragma once
// Small text tools without locale: splitting, trimming, case, UTF-8 steps, nearest spelling. Pure.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sash {

std::string_view trim(std::string_view s);                              ///< ASCII white space off both ends
std::vector<std::string_view> split(std::string_view s, char at);       ///< empty pieces kept; never an empty list
std::vector<std::string_view> split_lines(std::string_view s);          ///< at \n, \r\n or \r; no empty last line
std::string to_lower(std::string_view s);                               ///< ASCII letters only
bool starts_with_no_case(std::string_view s, std::string_view prefix);  ///< ASCII
std::string replace_all(std::string s, std::string_view what, std::string_view with);
std::string join(std::span<const std::string> parts, std::string_view between);

/// Reads a finite decimal number ("-1.5e3") that fills all of `s`; nothing otherwise. '.' is the decimal mark.
std::optional<double> read_number(std::string_view s);
std::optional<std::int64_t> read_integer(std::string_view s);

/// The code point at byte `at` and how many bytes it takes; malformed bytes give U+FFFD and length 1.
struct CodePoint {
  char32_t value;
  std::size_t length;
};
CodePoint code_point_at(std::string_view s, std::size_t at);
void append_utf8(std::string& to, char32_t c);
bool is_utf8(std::string_view s);

/// The candidate with the smallest edit distance to `word`, when that is at most a third of its length, rounded up, and
/// at most 3.
std::optional<std::string_view> nearest_spelling(std::string_view word, std::span<const std::string_view> candidates);

}  // namespace sash
