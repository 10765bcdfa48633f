#include "support/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace sash {
namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' || c == '\v'; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::string_view trim(std::string_view s) {
  while (!s.empty() && is_space(s.front())) s.remove_prefix(1);
  while (!s.empty() && is_space(s.back())) s.remove_suffix(1);
  return s;
}

std::vector<std::string_view> split(std::string_view s, char at) {
  std::vector<std::string_view> out;
  for (;;) {
    const auto end = s.find(at);
    out.push_back(s.substr(0, end));
    if (end == std::string_view::npos) return out;
    s.remove_prefix(end + 1);
  }
}

std::vector<std::string_view> split_lines(std::string_view s) {
  std::vector<std::string_view> out;
  while (!s.empty()) {
    const auto end = s.find_first_of("\r\n");
    out.push_back(s.substr(0, end));
    if (end == std::string_view::npos) break;
    const bool pair = s[end] == '\r' && end + 1 < s.size() && s[end + 1] == '\n';
    s.remove_prefix(end + (pair ? 2 : 1));
  }
  return out;
}

std::string to_lower(std::string_view s) {
  std::string out(s);
  std::transform(out.begin(), out.end(), out.begin(), lower);
  return out;
}

bool starts_with_no_case(std::string_view s, std::string_view prefix) {
  return s.size() >= prefix.size() &&
         std::equal(prefix.begin(), prefix.end(), s.begin(), [](char a, char b) { return lower(a) == lower(b); });
}

std::string replace_all(std::string s, std::string_view what, std::string_view with) {
  if (what.empty()) return s;
  for (std::size_t at = 0; (at = s.find(what, at)) != std::string::npos; at += with.size()) {
    s.replace(at, what.size(), with);
  }
  return s;
}

std::string join(std::span<const std::string> parts, std::string_view between) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i != 0) out += between;
    out += parts[i];
  }
  return out;
}

std::optional<double> read_number(std::string_view s) {
  if (!s.empty() && s.front() == '+') s.remove_prefix(1);
  double out = 0;
  const auto [end, error] = std::from_chars(s.data(), s.data() + s.size(), out);
  if (error != std::errc() || end != s.data() + s.size() || !std::isfinite(out)) return std::nullopt;
  return out;
}

std::optional<std::int64_t> read_integer(std::string_view s) {
  std::int64_t out = 0;
  const auto [end, error] = std::from_chars(s.data(), s.data() + s.size(), out);
  if (error != std::errc() || end != s.data() + s.size()) return std::nullopt;
  return out;
}

CodePoint code_point_at(std::string_view s, std::size_t at) {
  constexpr CodePoint bad{0xFFFD, 1};
  if (at >= s.size()) return bad;
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(s[at + i]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return {first, 1};
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || at + length > s.size()) return bad;
  char32_t value = first & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return bad;
    value = (value << 6U) | (byte(i) & 0x3FU);
  }
  constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
  if (value < least[length] || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) return bad;
  return {value, length};
}

void append_utf8(std::string& to, char32_t c) {
  const auto put = [&](char32_t bits) { to += static_cast<char>(static_cast<unsigned char>(bits)); };
  if (c < 0x80) return put(c);
  if (c < 0x800) {
    put(0xC0U | (c >> 6U));
  } else if (c < 0x10000) {
    put(0xE0U | (c >> 12U));
    put(0x80U | ((c >> 6U) & 0x3FU));
  } else {
    put(0xF0U | (c >> 18U));
    put(0x80U | ((c >> 12U) & 0x3FU));
    put(0x80U | ((c >> 6U) & 0x3FU));
  }
  put(0x80U | (c & 0x3FU));
}

bool is_utf8(std::string_view s) {
  for (std::size_t at = 0; at < s.size();) {
    const auto [value, length] = code_point_at(s, at);
    if (value == 0xFFFD && s.substr(at, 3) != "\xEF\xBF\xBD") return false;
    at += length;
  }
  return true;
}

std::optional<std::string_view> nearest_spelling(std::string_view word, std::span<const std::string_view> candidates) {
  const auto distance = [](std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
      std::size_t diagonal = row[0];
      row[0] = i;
      for (std::size_t j = 1; j <= b.size(); ++j) {
        const std::size_t above = row[j];
        row[j] = std::min({row[j] + 1, row[j - 1] + 1, diagonal + (lower(a[i - 1]) == lower(b[j - 1]) ? 0U : 1U)});
        diagonal = above;
      }
    }
    return row[b.size()];
  };
  std::optional<std::string_view> best;
  std::size_t least = std::min<std::size_t>(3, (word.size() + 2) / 3) + 1;
  for (const auto candidate : candidates) {
    const std::size_t d = distance(word, candidate);
    if (d < least) {
      least = d;
      best = candidate;
    }
  }
  return best;
}

}  // namespace sash
