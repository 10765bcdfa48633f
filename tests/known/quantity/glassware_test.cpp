// Walks glassware.csv: limits of error by standard, looked up by name as a person writes it, and what follows from
// them.
#include "quantity/glassware.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "support/text.h"
#include "tools/table.h"

namespace sash::quantity {
namespace {

/// The largest ratio of a class B limit to the class A limit of the same standard, type and size.
double largest_ratio(const std::string& standard) {
  double out = 0;
  for (const Instrument& a : instruments()) {
    for (const Instrument& b : instruments()) {
      if (a.standard == standard && b.standard == standard && a.type == b.type && a.capacity == b.capacity &&
          a.grade == "A" && b.grade == "B") {
        out = std::max(out, b.limit / a.limit);
      }
    }
  }
  return out;
}

double compute(const test::Row& row) {
  const std::string wanted = row.at("wanted");
  const std::string name = row.at("instrument");
  const Unit millilitre = Unit::known("mL");
  if (wanted == "B to A") return largest_ratio(name.substr(0, name.rfind(' ')));
  if (wanted == "thermal") {  // "100 mL by 4 K"
    const auto words = split(name, ' ');
    return thermal_change(read_number(words[0]).value(), read_number(words[3]).value());
  }
  const auto instrument = find_instrument(name);
  EXPECT_TRUE(instrument.ok()) << name << (instrument.ok() ? "" : instrument.fault().sentence);
  if (!instrument.ok()) return std::nan("");
  const double capacity = instrument->capacity.value_or(0);
  if (wanted == "limit") return spread_of(*instrument, capacity, millilitre).value().half_width;
  if (wanted == "u") return spread_of(*instrument, capacity, millilitre).value().standard;
  if (wanted == "percent of capacity") return 100 * instrument->limit_at(capacity) / capacity;
  ADD_FAILURE() << "nobody computes " << wanted;
  return std::nan("");
}

TEST(KnownGlassware, EveryRowIsReproduced) {
  for (const test::Row& row : test::read_table("known/quantity/glassware.csv")) {
    EXPECT_NEAR(compute(row), row.number("expected"), row.number("tolerance"))
        << row.at("id") << " " << row.at("instrument");
  }
}

}  // namespace
}  // namespace sash::quantity
