#include "plot/inner/figures.h"

#include <cmath>

#include "quantity/show.h"

namespace sash::plot::inner {

std::vector<Held> Figures::all(std::string_view slot) const {
  std::vector<Held> out;
  for (const model::Term& term : relation_.terms) {
    if (term.slot != slot) continue;
    const workings::FigureState* state = report_.find(term.figure);
    if (state == nullptr) continue;
    const auto& best = state->said ? state->said : state->reconciled;  // the mark says "as in the record"
    if (!best || !std::isfinite(best->value)) continue;
    if (const auto unit = quantity::Unit::parse(best->unit)) out.push_back({best->value, *unit, term.about});
  }
  return out;
}

std::optional<Held> Figures::operator()(std::string_view slot) const {
  auto held = all(slot);
  if (held.empty()) return std::nullopt;
  return std::move(held.front());
}

std::string Figures::given(const std::string& key) const {
  const auto at = relation_.given.find(key);
  return at == relation_.given.end() ? std::string() : at->second;
}

std::string with_unit(double number, const std::string& unit, int digits) {
  return quantity::show_with_unit(number, unit, digits);
}

void set_axes(Plot& plot, std::string x_name, std::string x_unit, std::string y_name, std::string y_unit,
              bool y_from_zero) {
  std::vector<double> xs;
  std::vector<double> ys;
  for (const Series& s : plot.series) {
    for (const Point& p : s.points) {
      xs.push_back(p.x);
      ys.push_back(p.y);
    }
  }
  plot.x = axis_over(std::move(x_name), std::move(x_unit), xs, true);
  plot.y = axis_over(std::move(y_name), std::move(y_unit), ys, y_from_zero);
  shape_series(plot);
}

}  // namespace sash::plot::inner
