#pragma once
// The figures of one relation as plots take them, and the axes and samples plots share. Private to the part. Pure.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/relation.h"
#include "plot/plot.h"
#include "quantity/unit.h"
#include "workings/check.h"

namespace sash::plot::inner {

/// What a slot holds, in the unit it was said in.
struct Held {
  double number = 0;
  quantity::Unit unit;
  std::string about;  ///< which species, where the slot may be filled several times
  double si() const { return unit.to_si(number); }
};

class Figures {
 public:
  Figures(const model::Relation& relation, const workings::Report& report) : relation_(relation), report_(report) {}

  /// Best value from everything together, or as said.
  std::optional<Held> operator()(std::string_view slot) const;
  /// Every figure of a slot that has a value, in the order of the terms.
  std::vector<Held> all(std::string_view slot) const;

  bool has_given(const std::string& key) const { return relation_.given.contains(key); }
  std::string given(const std::string& key) const;  ///< empty when it is not given

 private:
  const model::Relation& relation_;
  const workings::Report& report_;
};

std::string with_unit(double number, const std::string& unit, int digits = 3);

/// y by the law, over x from `from` to `most`.
template <class Law>
std::vector<Point> sampled(double from, double most, Law law) {
  constexpr int samples = 60;
  std::vector<Point> points;
  for (int i = 0; i <= samples; ++i) {
    const double x = from + (most - from) * i / samples;
    points.push_back({x, law(x)});
  }
  return points;
}

/// Axes over all series, and a shape for each.
void set_axes(Plot& plot, std::string x_name, std::string x_unit, std::string y_name, std::string y_unit,
              bool y_from_zero);

}  // namespace sash::plot::inner
