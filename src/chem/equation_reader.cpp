// Reads equations: finds the arrow, cuts the sides into terms, and hands each formula to the formula reader.

#include <algorithm>
#include <array>

#include "chem/equation.h"
#include "chem/inner/glyphs.h"
#include "chem/inner/known_ions.h"
#include "chem/names.h"
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
constexpr std::array arrows{
    ArrowSpelling{"–>", false}, ArrowSpelling{"—>", false}, ArrowSpelling{"→", false}, ArrowSpelling{"⟶", false},
    ArrowSpelling{"⇒", false},  ArrowSpelling{"⟹", false},  ArrowSpelling{"➜", false}, ArrowSpelling{"➔", false},
    ArrowSpelling{"➝", false},  ArrowSpelling{"⇌", true},   ArrowSpelling{"⇄", true},  ArrowSpelling{"⇋", true},
    ArrowSpelling{"⇔", true},   ArrowSpelling{"↔", true},   ArrowSpelling{"⟷", true},
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

// An arrow drawn with a keyboard: one or more of - or =, then >, with < before it when it goes both ways.
std::optional<Arrow> drawn_arrow_at(std::string_view text, std::size_t at) {
  const std::size_t begin = at;
  const bool reversible = text[at] == '<';
  if (reversible) ++at;
  const std::size_t shaft = at;
  while (at < text.size() && text[at] == text[shaft] && (text[at] == '-' || text[at] == '=')) ++at;
  if (at == shaft || at >= text.size() || text[at] != '>') return std::nullopt;
  if (text[begin] == '-' && charge_expected(text, begin) && at > begin + 1) return std::nullopt;  // Cl^- and ->
  return Arrow{begin, at + 1, reversible, {}};
}

std::optional<Arrow> arrow_at(std::string_view text, std::size_t at) {
  for (const ArrowSpelling& a : arrows) {
    if (text.substr(at).starts_with(a.text)) return Arrow{at, at + a.text.size(), a.reversible, {}};
  }
  return drawn_arrow_at(text, at);
}

// Where the bracket that opens at `at` ends, or nothing.
std::optional<std::size_t> bracket_end(std::string_view text, std::size_t at) {
  const char open = text[at];
  const char close = inner::partner(open);
  int depth = 0;
  for (; at < text.size(); ++at) {
    depth += text[at] == open ? 1 : (text[at] == close ? -1 : 0);
    if (depth == 0) return at + 1;
  }
  return std::nullopt;
}

void note_on(Arrow& arrow, std::string_view label) {
  if (!arrow.on_arrow.empty()) arrow.on_arrow += ", ";
  arrow.on_arrow += trim(label);
}

// "->[H2SO4] C + H2O": the bracket belongs to the arrow when a blank and a further species follow it, for a complex at
// the start of the right side is followed by a charge, a count, a plus or the end. A round bracket belongs to it when
// it also holds no formula: "→(Δ) 2 KCl".
void take_bracket_after(std::string_view text, Arrow& arrow) {
  while (arrow.end < text.size() && (text[arrow.end] == '[' || text[arrow.end] == '(')) {
    const auto end = bracket_end(text, arrow.end);
    if (!end || *end >= text.size()) return;
    const std::string_view label = text.substr(arrow.end + 1, *end - arrow.end - 2);
    if (text[arrow.end] == '(' && read_formula(label)) return;
    if (text[*end] == '[' && text[arrow.end] == '[') {  // "->[Fe][450 °C] NH3"
      note_on(arrow, label);
      arrow.end = *end;
      continue;
    }
    if (!is_blank(text[*end])) return;
    std::size_t next = *end;
    while (next < text.size() && is_blank(text[next])) ++next;
    if (next == text.size() || text[next] == '+') return;
    note_on(arrow, label);
    arrow.end = next;
    return;
  }
}

// "A -[heat]-> B", "A --heat--> B", "A -(MnO2, heat)-> B": a label drawn into the arrow, which a blank sets off from
// what reacts.
std::optional<Arrow> labelled_arrow_at(std::string_view text, std::size_t at) {
  if (text[at] != '-' || (at > 0 && !is_blank(text[at - 1]))) return std::nullopt;
  std::size_t begin = at;
  while (begin < text.size() && text[begin] == '-') ++begin;
  if (begin == text.size() || is_blank(text[begin]) || text[begin] == '>') return std::nullopt;
  const std::size_t tip = text.find("->", begin);
  if (tip == std::string_view::npos) return std::nullopt;
  std::size_t end = tip;
  while (end > begin && text[end - 1] == '-') --end;
  std::string_view label = text.substr(begin, end - begin);
  const bool bracketed = label.front() == '[' || label.front() == '(';
  if (bracketed && bracket_end(label, 0) == label.size()) label = label.substr(1, label.size() - 2);
  return Arrow{at, tip + 2, false, std::string(trim(label))};
}

Fault at_place(Fault fault, std::string_view whole, std::size_t offset) {
  fault.place = offset + fault.place.value_or(0);
  fault.offending = std::string(whole);
  return fault;
}

// "H+ + OH-->H2O": the first dash may be a charge or part of the arrow.
std::optional<Fault> glued_charge(std::string_view text, const Arrow& arrow) {
  if (!text.substr(arrow.begin).starts_with("-->") || arrow.begin == 0 || is_blank(text[arrow.begin - 1])) return {};
  std::size_t term = arrow.begin;
  while (term > 0 && !is_blank(text[term - 1]) && text[term - 1] != '+') --term;
  const auto species = read_species(text.substr(term, arrow.begin - term));
  if (!species || !inner::is_known_ion(species->formula.plain() + "^-")) return {};
  // O2 and NO2 are substances without a charge too, lone atoms and OH are not.
  const bool substance = species->formula.atoms() != Fraction(1) && name_of(species->formula).has_value();
  if (substance) return {};
  const std::string ion = std::string(text.substr(term, arrow.begin - term));
  Fault fault = Fault::of(Code::ambiguous,
                          "The dash after '" + ion +
                              "' can be its charge or part of the arrow; put a blank before the "
                              "arrow, as in '" +
                              ion + "- ->' or '" + ion + " -->'.",
                          std::string(text));
  fault.place = arrow.begin;
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
    if (auto fault = glued_charge(text, *arrow)) return *std::move(fault);
    at = arrow->end - 1;
    found.push_back(*std::move(arrow));
  }
  // An equals sign counts only where no arrow stands, and where some are set off by blanks only those do: the others
  // are double bonds.
  if (found.empty()) {
    const bool set_off = text.find(" =") != text.npos || text.find("= ") != text.npos;
    for (std::size_t at = 0; at < text.size(); ++at) {
      if (text[at] != '=') continue;
      const bool blank_beside = (at > 0 && is_blank(text[at - 1])) ||
                                (at + 1 < text.size() && (is_blank(text[at + 1]) || text[at + 1] == '='));
      if (set_off && !blank_beside) continue;
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

struct StateSpelling {
  std::string_view text;
  State state;
};
constexpr std::array state_spellings{
    StateSpelling{"(s)", State::solid},        StateSpelling{"(cr)", State::solid},
    StateSpelling{"(am)", State::solid},       StateSpelling{"(solid)", State::solid},
    StateSpelling{"(ppt)", State::solid},      StateSpelling{"↓", State::solid},
    StateSpelling{"(graphite)", State::solid}, StateSpelling{"(diamond)", State::solid},
    StateSpelling{"(rhombic)", State::solid},  StateSpelling{"(monoclinic)", State::solid},
    StateSpelling{"(white)", State::solid},    StateSpelling{"(red)", State::solid},
    StateSpelling{"(l)", State::liquid},       StateSpelling{"(ℓ)", State::liquid},
    StateSpelling{"(liquid)", State::liquid},  StateSpelling{"(molten)", State::liquid},
    StateSpelling{"(g)", State::gas},          StateSpelling{"(gas)", State::gas},
    StateSpelling{"(v)", State::gas},          StateSpelling{"↑", State::gas},
    StateSpelling{"(aq)", State::aqueous},     StateSpelling{"(aq.)", State::aqueous},
    StateSpelling{"(conc)", State::aqueous},   StateSpelling{"(conc.)", State::aqueous},
    StateSpelling{"(dil)", State::aqueous},    StateSpelling{"(dil.)", State::aqueous},
};

// Takes a state off the end of `term`: any of the spellings, or "(s, graphite)".
std::optional<State> take_state(std::string_view& term) {
  for (const auto& [spelling, state] : state_spellings) {
    if (!term.ends_with(spelling) || term.size() == spelling.size()) continue;
    term.remove_suffix(spelling.size());
    term = trim(term);
    return state;
  }
  const std::size_t open = term.rfind('(');
  if (!term.ends_with(')') || open == term.npos || open == 0) return std::nullopt;
  const std::string_view inside = term.substr(open + 1, term.size() - open - 2);
  const std::size_t comma = inside.find(',');
  if (comma == inside.npos) return std::nullopt;
  const std::string short_form = "(" + std::string(trim(inside.substr(0, comma))) + ")";
  const auto at = std::ranges::find(state_spellings, short_form, &StateSpelling::text);
  if (at == state_spellings.end()) return std::nullopt;
  term = trim(term.substr(0, open));
  return at->state;
}

bool state_starts(std::string_view text) {
  return std::ranges::any_of(state_spellings, [text](const auto& s) { return text.starts_with(s.text); });
}

// Whether the plus at `at` is a charge ("Na+ + Cl-", "Fe^3+", "Na+(aq)") and not the sign between two terms.
bool plus_is_charge(std::string_view side, std::size_t at) {
  if (charge_expected(side, at) || (at > 0 && side[at - 1] == '{')) return true;
  if (at > 0 && side[at - 1] == '(' && charge_expected(side, at - 1)) return true;
  if (at + 1 < side.size() && (side[at + 1] == '}' || side[at + 1] == ')' || side[at + 1] == ']')) return true;
  if (at == 0 || is_blank(side[at - 1])) return false;
  const auto ends_term = [side](std::size_t next) {
    while (next < side.size() && is_blank(side[next])) ++next;
    return next == side.size() || side[next] == '+' || state_starts(side.substr(next));
  };
  // "Ba+2": the size of the charge after its sign.
  return ends_term(at + 1) || (at + 1 < side.size() && is_digit(side[at + 1]) && ends_term(at + 2));
}

// "572 kJ", "heat", "ΔH = -572 kJ": written beside species in thermochemical equations.
bool is_energy(std::string_view term) {
  constexpr std::array endings{"kJ", "kJ/mol", "kcal", "kcal/mol", " J", " cal"};
  return term == "heat" || term == "energy" || term.find("ΔH") != term.npos ||
         std::ranges::any_of(endings, [term](std::string_view e) { return term.ends_with(e); });
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
    if (is_energy(term)) {
      return at_place(Fault::of(Code::unsupported, "'" + std::string(term) +
                                                       "' is an energy and no species; leave it out of the equation."),
                      whole, offset);
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
  // "(s)↓" says it twice; the one nearer the formula counts.
  while (const auto state = take_state(rest)) species.state = *state;
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
