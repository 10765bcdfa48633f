#include "chem/inner/formula_reader.h"

#include <algorithm>

#include "chem/inner/glyphs.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::charge_sign;
using inner::is_blank;
using inner::is_hydrate_dot;
using inner::is_lower;
using inner::is_state_at;
using inner::is_upper;
using inner::plain_digit;
using inner::subscript_digit;
using inner::superscript_digit;

constexpr std::size_t longest_text = 4096;

}  // namespace

Outcome<Formula> FormulaReader::read() {
  const std::string_view whole = text_;
  while (at_ < whole.size() && is_blank(static_cast<unsigned char>(whole[at_]))) ++at_;
  if (trim(whole).empty()) {
    return Fault::of(Code::malformed, "Nothing to read: type a formula, such as H2O.", std::string(whole));
  }
  if (whole.size() > longest_text) {
    return Fault::of(Code::out_of_range, "This formula has " + std::to_string(whole.size()) + " bytes; at most " +
                                             std::to_string(longest_text) + " are read.");
  }
  if (!electron()) return *std::move(fault_);
  if (!made_.pieces_.empty()) return std::move(made_);
  while (at_ < text_.size()) {
    if (!step()) return *std::move(fault_);
  }
  return finish();
}

bool FormulaReader::electron() {
  if (peek(at_).value != U'e' || at_ + 1 >= text_.size()) return true;
  const std::size_t start = at_;
  std::size_t at = at_ + 1;
  if (text_[at] == '^') ++at;
  const bool bracketed = text_.substr(at).starts_with('(');
  if (bracketed) ++at;
  const CodePoint sign = peek(at);
  const std::string_view behind = trim(text_.substr(std::min(text_.size(), at + sign.length)));
  if (charge_sign(sign.value) != -1 || behind != (bracketed ? ")" : "")) {
    at_ = start;
    return true;
  }
  made_.charge_ = -1;
  made_.parts_.push_back(FormulaPart{1, {}, -1});
  piece(Kind::atom, "e");
  piece(Kind::charge, "-");
  return true;
}

bool FormulaReader::step() {
  const CodePoint here = peek(at_);
  const char32_t c = here.value;
  if (is_blank(c)) {
    std::size_t next = at_;
    while (next < text_.size() && is_blank(static_cast<unsigned char>(text_[next]))) ++next;
    if (next == text_.size() || is_hydrate_dot(peek(next).value)) {
      at_ = next;
      return true;
    }
    if (text_[next] == '.') {
      at_ = next;
      return dot(1);
    }
    // "SO4 2-": a charge set off by a blank.
    const std::size_t sign = next + digits_at(next).size();
    const CodePoint mark = peek(sign);
    if (sign > next && charge_sign(mark.value) && ends_group_at(sign + mark.length)) {
      at_ = next;
      return caret_charge();
    }
    return fail(Code::malformed, at_, "A space stands inside the formula at " + character(at_) + "; leave it out.");
  }
  if (c == U'.') return full_stop();
  if (is_hydrate_dot(c)) return dot(here.length);
  if (c == U')' || c == U']' || c == U'}') return close(static_cast<char>(c));
  if (groups_.back().charged) {
    return fail(Code::malformed, at_,
                "A charge ends a formula or a bracket, but more follows it at " + character(at_) + ".");
  }
  if (c == U'(' || c == U'[' || c == U'{') return open(static_cast<char>(c));
  if (is_upper(c)) return unit_from_letter();
  if (is_lower(c)) return abbreviation();
  if (c == U'^' || superscript_digit(c)) {
    std::size_t at = c == U'^' ? at_ + 1 : at_;
    const bool braced = c == U'^' && peek(at).value == U'{';
    if (braced) ++at;
    while (superscript_digit(peek(at).value) || (c == U'^' && plain_digit(peek(at).value))) at += peek(at).length;
    if (braced && peek(at).value == U'}') ++at;
    return is_upper(peek(at).value) ? isotope_from_superscript() : caret_charge();
  }
  if (is_bond_at(at_)) return bond(here.length);
  if (charge_sign(c)) return bare_charge();
  if (plain_digit(c) && made_.pieces_.empty()) {
    const std::string_view number = digits_at(at_);
    const std::string_view first = text_.substr(at_ + number.size());
    std::size_t dot_at = 0;
    while (dot_at < first.size() && !is_hydrate_dot(code_point_at(first, dot_at).value)) ++dot_at;
    if (dot_at < first.size()) {
      const std::string instead = "(" + std::string(trim(first.substr(0, dot_at))) + ")" + std::string(number) +
                                  std::string(first.substr(dot_at));
      return fail(Code::malformed, at_,
                  "The number at " + character(at_) + " stands before the formula; type '" + instead +
                      "' if it counts the first part, or leave it out if it is an amount.",
                  {instead});
    }
    return fail(
        Code::malformed, at_,
        "The number at " + character(at_) +
            " stands before the formula: leave it out (it is an amount), or write an isotope in brackets, as in "
            "[13C].");
  }
  if (plain_digit(c) || subscript_digit(c)) {
    return fail(Code::malformed, at_, "The number at " + character(at_) + " has nothing before it to count.");
  }
  return fail(Code::malformed, at_,
              "Unexpected '" + std::string(text_.substr(at_, here.length)) + "' at " + character(at_) + ".");
}

bool FormulaReader::is_bond_at(std::size_t at) const {
  const CodePoint here = peek(at);
  const bool multiple = here.value == U'=' || here.value == U'≡' || here.value == U'#';
  const bool single = charge_sign(here.value) == -1;
  if ((!multiple && !single) || groups_.back().inside.empty()) return false;
  const char32_t next = peek(at + here.length).value;
  return is_upper(next) || (next == U'(' && !is_state_at(text_.substr(at + here.length)));
}

bool FormulaReader::bond(std::size_t length) {
  const char32_t sign = peek(at_).value;
  piece(Kind::bond, sign == U'=' ? "=" : (charge_sign(sign) ? "-" : "#"));
  at_ += length;
  return true;
}

bool FormulaReader::add(const Composition& unit, std::int64_t times) {
  for (const AtomCount& a : unit) add_atoms(groups_.back().inside, a.what, a.count * times);
  for (const AtomCount& a : groups_.back().inside) {
    if (a.count.lost()) return fail(Code::out_of_range, at_, "The counts multiply beyond what can be held.");
  }
  return true;
}

bool FormulaReader::end_part() {
  Group& group = groups_.back();
  if (!charge_fits(multiplier_ * group.charge + made_.charge_, made_.charge_)) return false;
  for (const AtomCount& a : group.inside) {
    add_atoms(made_.composition_, a.what, a.count * multiplier_);
  }
  for (const AtomCount& a : made_.composition_) {
    if (a.count.lost()) return fail(Code::out_of_range, at_, "The counts multiply beyond what can be held.");
  }
  made_.parts_.push_back(FormulaPart{multiplier_, std::move(group.inside), group.charge});
  group = Group{};
  return true;
}

Outcome<Formula> FormulaReader::finish() {
  if (groups_.size() > 1) {
    const std::size_t at = groups_.back().at;
    fail(Code::malformed, at,
         "The bracket '" + std::string(1, groups_.back().bracket) + "' at " + character(at) + " is never closed.");
    return *std::move(fault_);
  }
  if (groups_.back().inside.empty()) {
    fail(Code::malformed, text_.size() - 1, "Nothing follows the dot at the end of '" + std::string(text_) + "'.");
    return *std::move(fault_);
  }
  if (!end_part()) return *std::move(fault_);
  return std::move(made_);
}

bool FormulaReader::fail(Code code, std::size_t at, std::string sentence, std::vector<std::string> others) {
  fault_ = Fault{code, std::move(sentence), std::string(text_), at, std::move(others)};
  return false;
}

std::string FormulaReader::character(std::size_t at) const {
  const auto before = std::ranges::count_if(text_.substr(0, at), [](char c) { return (c & 0xC0) != 0x80; });
  return "character " + std::to_string(before + 1) + " of '" + std::string(text_) + "'";
}

CodePoint FormulaReader::peek(std::size_t at) const {
  return at < text_.size() ? code_point_at(text_, at) : CodePoint{0, 0};
}

std::string_view FormulaReader::digits_at(std::size_t at) const {
  std::size_t end = at;
  while (end < text_.size() && plain_digit(static_cast<unsigned char>(text_[end]))) ++end;
  return at < text_.size() ? text_.substr(at, end - at) : std::string_view();
}

bool FormulaReader::ends_group_at(std::size_t at) const {
  if (at >= text_.size()) return true;
  const char32_t c = peek(at).value;
  return c == U')' || c == U']' || c == U'}' || c == U'.' || is_hydrate_dot(c) || is_blank(c);
}

void FormulaReader::piece(Kind kind, std::string text, std::optional<int> mass_number) {
  made_.pieces_.push_back(FormulaPiece{kind, std::move(text), mass_number});
}

}  // namespace sash::chem
