// Reads equations: finds the arrow, cuts the sides into terms, and hands each formula to the formula reader.

#include <algorithm>
#include <array>

#include "chem/equation.h"
#include "chem/inner/glyphs.h"
#include "support/text.h"

namespace sash::chem {
namespace {

constexpr std::size_t longest_text = 16384;
constexpr std::size_t most_species = 64;

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

struct ArrowSpelling {
  std::string_view text;
  bool reversible;
};
// Longest first, so that "<=>" is not taken for "=".
constexpr std::array arrows{
    ArrowSpelling{"<-->", true}, ArrowSpelling{"<==>", true}, ArrowSpelling{"<=>", true}, ArrowSpelling{"<->", true},
    ArrowSpelling{"-->", false}, ArrowSpelling{"==>", false}, ArrowSpelling{"->", false}, ArrowSpelling{"=>", false},
    ArrowSpelling{"–>", false},  ArrowSpelling{"—>", false},  ArrowSpelling{"→", false},  ArrowSpelling{"⟶", false},
    ArrowSpelling{"⇒", false},   ArrowSpelling{"⇌", true},    ArrowSpelling{"⇄", true},   ArrowSpelling{"⇋", true},
    ArrowSpelling{"↔", true},    ArrowSpelling{"⟷", true},
};

struct Arrow {
  std::size_t begin;
  std::size_t end;
  bool reversible;
  std::string on_arrow;
};

// True when the text before `at` ends in "^" or "^2": a minus there is a charge.
bool charge_expected(std::string_view text, std::size_t at) {
  while (at > 0 && is_digit(text[at - 1])) --at;
  return at > 0 && text[at - 1] == '^';
}

std::optional<Arrow> arrow_at(std::string_view text, std::size_t at) {
  for (const ArrowSpelling& a : arrows) {
    if (!text.substr(at).starts_with(a.text)) continue;
    if (a.text[0] == '-' && charge_expected(text, at)) return std::nullopt;  // "Cl^-->" is Cl^- and ->
    return Arrow{at, at + a.text.size(), a.reversible, {}};
  }
  return std::nullopt;
}

// "->[H2SO4] C + H2O": the bracket belongs to the arrow when a blank and a further species follow it, for a complex at
// the start of the right side is followed by a charge, a count, a plus or the end.
void take_bracket_after(std::string_view text, Arrow& arrow) {
  if (arrow.end >= text.size() || text[arrow.end] != '[') return;
  int depth = 0;
  std::size_t at = arrow.end;
  for (; at < text.size(); ++at) {
    depth += text[at] == '[' ? 1 : (text[at] == ']' ? -1 : 0);
    if (depth == 0) break;
  }
  std::size_t next = std::min(at + 1, text.size());
  if (next >= text.size() || !is_blank(text[next])) return;
  while (next < text.size() && is_blank(text[next])) ++next;
  if (next == text.size() || text[next] == '+') return;
  arrow.on_arrow = std::string(trim(text.substr(arrow.end + 1, at - arrow.end - 1)));
  arrow.end = next;
}

// "A -[heat]-> B"
std::optional<Arrow> labelled_arrow_at(std::string_view text, std::size_t at) {
  if (!text.substr(at).starts_with("-[") || (at > 0 && !is_blank(text[at - 1]))) return std::nullopt;
  const auto close = text.find("]-", at);
  if (close == std::string_view::npos) return std::nullopt;
  const std::size_t tail = text.find('>', close);
  if (tail == std::string_view::npos || text.substr(close + 1, tail - close - 1).find_first_not_of('-') != text.npos) {
    return std::nullopt;
  }
  return Arrow{at, tail + 1, false, std::string(trim(text.substr(at + 2, close - at - 2)))};
}

Fault at_place(Fault fault, std::string_view whole, std::size_t offset) {
  fault.place = offset + fault.place.value_or(0);
  fault.offending = std::string(whole);
  return fault;
}

Outcome<Arrow> find_arrow(std::string_view text) {
  std::vector<Arrow> found;
  for (std::size_t at = 0; at < text.size(); ++at) {
    auto arrow = labelled_arrow_at(text, at);
    if (!arrow) {
      arrow = arrow_at(text, at);
      if (arrow) take_bracket_after(text, *arrow);
    }
    if (!arrow) continue;
    at = arrow->end - 1;
    found.push_back(*std::move(arrow));
  }
  // An equals sign counts only where no arrow stands, for it may also be a double bond.
  if (found.empty()) {
    for (std::size_t at = 0; at < text.size(); ++at) {
      if (text[at] != '=') continue;
      const std::size_t length = text.substr(at).starts_with("==") ? 2 : 1;
      Arrow arrow{at, at + length, false, {}};
      take_bracket_after(text, arrow);
      at = arrow.end - 1;
      found.push_back(std::move(arrow));
    }
  }
  if (found.empty()) {
    return Fault::of(
        Code::malformed,
        "There is no arrow in '" + std::string(text) + "'; put -> or = between what reacts and what forms.",
        std::string(text));
  }
  if (found.size() > 1) {
    Fault fault = Fault::of(
        Code::malformed,
        "'" + std::string(text) + "' has " + std::to_string(found.size()) + " arrows; write one step at a time.",
        std::string(text));
    fault.place = found[1].begin;
    return fault;
  }
  return std::move(found.front());
}

constexpr std::array<std::pair<std::string_view, State>, 14> state_spellings{{
    {"(s)", State::solid},
    {"(cr)", State::solid},
    {"(l)", State::liquid},
    {"(g)", State::gas},
    {"(aq)", State::aqueous},
    {"(aq.)", State::aqueous},
    {"(conc)", State::aqueous},
    {"(conc.)", State::aqueous},
    {"(dil)", State::aqueous},
    {"(dil.)", State::aqueous},
    {"↓", State::solid},
    {"↑", State::gas},
    {"(solid)", State::solid},
    {"(gas)", State::gas},
}};

bool state_starts(std::string_view text) {
  return std::ranges::any_of(state_spellings, [text](const auto& s) { return text.starts_with(s.first); });
}

// Whether the plus at `at` is a charge ("Na+ + Cl-", "Fe^3+", "Na+(aq)") and not the sign between two terms.
bool plus_is_charge(std::string_view side, std::size_t at) {
  if (charge_expected(side, at) || (at > 0 && side[at - 1] == '{')) return true;
  if (at > 0 && side[at - 1] == '(' && charge_expected(side, at - 1)) return true;
  if (at + 1 < side.size() && (side[at + 1] == '}' || side[at + 1] == ')' || side[at + 1] == ']')) return true;
  if (at == 0 || is_blank(side[at - 1])) return false;
  std::size_t next = at + 1;
  while (next < side.size() && is_blank(side[next])) ++next;
  return next == side.size() || side[next] == '+' || state_starts(side.substr(next));
}

Outcome<std::vector<Species>> read_side(std::string_view whole, std::size_t begin, std::size_t end, const char* which) {
  const std::string_view side = whole.substr(begin, end - begin);
  if (trim(side).empty()) {
    Fault fault = Fault::of(Code::malformed,
                            std::string("Nothing stands ") + which + " the arrow of '" + std::string(whole) + "'.",
                            std::string(whole));
    fault.place = begin;
    return fault;
  }
  std::vector<Species> read;
  std::size_t start = 0;
  for (std::size_t at = 0; at <= side.size(); ++at) {
    if (at < side.size() && (side[at] != '+' || plus_is_charge(side, at))) continue;
    std::string_view term = side.substr(start, at - start);
    const std::size_t lead = term.size() - std::min(term.size(), trim(term).size());
    const std::size_t offset = begin + start + (lead > 0 && !trim(term).empty() ? term.find(trim(term)) : 0);
    term = trim(term);
    if (term.empty()) {
      return at_place(Fault::of(Code::malformed, "A plus in '" + std::string(whole) + "' has no species beside it."),
                      whole, begin + std::min(at, side.size() - 1));
    }
    Outcome<Species> species = read_species(term);
    if (!species) return at_place(species.fault(), whole, offset);
    read.push_back(std::move(species).value());
    if (read.size() > most_species) {
      return Fault::of(Code::out_of_range, "An equation of more than " + std::to_string(most_species) +
                                               " species on one side is not read.");
    }
    start = at + 1;
  }
  return read;
}

}  // namespace

Outcome<Species> read_species(std::string_view text) {
  std::string_view rest = trim(text);
  Species species;
  for (const auto& [spelling, state] : state_spellings) {
    if (!rest.ends_with(spelling) || rest.size() == spelling.size()) continue;
    rest.remove_suffix(spelling.size());
    rest = trim(rest);
    species.state = state;
    break;
  }
  std::size_t number = 0;
  if (rest.starts_with("½")) {
    species.coefficient = Fraction::ratio(1, 2);
    number = std::string_view("½").size();
  } else {
    while (number < rest.size() && (is_digit(rest[number]) || rest[number] == '.' || rest[number] == '/')) ++number;
    if (number > 0) {
      species.coefficient = Fraction::read(rest.substr(0, number));
      if (!species.coefficient || species.coefficient->zero()) {
        return Fault::of(Code::malformed,
                         "'" + std::string(rest.substr(0, number)) + "' before '" + std::string(rest.substr(number)) +
                             "' is no coefficient; type a number above 0, such as 2, 1/2 or 0.5.",
                         std::string(text));
      }
    }
  }
  while (number < rest.size() && is_blank(rest[number])) ++number;
  const std::string_view formula_text = rest.substr(number);
  const auto offset = static_cast<std::size_t>(formula_text.data() - text.data());
  Outcome<Formula> formula = read_formula(formula_text);
  if (!formula) return at_place(formula.fault(), text, offset);
  species.formula = std::move(formula).value();
  return species;
}

Outcome<Equation> read_equation(std::string_view text) {
  if (text.size() > longest_text) {
    return Fault::of(Code::out_of_range, "This equation has " + std::to_string(text.size()) + " bytes; at most " +
                                             std::to_string(longest_text) + " are read.");
  }
  Outcome<Arrow> arrow = find_arrow(text);
  if (!arrow) return arrow.fault();
  auto left = read_side(text, 0, arrow->begin, "before");
  if (!left) return left.fault();
  auto right = read_side(text, arrow->end, text.size(), "after");
  if (!right) return right.fault();
  return Equation(std::move(left).value(), std::move(right).value(), arrow->reversible, std::move(arrow->on_arrow));
}

}  // namespace sash::chem
