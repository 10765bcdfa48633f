#include "plot/sweep_plot.h"

#include <algorithm>

#include "plot/inner/figures.h"
#include "quantity/show.h"
#include "support/text.h"

namespace sash::plot {
namespace {

constexpr double millimoles = 1000;
constexpr double millilitres = 1000;
// Below this share of what there is at most of anything, a solid counts as gone: less than could be seen.
constexpr double unseen = 1e-3;

double solid_amount(const chem::SweepPoint& point, std::size_t i) {
  return point.state.solid[i] * point.litres * millimoles;
}
double dissolved_amount(const chem::SweepPoint& point, std::size_t i) {
  return point.state.molarity[i] * point.litres * millimoles;
}

template <class Amount>
std::vector<Point> drawn(const chem::Sweep& sweep, std::size_t i, Amount amount) {
  std::vector<Point> points;
  for (const chem::SweepPoint& p : sweep.points) points.push_back({p.added * millilitres, amount(p, i)});
  return points;
}

double most_of(const std::vector<Point>& points) {
  double most = 0;
  for (const Point& p : points) most = std::max(most, p.y);
  return most;
}

double most_solid(const chem::Sweep& sweep) {
  double most = 0;
  for (std::size_t i = 0; i < sweep.system.solids().size(); ++i) {
    most = std::max(most, most_of(drawn(sweep, i, solid_amount)));
  }
  return most;
}

// Elements that mark a species as kin of a solid: all but those water and common anions bring everywhere.
bool tells(chem::Nuclide what) {
  constexpr int hydrogen = 1;
  constexpr int carbon = 6;
  constexpr int nitrogen = 7;
  constexpr int oxygen = 8;
  return what.number != hydrogen && what.number != carbon && what.number != nitrogen && what.number != oxygen;
}

bool kin(const chem::Formula& species, const std::vector<chem::Formula>& solids) {
  return std::ranges::any_of(solids, [&species](const chem::Formula& solid) {
    return std::ranges::any_of(species.composition(), [&solid](const chem::AtomCount& a) {
      return tells(a.what) && !solid.count_of(a.what).zero();
    });
  });
}

std::string volume(double ml) { return quantity::show_with_unit(ml, "mL", 3); }

std::string sentence_of(const SolidStretch& s) {
  std::string out = s.solid.unicode() + " appears at " + volume(s.appears) + ", is most at " + volume(s.most_at);
  if (s.cleared) return out + " and has cleared up by " + volume(*s.cleared) + ".";
  const double left = s.at_end / s.most;
  if (left > 0.95) return out + " and stays.";
  return out + " and dwindles to " + quantity::show_significant(100 * left, 2) + " % of that.";
}

}  // namespace

std::vector<SolidStretch> solid_stretches(const chem::Sweep& sweep) {
  std::vector<SolidStretch> out;
  const double floor = unseen * most_solid(sweep);
  for (std::size_t i = 0; i < sweep.system.solids().size(); ++i) {
    const std::vector<Point> points = drawn(sweep, i, solid_amount);
    const auto seen = [floor](const Point& p) { return p.y > floor; };
    const auto first = std::ranges::find_if(points, seen);
    if (first == points.end()) continue;
    const auto most = std::ranges::max_element(points, {}, &Point::y);
    const auto gone = std::find_if_not(most, points.end(), seen);
    SolidStretch s{sweep.system.solids()[i].formula, first->x, most->x, most->y, points.back().y, std::nullopt};
    if (gone != points.end()) s.cleared = gone->x;
    out.push_back(std::move(s));
  }
  std::ranges::stable_sort(out, {}, &SolidStretch::appears);
  return out;
}

Plot plot_of(const chem::Sweep& sweep, const SweepWords& words) {
  Plot plot;
  plot.title = "What is there as " + words.reagent + " is run in";
  const std::vector<SolidStretch> stretches = solid_stretches(sweep);
  std::vector<chem::Formula> solids;
  for (const SolidStretch& s : stretches) {
    solids.push_back(s.solid);
    const auto index = sweep.system.find_solid(s.solid);
    plot.series.push_back({s.solid.unicode() + " (solid)", {}, drawn(sweep, *index, solid_amount)});
    plot.marks.push_back({s.most_at, s.most, "most " + s.solid.unicode()});
    if (s.cleared) plot.marks.push_back({*s.cleared, 0, "cleared up"});
  }
  std::vector<Series> dissolved;
  for (std::size_t i = 0; i < sweep.system.species().size(); ++i) {
    const chem::Formula& formula = sweep.system.species()[i].formula;
    if (!solids.empty() && !kin(formula, solids)) continue;
    Series s{formula.unicode(), {}, drawn(sweep, i, dissolved_amount)};
    if (most_of(s.points) > 0) dissolved.push_back(std::move(s));
  }
  std::ranges::stable_sort(dissolved,
                           [](const Series& a, const Series& b) { return most_of(a.points) > most_of(b.points); });
  if (dissolved.size() > words.most_dissolved) dissolved.resize(words.most_dissolved);
  for (Series& s : dissolved) plot.series.push_back(std::move(s));

  inner::set_axes(plot, words.reagent + " added", "mL", "amount", "mmol", true);
  std::vector<std::string> sentences;
  for (const SolidStretch& s : stretches) sentences.push_back(sentence_of(s));
  plot.reading = sentences.empty() ? "Nothing precipitates." : join(sentences, " ");
  return plot;
}

}  // namespace sash::plot
