// The part of the formula reader that decides what a number or a sign means: counts, charges, and digits before a bare
// sign.

#include "chem/inner/formula_reader.h"
#include "chem/inner/glyphs.h"
#include "chem/inner/known_ions.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::charge_sign;
using inner::partner;
using inner::plain_digit;
using inner::subscript_digit;
using inner::superscript_digit;

constexpr std::size_t most_digits = 9;
constexpr std::int64_t highest_charge = 999;

}  // namespace

bool FormulaReader::caret_charge() {
  const std::size_t start = at_;
  if (text_[at_] == '^') ++at_;
  char wrapped = 0;
  if (at_ < text_.size() && (text_[at_] == '{' || text_[at_] == '(')) wrapped = partner(text_[at_++]);
  std::int64_t size = 0;
  std::size_t digits = 0;
  int sign = 0;
  int signs = 0;
  while (at_ < text_.size() && digits <= 3) {
    const CodePoint here = peek(at_);
    auto digit = plain_digit(here.value);
    if (!digit) digit = superscript_digit(here.value);
    const auto this_sign = charge_sign(here.value);
    if (digit) {
      size = size * 10 + *digit;
      ++digits;
    } else if (this_sign && (sign == 0 || sign == *this_sign)) {
      sign = *this_sign;
      ++signs;
    } else {
      break;
    }
    at_ += here.length;
  }
  const bool closed = wrapped == 0 || (at_ < text_.size() && text_[at_] == wrapped);
  if (sign == 0 || !closed || (digits > 0 && (signs > 1 || size == 0))) {
    return fail(Code::malformed, start,
                "The charge at " + character(start) + " is not complete; write it as in ^2- or ^+.");
  }
  if (wrapped != 0) ++at_;
  return set_charge(sign * (digits > 0 ? size : signs));
}

std::optional<bool> FormulaReader::charge_in_brackets() {
  std::size_t at = at_ + 1;
  std::size_t digits = 0;
  std::size_t signs = 0;
  for (; at < text_.size() && digits + signs < 6; at += peek(at).length) {
    const char32_t c = peek(at).value;
    if (plain_digit(c)) {
      ++digits;
    } else if (charge_sign(c)) {
      ++signs;
    } else {
      break;
    }
  }
  const bool closed = at < text_.size() && text_[at] == partner(text_[at_]);
  if (signs == 0 || !closed || made_.pieces_.empty() || !ends_group_at(at + 1)) return std::nullopt;
  return caret_charge();
}

bool FormulaReader::bare_charge() {
  const std::size_t start = at_;
  int charge = 0;
  while (at_ < text_.size()) {
    const CodePoint here = peek(at_);
    const auto sign = charge_sign(here.value);
    if (!sign || charge * *sign < 0) break;
    charge += *sign;
    at_ += here.length;
  }
  if (groups_.back().inside.empty()) {
    return fail(Code::malformed, start, "Nothing stands before the charge at " + character(start) + ".");
  }
  // "Ba+2" at the end: the number follows its sign.
  const std::string_view size = digits_at(at_);
  if (size.size() == 1 && size != "0" && (charge == 1 || charge == -1) && ends_group_at(at_ + 1)) {
    at_ += 1;
    return set_charge(charge * *read_integer(size));
  }
  if (!ends_group_at(at_)) {
    return fail(Code::malformed, start,
                "The sign at " + character(start) +
                    " stands inside the formula; a charge goes at the end, as in SO4^2-, and a dot is typed ·.");
  }
  return set_charge(charge);
}

std::optional<std::int64_t> FormulaReader::count(char bracket) {
  // H_2O and C_{12}: a subscript as typesetters write it.
  bool braced = false;
  if (peek(at_).value == U'_') {
    braced = at_ + 1 < text_.size() && text_[at_ + 1] == '{';
    const std::string_view digits = digits_at(at_ + (braced ? 2 : 1));
    const std::size_t end = at_ + (braced ? 2 : 1) + digits.size();
    if (digits.empty() || (braced && !text_.substr(end).starts_with('}'))) {
      fail(Code::malformed, at_, "No number follows the subscript mark at " + character(at_) + ".");
      return std::nullopt;
    }
    at_ += braced ? 2 : 1;
  }
  const std::size_t start = at_;
  std::string digits;
  const bool plain = !digits_at(at_).empty();
  while (at_ < text_.size() && digits.size() <= most_digits) {
    const CodePoint here = peek(at_);
    const auto digit = plain ? plain_digit(here.value) : subscript_digit(here.value);
    if (!digit) break;
    digits.push_back(static_cast<char>('0' + *digit));
    at_ += here.length;
  }
  if (digits.empty()) return 1;
  if (digits.size() > most_digits) {
    fail(Code::out_of_range, start,
         "The count at " + character(start) + " has more than " + std::to_string(most_digits) + " digits.");
    return std::nullopt;
  }
  if (braced) ++at_;
  if (digits == "0" && peek(at_).value == U'.' && !digits_at(at_ + 1).empty()) {
    fail(Code::unsupported, start,
         "The count at " + character(start) +
             " is no whole number; multiply the formula up, as in Fe95O100 for Fe0.95O.");
    return std::nullopt;
  }
  if (digits[0] == '0') {
    fail(Code::malformed, start,
         "A count cannot begin with 0 at " + character(start) + "; for oxygen type the letter O.");
    return std::nullopt;
  }
  const CodePoint next = peek(at_);
  if (plain && !braced && charge_sign(next.value) && ends_group_at(at_ + next.length))
    return split_count_and_charge(digits, bracket);
  const auto number = read_integer(digits);
  if (*number > 1) piece(Kind::count, digits);
  return number;
}

std::optional<std::int64_t> FormulaReader::split_count_and_charge(std::string_view digits, char bracket) {
  const std::size_t start = at_ - digits.size();
  const CodePoint sign_here = peek(at_);
  const char sign = *charge_sign(sign_here.value) > 0 ? '+' : '-';
  struct Split {
    std::string count;
    std::string charge;
    std::string formula;
  };
  std::vector<Split> splits;
  std::vector<Split> known;
  const std::string before = made_.plain();
  for (std::size_t n = 0; n <= digits.size(); ++n) {
    Split s{std::string(digits.substr(0, n)), std::string(digits.substr(n)), {}};
    const bool plausible =
        s.charge.size() <= 1 && s.charge != "0" && s.count != "1" && (s.charge != "1" || digits == "1");
    if (!plausible) continue;
    s.formula = before + s.count + "^" + s.charge + sign;
    if (inner::is_known_ion(s.formula)) known.push_back(s);
    splits.push_back(std::move(s));
  }
  const bool whole_bracket = bracket == ']' && groups_.size() == 1 && digits.size() == 1;
  const Split* chosen = nullptr;
  if (!whole_bracket && known.size() == 1) {
    chosen = &known.front();
  } else if (whole_bracket || splits.size() == 1) {
    chosen = &splits.front();
  } else {
    const std::vector<Split>& candidates = known.empty() ? splits : known;
    std::vector<std::string> others;
    std::string listed;
    for (const Split& s : candidates) {
      others.push_back(s.formula);
      listed += (listed.empty() ? "" : " or ") + s.formula;
    }
    fail(Code::ambiguous, start,
         "The digits before the sign at " + character(start) + " can count atoms or charges; type " + listed + ".",
         std::move(others));
    return std::nullopt;
  }
  if (!chosen->count.empty()) piece(Kind::count, chosen->count);
  if (!chosen->charge.empty()) {
    at_ += sign_here.length;
    const auto size = read_integer(chosen->charge);
    if (!set_charge(sign == '+' ? *size : -*size)) return std::nullopt;
  }
  return chosen->count.empty() ? 1 : read_integer(chosen->count);
}

bool FormulaReader::set_charge(std::int64_t charge) {
  Group& group = groups_.back();
  if (charge > highest_charge || charge < -highest_charge) {
    return fail(Code::out_of_range, at_, "The charge before " + character(at_) + " is beyond what can be held.");
  }
  group.charge += static_cast<int>(charge);
  group.charged = true;
  const std::int64_t size = charge < 0 ? -charge : charge;
  piece(Kind::charge, (size == 1 ? "" : std::to_string(size)) + (charge < 0 ? "-" : "+"));
  return true;
}

bool FormulaReader::charge_fits(Fraction charge, int& to) {
  if (!charge.whole() || charge.top() > highest_charge || charge.top() < -highest_charge) {
    return fail(charge.whole() ? Code::out_of_range : Code::malformed, at_,
                "The charges of '" + std::string(text_) + "' do not add up to a whole number below 1000.");
  }
  to = static_cast<int>(charge.top());
  return true;
}

}  // namespace sash::chem
