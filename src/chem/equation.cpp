#include "chem/equation.h"

#include "support/check.h"

namespace sash::chem {

std::string_view state_text(State state) {
  switch (state) {
    case State::solid:
      return "(s)";
    case State::liquid:
      return "(l)";
    case State::gas:
      return "(g)";
    case State::aqueous:
      return "(aq)";
  }
  return "";
}

Equation::Equation(std::vector<Species> left, std::vector<Species> right, bool reversible, std::string on_arrow)
    : species_(std::move(left)), left_count_(species_.size()), reversible_(reversible), on_arrow_(std::move(on_arrow)) {
  promise(!species_.empty() && !right.empty(), "an equation has species on both sides");
  for (Species& s : right) species_.push_back(std::move(s));
}

std::optional<std::size_t> Equation::find(const Formula& formula) const {
  for (std::size_t i = 0; i < species_.size(); ++i) {
    if (species_[i].formula.same_composition(formula)) return i;
  }
  return std::nullopt;
}

Equation Equation::with(const Coefficients& coefficients) const {
  promise(coefficients.size() == species_.size(), "an equation takes one coefficient for each species");
  Equation copy = *this;
  for (std::size_t i = 0; i < coefficients.size(); ++i) copy.species_[i].coefficient = coefficients[i];
  return copy;
}

std::string Equation::plain() const { return print(false); }
std::string Equation::unicode() const { return print(true); }

std::string Equation::print(bool unicode) const {
  std::string out;
  for (std::size_t i = 0; i < species_.size(); ++i) {
    if (i == left_count_) {
      out += unicode ? (reversible_ ? " ⇌ " : " → ") : (reversible_ ? " <=> " : " -> ");
    } else if (i > 0) {
      out += " + ";
    }
    const Species& s = species_[i];
    if (s.coefficient && *s.coefficient != Fraction(1)) out += s.coefficient->text() + " ";
    out += unicode ? s.formula.unicode() : s.formula.plain();
    if (s.state) out += state_text(*s.state);
  }
  return out;
}

}  // namespace sash::chem
