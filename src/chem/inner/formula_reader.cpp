#include "chem/inner/formula_reader.h"

#include <algorithm>
#include <array>

#include "chem/inner/abbreviations.h"
#include "chem/inner/glyphs.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::Abbreviation;
using inner::abbreviations;
using inner::atoms_of;
using inner::charge_sign;
using inner::is_hydrate_dot;
using inner::partner;
using inner::plain_digit;
using inner::subscript_digit;
using inner::superscript_digit;

constexpr std::size_t longest_text = 4096;
constexpr std::size_t deepest = 32;
constexpr std::size_t most_parts = 64;

constexpr bool is_upper(char32_t c) { return c >= U'A' && c <= U'Z'; }
constexpr bool is_lower(char32_t c) { return c >= U'a' && c <= U'z'; }
constexpr bool is_blank(char32_t c) { return c == U' ' || c == U'\t'; }

// Compounds of acetyl with one oxygen as they are written; actinium would need two or three.
bool is_acetyl_compound(std::string_view rest) {
  constexpr std::array compounds{"AcOH", "AcO-", "AcO^-", "AcONa", "AcOK", "AcOEt", "AcOMe"};
  return std::ranges::find(compounds, trim(rest)) != compounds.end();
}

bool is_state_at(std::string_view rest) {
  constexpr std::array states{"(s)", "(l)", "(g)", "(aq)", "(cr)"};
  return std::ranges::any_of(states, [rest](std::string_view s) { return rest.starts_with(s); });
}

// "III" or "IV": an oxidation state, or iodine and vanadium.
std::string_view numeral_at(std::string_view rest) {
  std::size_t n = 0;
  while (n < rest.size() && (rest[n] == 'I' || rest[n] == 'V')) ++n;
  return rest.substr(0, n);
}

std::string did_you_mean(std::string_view symbol) {
  std::vector<std::string_view> symbols;
  for (const Element& e : elements()) symbols.push_back(e.symbol);
  const auto nearest = nearest_spelling(symbol, symbols);
  return nearest ? "; did you mean '" + std::string(*nearest) + "'?" : ".";
}

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

bool FormulaReader::oxidation_state(std::string_view numeral) {
  const std::string metal = made_.pieces_.back().text;
  return fail(Code::ambiguous, at_,
              "'" + std::string(numeral) + "' at " + character(at_) +
                  " can be an oxidation state or atoms of iodine and vanadium; type the charge, as in " + metal +
                  "^3+, or a count, as in " + metal + "I3.",
              {});
}

bool FormulaReader::unit_from_letter() {
  const std::size_t start = at_;
  const std::string_view numeral = numeral_at(text_.substr(start));
  const bool after_atom = !made_.pieces_.empty() && made_.pieces_.back().kind == Kind::atom;
  const bool state_like = numeral.find("II") != numeral.npos || ends_group_at(start + numeral.size());
  if (numeral.size() > 1 && after_atom && state_like) return oxidation_state(numeral);
  std::size_t lower = start + 1;
  while (lower < text_.size() && is_lower(static_cast<unsigned char>(text_[lower])) && lower - start < 4) ++lower;
  const std::string_view two = text_.substr(start, std::min<std::size_t>(lower - start, 2));

  for (const Abbreviation& a : abbreviations) {
    if (two != a.text) continue;
    at_ += two.size();
    piece(Kind::abbreviation, std::string(two));
    const auto times = count(0);
    return times && add(atoms_of(a), *times);
  }
  if (two == inner::acetyl.text) {
    const bool after_oxygen = !made_.pieces_.empty() && made_.pieces_.back() == FormulaPiece{Kind::atom, "O"};
    if (!after_oxygen && !(start == 0 && is_acetyl_compound(text_))) {
      return fail(Code::ambiguous, start,
                  "'Ac' at " + character(start) +
                      " can be actinium or acetyl; type CH3CO for acetyl, or an isotope such as [227Ac] for actinium.",
                  {"CH3CO", "[227Ac]"});
    }
    at_ += 2;
    piece(Kind::abbreviation, "Ac");
    const auto times = count(0);
    return times && add(atoms_of(inner::acetyl), *times);
  }
  if (two == "Ts") {
    return fail(Code::ambiguous, start,
                "'Ts' at " + character(start) +
                    " can be tennessine or tosyl; type CH3C6H4SO2 for tosyl, or an isotope such as [294Ts].",
                {"CH3C6H4SO2", "[294Ts]"});
  }
  if (two == "D" || two == "T") {
    const int mass_number = two == "D" ? 2 : 3;
    ++at_;
    piece(Kind::atom, std::string(two));
    const auto times = count(0);
    return times && add({{Nuclide{1, mass_number}, 1}}, *times);
  }
  const Element* found = find_element(two);
  if (found == nullptr && two.size() == 2 && find_element(two.substr(0, 1)) != nullptr) {
    // "Hen" or "Oac": the lower-case letters may begin an abbreviation of their own.
    const std::string_view rest = text_.substr(start + 1);
    if (std::ranges::any_of(abbreviations, [&](const Abbreviation& a) {
          return is_lower(static_cast<unsigned char>(a.text[0])) && rest.starts_with(a.text);
        })) {
      found = find_element(two.substr(0, 1));
    }
  }
  if (found == nullptr) {
    return fail(Code::unknown_name, start,
                "Unknown element '" + std::string(two) + "' at " + character(start) + did_you_mean(two));
  }
  at_ += found->symbol.size();
  piece(Kind::atom, std::string(found->symbol));
  const auto times = count(0);
  return times && add({{Nuclide{found->number, std::nullopt}, 1}}, *times);
}

bool FormulaReader::isotope_from_superscript() {
  const std::size_t start = at_;
  if (text_[at_] == '^') ++at_;
  const bool braced = text_[at_] == '{';
  if (braced) ++at_;
  int mass_number = 0;
  std::size_t digits = 0;
  for (; digits <= 3; ++digits) {
    const CodePoint here = peek(at_);
    auto digit = superscript_digit(here.value);
    if (!digit) digit = plain_digit(here.value);
    if (!digit) break;
    mass_number = mass_number * 10 + *digit;
    at_ += here.length;
  }
  if (braced) ++at_;  // step() saw its end
  std::string_view symbol = text_.substr(at_, 2);
  if (symbol.size() == 2 && !is_lower(static_cast<unsigned char>(symbol[1]))) symbol.remove_suffix(1);
  const Element* found = find_element(symbol);
  if (found == nullptr) {
    return fail(Code::unknown_name, at_,
                "Unknown element '" + std::string(symbol) + "' at " + character(at_) + did_you_mean(symbol));
  }
  if (!isotope_mass(found->number, mass_number)) {
    return fail(Code::unknown_name, start,
                "No isotope " + std::to_string(mass_number) + std::string(found->symbol) + " is known (" +
                    character(start) + ").");
  }
  at_ += symbol.size();
  piece(Kind::atom, std::string(symbol), mass_number);
  const auto times = count(0);
  return times && add({{Nuclide{found->number, mass_number}, 1}}, *times);
}

bool FormulaReader::abbreviation() {
  for (const Abbreviation& a : abbreviations) {
    if (!is_lower(static_cast<unsigned char>(a.text[0])) || !text_.substr(at_).starts_with(a.text)) continue;
    at_ += a.text.size();
    piece(Kind::abbreviation, std::string(a.text));
    const auto times = count(0);
    return times && add(atoms_of(a), *times);
  }
  std::string capital(text_.substr(at_, 2));
  capital[0] = static_cast<char>(capital[0] - 'a' + 'A');
  if (capital.size() == 2 && !is_lower(static_cast<unsigned char>(capital[1]))) capital.pop_back();
  std::string mend;
  if (find_element(capital) != nullptr) {
    mend = "; did you mean '" + capital + "'?";
  } else if (find_element(capital.substr(0, 1)) != nullptr) {
    mend = "; did you mean '" + capital.substr(0, 1) + "'?";
  } else {
    mend = ".";
  }
  return fail(Code::unknown_name, at_,
              "An element symbol begins with a capital, but '" + std::string(1, text_[at_]) + "' stands at " +
                  character(at_) + mend);
}

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

bool FormulaReader::mass_number_after_bracket() {
  const std::size_t start = at_;
  const std::string_view digits = digits_at(at_);
  std::size_t at = start + digits.size();
  std::string_view symbol = text_.substr(at, 2);
  if (symbol.size() == 2 && !is_lower(static_cast<unsigned char>(symbol[1]))) symbol.remove_suffix(1);
  const Element* found = find_element(symbol);
  if (found == nullptr) {
    return fail(Code::unknown_name, at,
                "An element symbol must follow the mass number at " + character(start) + ", as in [13C].");
  }
  const auto mass_number = digits.size() <= 3 ? read_integer(digits) : std::nullopt;
  if (!mass_number || !isotope_mass(found->number, static_cast<int>(*mass_number))) {
    return fail(Code::unknown_name, start,
                "No isotope " + std::string(digits) + std::string(symbol) + " is known (" + character(start) + ").");
  }
  at_ = at + symbol.size();
  const int number = static_cast<int>(*mass_number);
  const Composition unit{{Nuclide{found->number, number}, 1}};
  if (at_ < text_.size() && text_[at_] == ']') {
    groups_.pop_back();
    ++at_;
    piece(Kind::atom, std::string(symbol), number);
    const auto times = count(0);
    return times && add(unit, *times);
  }
  piece(Kind::open, "[");
  piece(Kind::atom, std::string(symbol), number);
  const auto times = count(0);
  return times && add(unit, *times);
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
