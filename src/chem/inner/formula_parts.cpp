// The part of the formula reader that joins units: brackets, and the dots between the parts of a hydrate or double
// salt.

#include <algorithm>

#include "chem/inner/formula_reader.h"
#include "chem/inner/glyphs.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::is_blank;
using inner::is_state_at;
using inner::is_upper;
using inner::numeral_at;
using inner::partner;
using inner::plain_digit;

constexpr std::size_t deepest = 32;
constexpr std::size_t most_parts = 64;

}  // namespace

bool FormulaReader::open(char bracket) {
  if (groups_.size() > deepest) {
    return fail(Code::out_of_range, at_,
                "Brackets are nested more than " + std::to_string(deepest) + " deep at " + character(at_) + ".");
  }
  if (bracket == '(' && is_state_at(text_.substr(at_)) && !made_.pieces_.empty()) {
    const std::string state(text_.substr(at_, text_.find(')', at_) + 1 - at_));
    return fail(Code::malformed, at_,
                "'" + state + "' at " + character(at_) + " is a state; leave it out of a single formula.");
  }
  const std::string_view numeral = numeral_at(text_.substr(at_ + 1));
  if (bracket == '(' && !numeral.empty() && text_.substr(at_ + 1 + numeral.size()).starts_with(')') &&
      !made_.pieces_.empty() && made_.pieces_.back().kind == Kind::atom) {
    return oxidation_state(text_.substr(at_, numeral.size() + 2));
  }
  if (bracket == '(' || bracket == '{') {
    if (const auto after = charge_in_brackets()) return *after;
  }
  Group group;
  group.bracket = bracket;
  group.at = at_;
  groups_.push_back(std::move(group));
  ++at_;
  // [13C] reads as an isotope; the brackets around a lone isotope belong to it and print with it.
  if (bracket == '[' && !digits_at(at_).empty()) return mass_number_after_bracket();
  piece(Kind::open, std::string(1, bracket));
  return true;
}

bool FormulaReader::close(char bracket) {
  Group& group = groups_.back();
  if (group.bracket == 0) {
    return fail(Code::malformed, at_,
                "The bracket '" + std::string(1, bracket) + "' at " + character(at_) + " was never opened.");
  }
  if (partner(group.bracket) != bracket) {
    return fail(
        Code::malformed, at_,
        "'" + std::string(1, bracket) + "' at " + character(at_) + " closes the '" + std::string(1, group.bracket) +
            "' of character " +
            std::to_string(std::ranges::count_if(text_.substr(0, group.at), [](char c) { return (c & 0xC0) != 0x80; }) +
                           1) +
            "; use '" + std::string(1, partner(group.bracket)) + "'.");
  }
  if (group.inside.empty()) {
    return fail(Code::malformed, at_, "The bracket closed at " + character(at_) + " holds nothing.");
  }
  const Group done = std::move(group);
  groups_.pop_back();
  ++at_;
  piece(Kind::close, std::string(1, bracket));
  const auto times = count(bracket);
  if (!times || !add(done.inside, *times)) return false;
  if (!done.charged) return true;
  if (groups_.back().charged) {
    return fail(Code::malformed, at_, "Two charges meet at " + character(at_) + "; write only one.");
  }
  return charge_fits(Fraction(groups_.back().charge) + Fraction(done.charge) * *times, groups_.back().charge);
}

bool FormulaReader::full_stop() {
  const std::string_view after = digits_at(at_ + 1);
  if (after.empty()) return dot(1);
  const std::size_t beyond = at_ + 1 + after.size();
  const bool decimal_follows =
      beyond + 1 < text_.size() && text_[beyond] == '.' && plain_digit(static_cast<unsigned char>(text_[beyond + 1]));
  if (decimal_follows) return dot(1);  // "4.0.5H2O": only the second full stop can be a decimal point
  const std::string before(text_.substr(0, at_));
  const std::string rest(text_.substr(at_ + 1));
  const std::string as_dot = before + "·" + rest;
  const bool after_digit = at_ > 0 && plain_digit(static_cast<unsigned char>(text_[at_ - 1]));
  if (after_digit) {
    std::size_t first = at_;
    while (first > 0 && plain_digit(static_cast<unsigned char>(text_[first - 1]))) --first;
    const std::string number = std::string(text_.substr(first, at_ - first)) + "." + std::string(after);
    return fail(Code::ambiguous, at_,
                "The full stop at " + character(at_) + " can be a dot before " + std::string(after) +
                    " or the decimal point of " + number + "; type '" + as_dot + "' (or * for the dot) if it is a dot.",
                {as_dot});
  }
  const std::string as_decimal = before + "·0." + rest;
  return fail(Code::ambiguous, at_,
              "The full stop at " + character(at_) + " can be a dot before " + std::string(after) +
                  " or a decimal point; type '" + as_dot + "' or '" + as_decimal + "'.",
              {as_dot, as_decimal});
}

bool FormulaReader::dot(std::size_t length) {
  if (groups_.size() > 1) {
    return fail(Code::malformed, at_,
                "A dot stands inside a bracket at " + character(at_) + "; close the bracket before it.");
  }
  if (groups_.back().inside.empty()) {
    return fail(Code::malformed, at_, "Nothing stands before the dot at " + character(at_) + ".");
  }
  if (made_.parts_.size() + 1 >= most_parts) {
    return fail(Code::out_of_range, at_, "More than " + std::to_string(most_parts) + " parts are joined by dots.");
  }
  if (!end_part()) return false;
  at_ += length;
  piece(Kind::dot, "");
  while (at_ < text_.size() && is_blank(static_cast<unsigned char>(text_[at_]))) ++at_;
  return multiplier();
}

bool FormulaReader::multiplier() {
  const std::size_t start = at_;
  const CodePoint here = peek(at_);
  if (here.value == U'½' || here.value == U'¼' || here.value == U'¾') {
    multiplier_ = here.value == U'½' ? Fraction::ratio(1, 2) : Fraction::ratio(here.value == U'¼' ? 1 : 3, 4);
    at_ += here.length;
    piece(Kind::multiplier, multiplier_.decimal_text());
    return true;
  }
  std::size_t end = at_;
  while (end < text_.size() &&
         (plain_digit(static_cast<unsigned char>(text_[end])) || text_[end] == '.' || text_[end] == '/')) {
    ++end;
  }
  const std::string_view number = text_.substr(start, end - start);
  if (number.empty()) {
    if ((here.value == U'x' || here.value == U'n') && is_upper(peek(at_ + 1).value)) {
      return fail(Code::malformed, at_,
                  "'" + std::string(1, static_cast<char>(here.value)) + "' at " + character(at_) +
                      " leaves the number open; type a number, such as 5 in ·5H2O.");
    }
    multiplier_ = 1;
    return true;
  }
  const auto read = Fraction::read(number);
  if (!read || read->zero()) {
    return fail(read ? Code::out_of_range : Code::malformed, start,
                "'" + std::string(number) + "' at " + character(start) +
                    " is no number of parts; type a number above 0, such as 5, 0.5 or 1/2.");
  }
  multiplier_ = *read;
  at_ = end;
  while (at_ < text_.size() && is_blank(static_cast<unsigned char>(text_[at_]))) ++at_;
  if (multiplier_ != Fraction(1)) piece(Kind::multiplier, multiplier_.decimal_text());
  return true;
}

}  // namespace sash::chem
