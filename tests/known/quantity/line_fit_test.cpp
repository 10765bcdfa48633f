// Walks line_fit.csv: the thermometer calibration of GUM annex H.3.
#include "quantity/line_fit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "support/text.h"
#include "tools/table.h"

namespace sash::quantity {
namespace {

std::vector<double> numbers(const std::string& text) {
  std::vector<double> out;
  for (const auto word : split(text, ' ')) out.push_back(read_number(word).value());
  return out;
}

TEST(KnownLineFit, EveryRowIsReproduced) {
  for (const test::Row& row : test::read_table("known/quantity/line_fit.csv")) {
    const LineFit line = fit_line(numbers(row.at("x")), numbers(row.at("y")), row.number("origin")).value();
    const std::string wanted = row.at("wanted");
    const Input at_30 = line.at(30, "b");
    const double computed = wanted == "intercept"     ? line.intercept
                            : wanted == "u intercept" ? line.intercept_standard
                            : wanted == "slope"       ? line.slope
                            : wanted == "u slope"     ? line.slope_standard
                            : wanted == "r"           ? line.correlation
                            : wanted == "s"           ? line.residual_standard
                            : wanted == "at 30"       ? at_30.best
                            : wanted == "u at 30"     ? at_30.spread.standard
                                                      : std::nan("");
    EXPECT_NEAR(computed, row.number("expected"), row.number("tolerance")) << row.at("id") << " " << wanted;
  }
}

}  // namespace
}  // namespace sash::quantity
