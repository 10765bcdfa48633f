#include "plot/inner/equilibrium_plot.h"

#include <algorithm>
#include <utility>

#include "chem/equilibria.h"
#include "chem/molar_mass.h"
#include "chem/names.h"
#include "plot/sweep_plot.h"

namespace sash::plot::inner {
namespace {

namespace dimension = quantity::dimension;

constexpr double litres = 1000;          // in a cubic metre
constexpr double some_solution = 0.100;  // L, where the record tells strengths only
constexpr double run_in_strength = 2;    // mol/L, what benches keep of most reagents
constexpr int steps = 30;

// mol of what a figure says was put in; nothing where that cannot be told.
std::optional<double> moles(const Held& held, const chem::Formula& what, double solution) {
  const quantity::Dimension& has = held.unit.dimension();
  if (has == dimension::molar_concentration) return held.si() / litres * solution;
  if (has == dimension::amount) return held.si();
  if (has != dimension::mass) return std::nullopt;
  const auto molar = chem::molar_mass(what);
  if (!molar) return std::nullopt;
  constexpr double grams = 1000;
  return held.si() * grams / molar->value;
}

}  // namespace

std::optional<Plot> equilibrium_plot(const Figures& figures) {
  if (figures.has_given("constants") || figures.has_given("held_pH") || figures.has_given("temperature")) {
    return std::nullopt;
  }
  const auto volume = figures("volume");
  const double all = volume ? volume->si() * litres : some_solution;
  std::vector<std::pair<chem::Formula, double>> put_in;
  for (const Held& held : figures.all("total")) {
    const auto what = chem::formula_of(held.about);
    const auto amount = what ? moles(held, *what, all) : std::nullopt;
    if (!amount || !(*amount > 0)) return std::nullopt;
    put_in.emplace_back(*what, *amount);
  }
  if (put_in.size() < 2) return std::nullopt;
  const auto [reagent, wanted] = put_in.back();
  put_in.pop_back();
  const double strength = std::max(run_in_strength, 2 * wanted / all);  // the rest keeps at least half the room
  const double run_in = wanted / strength;
  const double rest = all - run_in;
  std::vector<chem::Ingredient> solution;
  for (const auto& [what, amount] : put_in) solution.push_back({what, amount / rest});
  std::vector<double> added;
  for (int i = 0; i <= steps; ++i) added.push_back(2 * run_in * i / steps);
  const std::vector<chem::Ingredient> burette{{reagent, strength}};
  const auto swept = chem::sweep(solution, rest, burette, added);
  if (!swept) return std::nullopt;
  Plot plot = plot_of(*swept, {with_unit(strength, "mol/L") + " " + reagent.unicode()});
  constexpr double millilitres = 1000;
  plot.marks.push_back({run_in * millilitres, plot.y.low, "as in the record"});
  return plot;
}

}  // namespace sash::plot::inner
