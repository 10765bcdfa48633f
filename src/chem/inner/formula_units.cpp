// The part of the formula reader that reads one unit from its letters: elements, isotopes, abbreviated groups, and the
// oxidation states it refuses.

#include <algorithm>

#include "chem/inner/abbreviations.h"
#include "chem/inner/acetyl.h"
#include "chem/inner/formula_reader.h"
#include "chem/inner/glyphs.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::Abbreviation;
using inner::abbreviations;
using inner::atoms_of;
using inner::is_lower;
using inner::numeral_at;
using inner::plain_digit;
using inner::superscript_digit;

std::string did_you_mean(std::string_view symbol) {
  std::vector<std::string_view> symbols;
  for (const Element& e : elements()) symbols.push_back(e.symbol);
  const auto nearest = nearest_spelling(symbol, symbols);
  return nearest ? "; did you mean '" + std::string(*nearest) + "'?" : ".";
}

}  // namespace

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
    if (const auto done = acetyl_or_actinium()) return *done;
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

// Nothing where it is actinium, which reads like any element.
std::optional<bool> FormulaReader::acetyl_or_actinium() {
  const bool after_oxygen = !made_.pieces_.empty() && made_.pieces_.back() == FormulaPiece{Kind::atom, "O"};
  const inner::AcMeans means = after_oxygen ? inner::AcMeans::group
                               : at_ == 0   ? inner::ac_means(text_.substr(inner::acetyl.text.size()))
                                            : inner::AcMeans::unclear;
  if (means == inner::AcMeans::metal) return std::nullopt;
  if (means == inner::AcMeans::unclear) {
    return fail(Code::ambiguous, at_,
                "'Ac' at " + character(at_) +
                    " can be actinium or acetyl; type CH3CO for acetyl, or an isotope such as [227Ac] for actinium.",
                {"CH3CO", "[227Ac]"});
  }
  at_ += inner::acetyl.text.size();
  piece(Kind::abbreviation, std::string(inner::acetyl.text));
  const auto times = count(0);
  return times && add(atoms_of(inner::acetyl), *times);
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

}  // namespace sash::chem
