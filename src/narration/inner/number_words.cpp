#include "narration/inner/number_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "support/text.h"

namespace sash::narration {

namespace {

struct Entry {
  std::string_view word;
  int value;
};

template <std::size_t N>
constexpr std::optional<int> among(const std::array<Entry, N>& table, std::string_view word) {
  for (const Entry& e : table) {
    if (e.word == word) return e.value;
  }
  return std::nullopt;
}

constexpr std::array<Entry, 9> ones = {{{"one", 1},
                                        {"two", 2},
                                        {"three", 3},
                                        {"four", 4},
                                        {"five", 5},
                                        {"six", 6},
                                        {"seven", 7},
                                        {"eight", 8},
                                        {"nine", 9}}};
constexpr std::array<Entry, 10> teens = {{{"ten", 10},
                                          {"eleven", 11},
                                          {"twelve", 12},
                                          {"thirteen", 13},
                                          {"fourteen", 14},
                                          {"fifteen", 15},
                                          {"sixteen", 16},
                                          {"seventeen", 17},
                                          {"eighteen", 18},
                                          {"nineteen", 19}}};
constexpr std::array<Entry, 9> tens = {{{"twenty", 20},
                                        {"thirty", 30},
                                        {"forty", 40},
                                        {"fourty", 40},
                                        {"fifty", 50},
                                        {"sixty", 60},
                                        {"seventy", 70},
                                        {"eighty", 80},
                                        {"ninety", 90}}};
constexpr std::array<Entry, 5> zeros = {{{"zero", 0}, {"oh", 0}, {"nought", 0}, {"naught", 0}, {"o", 0}}};
constexpr std::array<Entry, 3> scales = {{{"thousand", 3}, {"million", 6}, {"billion", 9}}};

/// What "a third" or "two thirds" divide by.
constexpr std::array<Entry, 13> parts = {{{"half", 2},
                                          {"third", 3},
                                          {"quarter", 4},
                                          {"fourth", 4},
                                          {"fifth", 5},
                                          {"sixth", 6},
                                          {"seventh", 7},
                                          {"eighth", 8},
                                          {"ninth", 9},
                                          {"tenth", 10},
                                          {"twentieth", 20},
                                          {"hundredth", 100},
                                          {"thousandth", 1000}}};

std::optional<int> part_of(std::string_view word) {
  if (word == "halves") return 2;
  if (const auto exact = among(parts, word)) return exact;
  return word.ends_with('s') ? among(parts, word.substr(0, word.size() - 1)) : std::nullopt;
}

class Reader {
 public:
  Reader(const TokenStream& s, std::size_t at) : s_(s), first_(at), at_(at) {}

  std::optional<SpokenNumber> read() {
    const bool minus = read_minus();
    auto number = read_unsigned();
    if (!number) return std::nullopt;
    if (minus) {
      number->value = -number->value;
      number->digits = number->digits.empty() ? "" : "-" + number->digits;
    }
    number->first = first_;
    number->last = at_;
    return number;
  }

  std::optional<FractionTail> read_and_fraction() {
    std::size_t p = at_;
    if (!s_.is(p, "and") && !s_.is(p, "&")) return std::nullopt;
    const auto share = fraction_at(p + 1);
    if (!share || share->value >= 1) return std::nullopt;
    return share;
  }

 private:
  using Type = Token::Type;

  bool read_minus() {
    const bool word = s_.is(at_, "minus") || s_.is(at_, "negative");
    const bool sign = (s_.is(at_, "-") || s_.is(at_, "\u2212")) && s_.is_type(at_, Type::sign) && !s_[at_].glued &&
                      s_.is_type(at_ + 1, Type::number) && s_[at_ + 1].glued;
    if (!word && !sign) return false;
    ++at_;
    return true;
  }

  /// Skips a hyphen that joins two words ("twenty-five").
  std::size_t past_hyphen(std::size_t p) const {
    return s_.is(p, "-") && s_[p].glued && p + 1 < s_.size() && s_[p + 1].glued ? p + 1 : p;
  }

  std::optional<int> digit_at(std::size_t p) const {
    if (const auto one = among(ones, s_.text(p))) return one;
    return among(zeros, s_.text(p));
  }

  /// 0 to 99 in words, or nothing. Sets `next` behind it.
  std::optional<int> below_hundred(std::size_t p, std::size_t& next) const {
    if (const auto ten = among(tens, s_.text(p))) {
      const std::size_t q = past_hyphen(p + 1);
      if (const auto one = among(ones, s_.text(q))) {
        next = q + 1;
        return *ten + *one;
      }
      next = p + 1;
      return ten;
    }
    next = p + 1;
    if (const auto teen = among(teens, s_.text(p))) return teen;
    return among(ones, s_.text(p));
  }

  /// "half", "a half", "a third", "two thirds", "three quarters", "1/2", "½", behind `p`.
  std::optional<FractionTail> fraction_at(std::size_t p) const {
    if (s_.is_type(p, Type::slashed) && s_[p].value < 1) return FractionTail{s_[p].value, p + 1};
    if (s_.is_type(p, Type::number) && s_[p].value < 1 && static_cast<unsigned char>(s_[p].raw[0]) >= 0x80) {
      return FractionTail{s_[p].value, p + 1};
    }
    double top = 1;
    std::size_t q = p;
    const bool article = s_.is(p, "a") || s_.is(p, "an");
    bool counted = article;
    if (article) {
      ++q;
    } else if (const auto one = among(ones, s_.text(p))) {
      top = *one;
      q = past_hyphen(p + 1);
      counted = true;
    } else if (s_.is_type(p, Type::number) && s_[p].value >= 1 && s_[p].value < 10) {
      top = s_[p].value;
      ++q;
      counted = true;
    }
    const std::string_view word = s_.text(q);
    const auto part = part_of(word);
    if (!part) return std::nullopt;
    // Alone, only "half" is surely a share; "third" and "second" are places in a row. "Tenth molar" is a strength.
    const bool unit_behind = s_.is(q + 1, "molar") || (s_.is(q + 1, "of") && (s_.is(q + 2, "a") || s_.is(q + 2, "an")));
    const bool strength = unit_behind && *part >= 4;
    if (!counted && *part != 2 && !strength) return std::nullopt;
    // "two fifth" is no share, "three quarter" is heard; "one third" and "a third" are shares.
    if (top > 1 && !word.ends_with('s') && *part != 4) return std::nullopt;
    return FractionTail{top / *part, q + 1};
  }

  std::optional<SpokenNumber> read_unsigned() {
    SpokenNumber n;
    if (s_.is_type(at_, Type::number) || s_.is_type(at_, Type::slashed)) return read_written();
    if (const auto share = fraction_at(at_)) {
      n.value = share->value;
      n.fraction = true;
      at_ = share->last;
      if (s_.is(at_, "a") && s_.is(at_ + 1, "dozen")) {
        n.value *= 12;
        n.fraction = false;
        at_ += 2;
      }
      return n;
    }
    if (is_point(at_)) {
      n.digits = "0";
      return read_point(n) ? std::optional(n) : std::nullopt;
    }
    if (!read_whole(n)) return std::nullopt;
    n.digits = fmt::format("{:.0f}", n.value);
    if (is_point(at_) && read_point(n)) {
      n.year = n.paired = false;
      return n;
    }
    if (read_power_of_ten(n)) return n;
    add_fraction(n);
    return n;
  }

  std::optional<SpokenNumber> read_written() {
    SpokenNumber n;
    const Token& t = s_[at_];
    n.written = true;
    n.value = t.value;
    if (t.type == Type::slashed) {
      n.fraction = t.value < 1;
      ++at_;
      return n;
    }
    n.digits = replace_all(std::string(t.text), ",", "");
    std::erase_if(n.digits, [](char c) { return static_cast<unsigned char>(c) >= 0x80; });
    n.decimal = n.digits.find('.') != std::string::npos;
    n.fraction = static_cast<unsigned char>(t.raw[0]) >= 0x80;
    if (n.digits.starts_with('.')) n.digits.insert(0, "0");
    if (const auto share = fraction_at(at_); share && s_.is_type(at_ + 1, Type::word) && !n.decimal) {
      n.value = share->value;
      n.fraction = true;
      n.digits.clear();
      at_ = share->last;
      return n;
    }
    ++at_;
    if (!n.decimal && is_point(at_) && read_point(n)) return n;
    // "1 500": a space for the comma, when the groups are right.
    while (!n.decimal && s_.is_type(at_, Type::number) && !s_[at_].glued && s_[at_].text.size() == 3 &&
           n.value < 1000 && n.value >= 1 && s_[at_].text.find_first_not_of("0123456789") == std::string_view::npos &&
           s_[at_].text.ends_with("00")) {
      n.value = n.value * 1000 + s_[at_].value;
      n.digits += s_[at_].text;
      ++at_;
    }
    if (s_.is(at_, "hundred") && n.value < 100) {
      n.value *= 100;
      n.digits.clear();
      ++at_;
      std::size_t next = at_;
      const std::size_t p = s_.is(at_, "and") ? at_ + 1 : at_;
      if (const auto low = below_hundred(p, next)) {
        n.value += *low;
        at_ = next;
      }
    }
    if (const auto scale = among(scales, s_.text(at_))) {
      n.value *= std::pow(10, *scale);
      n.digits.clear();
      ++at_;
    }
    if (read_power_of_ten(n)) return n;
    if (!n.decimal) add_fraction(n);
    return n;
  }

  /// "x 10^-3", "times ten to the minus three" behind a mantissa.
  bool read_power_of_ten(SpokenNumber& n) {
    std::size_t p = at_;
    if (!s_.is(p, "times") && !s_.is(p, "x") && !s_.is(p, "×")) return false;
    ++p;
    if (!s_.is(p, "10") && !s_.is(p, "ten")) return false;
    ++p;
    if (s_.is(p, "^")) {
      ++p;
    } else if (s_.is(p, "to") && s_.is(p + 1, "the")) {
      p += 2;
      if (s_.is(p, "power")) p += s_.is(p + 1, "of") ? 2 : 1;
    } else {
      return false;
    }
    const bool minus = s_.is(p, "minus") || s_.is(p, "negative") || s_.is(p, "-") || s_.is(p, "\u2212");
    if (minus) ++p;
    double power = 0;
    if (s_.is_type(p, Type::number)) {
      power = s_[p].value;
    } else if (const auto one = digit_at(p)) {
      power = *one;
    } else {
      return false;
    }
    if (power > 30 || power != std::floor(power)) return false;
    n.value *= std::pow(10, minus ? -power : power);
    n.digits += fmt::format("e{}{:.0f}", minus ? "-" : "", power);
    at_ = p + 1;
    return true;
  }

  void add_fraction(SpokenNumber& n) {
    std::optional<FractionTail> share = read_and_fraction();
    const bool sign_behind = s_.is_type(at_, Type::slashed) ||
                             (s_.is_type(at_, Type::number) && static_cast<unsigned char>(s_[at_].raw[0]) >= 0x80);
    if (!share && sign_behind) share = fraction_at(at_);
    if (!share || share->value >= 1) return;
    n.value += share->value;
    n.digits.clear();
    n.year = n.paired = false;
    at_ = share->last;
  }

  /// Whether the word there is a decimal point. "That point", "melting point" are not.
  bool is_point(std::size_t p) const {
    if (!s_.is(p, "point") && !s_.is(p, "dot")) return false;
    const bool digit_behind = digit_at(p + 1) || s_.is(p + 1, "ate") || s_.is_type(p + 1, Type::number) ||
                              among(tens, s_.text(p + 1)) || among(teens, s_.text(p + 1));
    if (!digit_behind) return false;
    if (p != first_) return true;
    if (p == 0) return true;
    static constexpr std::array<std::string_view, 22> no_decimal = {
        "that", "this", "the",   "some", "which",       "starting", "end", "melting", "boiling", "freezing", "flash",
        "any",  "what", "every", "one",  "equivalence", "set",      "dew", "good",    "cloud",   "turning",  "each"};
    return std::find(no_decimal.begin(), no_decimal.end(), s_.text(p - 1)) == no_decimal.end();
  }

  /// The digits behind "point": "two five", "25", "5 4", "oh five", "twenty five".
  bool read_point(SpokenNumber& n) {
    std::size_t p = at_ + 1;
    std::string digits;
    while (p < s_.size()) {
      // "point ate": a digit as it sounds.
      const char heard = s_.is(p, "ate") ? '8' : s_.is(p, "won") && digits.empty() ? '1' : ' ';
      if (heard != ' ') {
        digits += heard;
        ++p;
        continue;
      }
      if (const auto one = digit_at(p)) {
        digits += static_cast<char>('0' + *one);
        ++p;
        continue;
      }
      const bool plain_digits =
          s_.is_type(p, Type::number) && s_[p].text.find_first_not_of("0123456789") == std::string_view::npos;
      if (plain_digits) {
        digits += s_[p].text;
        ++p;
        continue;
      }
      std::size_t next = p;
      if (digits.empty() || digits.find_first_not_of('0') == std::string::npos) {
        if (const auto pair = below_hundred(p, next); pair && *pair >= 10) {
          digits += fmt::format("{}", *pair);
          p = next;
        }
      }
      break;
    }
    if (digits.empty()) return false;
    n.digits += "." + digits;
    const auto value = read_number(n.digits);
    if (!value) return false;
    n.value = *value;
    n.decimal = true;
    at_ = p;
    return true;
  }

  bool read_whole(SpokenNumber& n) {
    double total = 0;
    bool any = false;
    double smallest_scale = 1e15;
    while (at_ < s_.size()) {
      const std::size_t start = at_;
      if (any && s_.is(at_, ",")) ++at_;  // "one hundred thousand, four hundred"
      double group = 0;
      if (!read_group(n, group, any)) {
        at_ = start;
        break;
      }
      if (const auto scale = among(scales, s_.text(at_)); scale && std::pow(10, *scale) < smallest_scale) {
        smallest_scale = std::pow(10, *scale);
        total += group * smallest_scale;
        ++at_;
        any = true;
        continue;
      }
      total += group;
      any = true;
      break;
    }
    n.value = total;
    return any;
  }

  /// One group below a thousand, or a pair such as "eleven hundred", "two fifty", "nineteen eighty four".
  bool read_group(SpokenNumber& n, double& group, bool behind_scale) {
    std::size_t p = at_;
    if (behind_scale && s_.is(p, "and")) {
      ++p;
      std::size_t next = p;
      if (const auto low = below_hundred(p, next)) {
        group = *low;
        at_ = next;
        return true;
      }
      return false;
    }
    if (!behind_scale && (s_.is(p, "a") || s_.is(p, "an"))) {
      if (s_.is(p + 1, "couple")) {
        n.vague = true;
        group = 2;
        p += 2;
        if (s_.is(p, "of") && (s_.is(p + 1, "hundred") || s_.is(p + 1, "thousand"))) ++p;
      } else if (s_.is(p + 1, "dozen")) {
        group = 12;
        at_ = p + 2;
        return true;
      } else if (s_.is(p + 1, "hundred") || among(scales, s_.text(p + 1))) {
        group = 1;
        ++p;
      } else {
        return false;
      }
    } else if (!behind_scale && s_.is(p, "zero")) {
      at_ = p + 1;
      return true;
    } else if (!behind_scale && (s_.is(p, "oh") || s_.is(p, "nought") || s_.is(p, "naught")) && s_.is(p + 1, "point")) {
      at_ = p + 1;
      return true;
    } else if (!behind_scale && (s_.is(p, "nought") || s_.is(p, "naught"))) {
      at_ = p + 1;
      return true;
    } else {
      std::size_t next = p;
      const auto low = below_hundred(p, next);
      if (!low) return false;
      group = *low;
      p = next;
      if (!behind_scale && !s_.is(p, "hundred") && read_pair(n, group, p)) return true;
    }
    if (s_.is(p, "hundred")) {
      group *= 100;
      ++p;
      std::size_t next = p;
      const bool joined = s_.is(p, "and");
      if (const auto low = below_hundred(joined ? p + 1 : p, next)) {
        // "one hundred and a half" is a fraction; "hundred one" without "and" stays open to "hundred one gram lots".
        group += *low;
        p = next;
      }
    }
    at_ = p;
    return true;
  }

  /// Behind a first number of one or two digits: "fifty" in "two fifty", "oh five" in "one oh five", "eighty four" in
  /// "nineteen eighty four".
  bool read_pair(SpokenNumber& n, double& group, std::size_t p) {
    if (group < 1 || group > 99) return false;
    if ((s_.is(p, "oh") || s_.is(p, "o")) && p + 1 < s_.size()) {
      const std::size_t q = past_hyphen(p + 1);
      const auto one = among(ones, s_.text(q));
      if (one && !s_.is(q + 1, "point")) {
        group = group * 100 + *one;
        n.paired = true;
        n.year = group > 1000;
        at_ = q + 1;
        return true;
      }
      return false;
    }
    std::size_t next = p;
    const auto low = below_hundred(p, next);
    if (!low || *low < 10) return false;
    const bool small = group < 10;  // "two fifty"
    const bool pairs = group >= 11 && group <= 20;
    if (!small && !pairs) return false;
    if (s_.is(next, "hundred") || s_.is(next, "thousand")) return false;
    // "one forty one point four" goes on behind the point, "eleven twelve point five" is two numbers.
    if (s_.is(next, "point") && !(small && is_point(next))) return false;
    group = group * 100 + *low;
    n.paired = small;
    n.year = pairs;
    at_ = next;
    return true;
  }

  const TokenStream& s_;
  std::size_t first_;
  std::size_t at_;
};

}  // namespace

std::optional<SpokenNumber> read_spoken_number(const TokenStream& s, std::size_t at) {
  if (at >= s.size()) return std::nullopt;
  return Reader(s, at).read();
}

std::optional<SpokenNumber> read_article(const TokenStream& s, std::size_t at) {
  if (!s.is(at, "a") && !s.is(at, "an")) return std::nullopt;
  SpokenNumber n;
  n.first = at;
  n.last = at + 1;
  n.value = 1;
  n.article = true;
  return n;
}

std::optional<FractionTail> read_fraction_tail(const TokenStream& s, std::size_t at) {
  return Reader(s, at).read_and_fraction();
}

}  // namespace sash::narration
