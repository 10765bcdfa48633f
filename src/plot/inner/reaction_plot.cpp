#include "plot/inner/reaction_plot.h"

#include <algorithm>
#include <limits>

#include "chem/balance.h"
#include "chem/molar_mass.h"
#include "chem/names.h"

namespace sash::plot::inner {
namespace {

namespace dimension = quantity::dimension;

/// One figure of the reaction: which species, and what one mol of it is in the figure's own unit.
struct Portion {
  std::size_t species = 0;
  std::string name;
  std::string unit;
  double number = 0;
  double per_mol = 0;
  double coefficient = 1;
  double extent() const { return number / per_mol / coefficient; }
};

std::optional<chem::Equation> balanced(const std::string& text) {
  const auto read = chem::read_equation(text);
  if (!read) return std::nullopt;
  const auto typed = chem::verify(*read);
  if (typed && typed->balanced) return *read;
  const auto found = chem::balance(*read);
  if (!found || found->status != chem::BalanceStatus::balanced) return std::nullopt;
  return read->with(found->coefficients);
}

std::optional<Portion> portion_of(const chem::Equation& equation, const Held& held, const Figures& figures) {
  const auto formula = chem::formula_of(held.about);
  if (!formula || figures.has_given("purity:" + held.about)) return std::nullopt;
  const auto species = equation.find(*formula);
  if (!species || !(held.number > 0)) return std::nullopt;
  Portion p;
  p.species = *species;
  p.name = formula->unicode();
  p.unit = held.unit.symbol();
  p.number = held.number;
  p.coefficient = equation.all()[*species].coefficient.value_or(chem::Fraction(1)).number();
  if (held.unit.dimension() == dimension::amount) {
    p.per_mol = held.unit.from_si(1);
    return p;
  }
  if (held.unit.dimension() != dimension::mass) return std::nullopt;
  // What was really weighed: a hydrate of the species.
  const std::string form = figures.given("form:" + held.about);
  const auto weighed = form.empty() ? formula : chem::formula_of(form);
  if (!weighed) return std::nullopt;
  const auto molar = chem::molar_mass(*weighed);
  if (!molar) return std::nullopt;
  p.per_mol = held.unit.from_si(molar->value / 1000);
  p.name = weighed->unicode();
  return p;
}

// Where nobody gave a figure for a product: the one that is written first, in grams.
std::optional<Portion> first_product(const chem::Equation& equation) {
  const chem::Species& first = equation.right().front();
  const auto molar = chem::molar_mass(first.formula);
  if (!molar) return std::nullopt;
  Portion p;
  p.species = equation.left().size();
  p.name = first.formula.unicode();
  p.unit = "g";
  p.per_mol = molar->value;
  p.coefficient = first.coefficient.value_or(chem::Fraction(1)).number();
  return p;
}

}  // namespace

std::optional<Plot> reaction_plot(const Figures& figures) {
  const auto equation = balanced(figures.given("equation"));
  if (!equation) return std::nullopt;
  std::vector<Portion> reactants;
  for (const Held& held : figures.all("reactant")) {
    if (auto p = portion_of(*equation, held, figures); p && equation->on_left(p->species)) reactants.push_back(*p);
  }
  std::optional<Portion> product;
  for (const Held& held : figures.all("product")) {
    product = portion_of(*equation, held, figures);
    if (product && !equation->on_left(product->species)) break;
    product.reset();
  }
  if (!product) product = first_product(*equation);
  if (reactants.empty() || !product) return std::nullopt;
  const Portion& x = reactants.front();
  double cap = std::numeric_limits<double>::infinity();
  std::string limiting;
  for (const Portion& other : reactants) {
    if (other.species == x.species || other.extent() >= cap) continue;
    cap = other.extent();
    limiting = other.name;
  }
  const double per_x = x.per_mol * x.coefficient;  // of the reactant, for an extent of 1 mol
  const double per_y = product->per_mol * product->coefficient;
  const auto formed = [=](double put_in) { return per_y * std::min(put_in / per_x, cap); };
  const double kink = cap * per_x;
  const double most = limiting.empty() || kink > 3 * x.number ? 2 * x.number : 1.5 * std::max(x.number, kink);

  // The corner itself is one of the points, so that no sample cuts it off.
  const auto with_corner = [=](const auto& law) {
    std::vector<Point> points = sampled(0, most, law);
    if (kink < most) {
      points.insert(std::ranges::lower_bound(points, kink, {}, &Point::x), Point{kink, law(kink)});
    }
    return points;
  };

  Plot plot;
  plot.title = "How much " + product->name + " more or less " + x.name + " can give";
  plot.series.push_back({product->name + " formed", {}, with_corner(formed)});
  if (!limiting.empty() && kink < most && x.unit == product->unit) {
    plot.series.push_back(
        {x.name + " left over", {}, with_corner([=](double put_in) { return std::max(0.0, put_in - kink); })});
  }
  set_axes(plot, x.name + " put in", x.unit, plot.series.size() > 1 ? "what is there" : product->name + " formed",
           product->unit, true);
  plot.marks.push_back({x.number, formed(x.number), "as in the record"});
  plot.reading = with_unit(x.number, x.unit) + " of " + x.name + " can give " +
                 with_unit(formed(x.number), product->unit) + " of " + product->name + ".";
  if (!limiting.empty() && kink < most) {
    plot.marks.push_back({kink, formed(kink), limiting + " used up"});
    plot.reading +=
        " Beyond " + with_unit(kink, x.unit) + " " + limiting + " limits: more " + x.name + " gives no more.";
  }
  return plot;
}

}  // namespace sash::plot::inner
