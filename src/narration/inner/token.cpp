#include "narration/inner/token.h"

#include <array>
#include <optional>
#include <unordered_map>
#include <utility>

#include "embedded/misheard_words.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_ascii_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

struct VulgarFraction {
  char32_t sign;
  double value;
};
constexpr std::array<VulgarFraction, 9> vulgar_fractions = {{{U'½', 0.5},
                                                             {U'¼', 0.25},
                                                             {U'¾', 0.75},
                                                             {U'⅓', 1.0 / 3},
                                                             {U'⅔', 2.0 / 3},
                                                             {U'⅕', 0.2},
                                                             {U'⅛', 0.125},
                                                             {U'⅜', 0.375},
                                                             {U'⅒', 0.1}}};

std::optional<double> vulgar(char32_t c) {
  for (const VulgarFraction& f : vulgar_fractions) {
    if (f.sign == c) return f.value;
  }
  return std::nullopt;
}

/// Letters of words beyond ASCII. Signs and punctuation of the Latin-1 and general blocks are not.
bool is_wide_letter(char32_t c) {
  if (c == U'µ') return true;
  return c >= 0xC0 && c != 0xFFFD && c != U'×' && c != U'÷' && !(c >= 0x2000 && c <= 0x2BFF) &&
         !(c >= 0x3000 && c <= 0x303F);
}

class Lexer {
 public:
  Lexer(std::string_view raw, std::string_view lower, std::uint32_t line, std::vector<Token>& out)
      : raw_(raw), lower_(lower), line_(line), out_(out) {}

  void run() {
    while (at_ < raw_.size()) {
      const char c = raw_[at_];
      if (c == ' ' || c == '\n' || c == '\t' || c == '\r') {
        ++at_;
        gap_ = true;
        continue;
      }
      if (is_digit(c) || (c == '.' && at_ + 1 < raw_.size() && is_digit(raw_[at_ + 1]) && gap_)) {
        number();
      } else {
        const CodePoint p = code_point_at(raw_, at_);
        if (const auto fraction = vulgar(p.value)) {
          push(Token::Type::number, p.length, *fraction);
        } else if (is_ascii_letter(c) || is_wide_letter(p.value)) {
          word();
        } else {
          sign(p);
        }
      }
      gap_ = false;
    }
  }

 private:
  void push(Token::Type type, std::size_t length, double value = 0) {
    Token t;
    t.type = type;
    t.glued = !gap_ && at_ != 0;
    t.line = line_;
    t.begin = static_cast<std::uint32_t>(at_);
    t.end = static_cast<std::uint32_t>(at_ + length);
    t.value = value;
    t.text = lower_.substr(at_, length);
    t.raw = raw_.substr(at_, length);
    out_.push_back(t);
    at_ += length;
  }

  std::size_t digits_from(std::size_t p) const {
    const std::size_t first = p;
    while (p < raw_.size() && is_digit(raw_[p])) ++p;
    return p - first;
  }

  bool char_at(std::size_t p, char c) const { return p < raw_.size() && raw_[p] == c; }

  /// Behind the whole part of a number: digits, or groups of three parted by commas or narrow spaces.
  std::size_t whole_part(std::size_t p, std::string& plain) const {
    std::size_t n = digits_from(p);
    plain += raw_.substr(p, n);
    p += n;
    if (n > 3) return p;
    for (;;) {
      std::size_t mark = char_at(p, ',') ? 1 : 0;
      if (mark == 0 && p < raw_.size() && static_cast<unsigned char>(raw_[p]) >= 0x80) {
        const CodePoint c = code_point_at(raw_, p);
        if (c.value == 0x202F || c.value == 0x2009 || c.value == 0xA0) mark = c.length;
      }
      if (mark == 0 || digits_from(p + mark) != 3) return p;
      plain += raw_.substr(p + mark, 3);
      p += mark + 3;
    }
  }

  void number() {
    std::string plain;
    std::size_t p = whole_part(at_, plain);
    if (char_at(p, ':') && digits_from(p + 1) == 2) {
      p += 3;
      while (char_at(p, ':') && digits_from(p + 1) == 2) p += 3;
      return push(Token::Type::clock, p - at_);
    }
    if (char_at(p, '.') && digits_from(p + 1) > 0) {
      const std::size_t n = digits_from(p + 1);
      plain += raw_.substr(p, n + 1);
      p += n + 1;
    }
    if (char_at(p, '/') && digits_from(p + 1) > 0) {
      const std::size_t n = digits_from(p + 1);
      const double divisor = read_number(raw_.substr(p + 1, n)).value_or(0);
      const double top = read_number(plain).value_or(0);
      if (divisor > 0) return push(Token::Type::slashed, p + 1 + n - at_, top / divisor);
    }
    if (p + 1 < raw_.size() && plain.find('.') == std::string::npos) {
      const std::string_view tail = lower_.substr(p, 2);
      const bool ends = p + 2 >= raw_.size() || !is_ascii_letter(raw_[p + 2]);
      if (ends && (tail == "st" || tail == "nd" || tail == "rd" || tail == "th")) {
        return push(Token::Type::word, p + 2 - at_);
      }
    }
    if (const std::size_t e = exponent(p); e != 0) {
      plain += raw_.substr(p, e);
      p += e;
    }
    const auto value = read_number(plain.starts_with('.') ? "0" + plain : plain);
    push(Token::Type::number, p - at_, value.value_or(0));
  }

  /// Length of "e-3" at `p`, 0 when there is none.
  std::size_t exponent(std::size_t p) const {
    if (!char_at(p, 'e') && !char_at(p, 'E')) return 0;
    std::size_t q = p + 1;
    if (char_at(q, '-') || char_at(q, '+')) ++q;
    const std::size_t n = digits_from(q);
    if (n == 0 || n > 2 || (q + n < raw_.size() && is_ascii_letter(raw_[q + n]))) return 0;
    return q + n - p;
  }

  void word() {
    std::size_t p = at_;
    while (p < raw_.size()) {
      const char c = raw_[p];
      if (is_ascii_letter(c) || is_digit(c)) {
        ++p;
        continue;
      }
      if (c == '\'' && p + 1 < raw_.size() && is_ascii_letter(raw_[p + 1])) {
        ++p;
        continue;
      }
      const CodePoint wide = code_point_at(raw_, p);
      const bool apostrophe =
          wide.value == 0x2019 && p + wide.length < raw_.size() && is_ascii_letter(raw_[p + wide.length]);
      const bool subscript = wide.value >= 0x2080 && wide.value <= 0x2089;
      if (wide.length < 2 || !(apostrophe || subscript || is_wide_letter(wide.value))) break;
      p += wide.length;
    }
    push(Token::Type::word, p - at_);
  }

  void sign(const CodePoint& p) {
    const bool degree = p.value == U'°' || p.value == U'º' || p.value == U'˚';
    if (degree && at_ + p.length < raw_.size()) {
      std::size_t q = at_ + p.length;
      if (raw_[q] == ' ' && q + 1 < raw_.size()) ++q;
      const bool letter = raw_[q] == 'C' || raw_[q] == 'F' || raw_[q] == 'c' || raw_[q] == 'f' || raw_[q] == 'K';
      if (letter && (q + 1 >= raw_.size() || !is_ascii_letter(raw_[q + 1])))
        return push(Token::Type::word, q + 1 - at_);
    }
    if (degree || p.value == U'℃' || p.value == U'℉') return push(Token::Type::word, p.length);
    if (raw_.substr(at_).starts_with(">>")) return push(Token::Type::sign, 2);
    if (raw_.substr(at_).starts_with("+/-")) return push(Token::Type::sign, 3);
    push(Token::Type::sign, p.length);
  }

  std::string_view raw_;
  std::string_view lower_;
  std::uint32_t line_;
  std::vector<Token>& out_;
  std::size_t at_ = 0;
  bool gap_ = true;
};

}  // namespace

namespace {

/// What words of the bench are written as when a recogniser does not know them.
const std::unordered_map<std::string_view, std::string_view>& misheard() {
  static const std::unordered_map<std::string_view, std::string_view> all = [] {
    std::unordered_map<std::string_view, std::string_view> words;
    bool header = true;
    for (const std::string_view line : split_lines(embedded::misheard_words)) {
      if (std::exchange(header, false)) continue;
      const auto cells = split(line, '\t');
      promise(cells.size() == 3, "a row of the misheard words has three cells");
      words.emplace(cells[0], cells[1]);
    }
    return words;
  }();
  return all;
}

}  // namespace

TokenStream tokenise(std::span<const model::NarrationLine> lines) {
  TokenStream out;
  std::size_t bytes = 0;
  for (const model::NarrationLine& line : lines) bytes += line.noise ? 0 : line.text.size();
  out.lower = std::make_unique<std::string>();
  out.lower->reserve(bytes);  // views into it are taken while it grows
  out.tokens.reserve(bytes / 4);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].noise) continue;
    const std::size_t begin = out.lower->size();
    *out.lower += to_lower(lines[i].text);
    Lexer(lines[i].text, std::string_view(*out.lower).substr(begin), static_cast<std::uint32_t>(i), out.tokens).run();
  }
  for (Token& t : out.tokens) {
    if (t.type != Token::Type::word) continue;
    if (const auto meant = misheard().find(t.text); meant != misheard().end()) t.text = meant->second;
  }
  return out;
}

}  // namespace sash::narration
