#include "quantity/monte_carlo.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "quantity/inner/draws.h"

namespace sash::quantity {
namespace {

Input shaped(double best, double standard, Shape shape) {
  Input out{"x", best, exactly("")};
  out.spread.shape = shape;
  out.spread.standard = standard;
  if (shape == Shape::rectangular) out.spread.half_width = standard * std::numbers::sqrt3;
  if (shape == Shape::triangular) out.spread.half_width = standard * std::sqrt(6.0);
  return out;
}

const Model identity = [](std::span<const double> x) { return x[0]; };
const Model square = [](std::span<const double> x) { return x[0] * x[0]; };

// Published test values of the split-mix generator for the seed 1234567.
TEST(MonteCarlo, DrawsFromTheGeneratorItNames) {
  inner::Draws draws(1234567);
  for (const std::uint64_t expected : {6457827717110365317ULL, 3203168211198807973ULL, 9817491932198370423ULL,
                                       4593380528125082431ULL, 16408922859458223821ULL}) {
    EXPECT_EQ(draws.bits(), expected);
  }
}

TEST(MonteCarlo, GivesTheSameResultForTheSameSeed) {
  const std::array inputs{shaped(10, 1, Shape::normal)};
  MonteCarloOptions options;
  options.trials = 20000;
  const auto once = sample(identity, inputs, options);
  const auto again = sample(identity, inputs, options);
  EXPECT_EQ(once->mean, again->mean);
  EXPECT_EQ(once->low, again->low);
  options.seed = 2;
  EXPECT_NE(sample(identity, inputs, options)->mean, once->mean);
}

// Half-widths of the central 95 % of distributions with unit standard deviation, in closed form: 1.960 normal,
// 0.95·√3 rectangular, (1 - √0.05)·√6 triangular.
TEST(MonteCarlo, DrawsTheShapesOfTheSupplement) {
  const auto half = [](Shape shape) {
    const std::array inputs{shaped(0, 1, shape)};
    const Sampled result = sample(identity, inputs).value();
    EXPECT_NEAR(result.mean, 0, 0.01);
    EXPECT_NEAR(result.standard, 1, 0.01);
    return (result.high - result.low) / 2;
  };
  EXPECT_NEAR(half(Shape::normal), 1.95996, 0.02);
  EXPECT_NEAR(half(Shape::rectangular), 0.95 * std::numbers::sqrt3, 0.005);
  EXPECT_NEAR(half(Shape::triangular), (1 - std::sqrt(0.05)) * std::sqrt(6.0), 0.01);
}

// JCGM 101:2008 6.4.9.4: Student's t scaled by u has standard deviation u·√(ν/(ν-2)); t95(5) = 2.57.
TEST(MonteCarlo, DrawsStudentsTForFewReadings) {
  std::array inputs{shaped(0, 1, Shape::student)};
  inputs[0].spread.degrees_of_freedom = 5;
  const Sampled result = sample(identity, inputs).value();
  EXPECT_NEAR(result.standard, std::sqrt(5.0 / 3), 0.03);
  EXPECT_NEAR((result.high - result.low) / 2, 2.57, 0.04);
}

TEST(MonteCarlo, TiesCorrelatedInputs) {
  const std::array inputs{shaped(0, 1, Shape::normal), shaped(0, 1, Shape::normal)};
  MonteCarloOptions options;
  options.correlations = Correlations(2);
  options.correlations.set(0, 1, 0.6);
  const Model difference = [](std::span<const double> x) { return x[0] - x[1]; };
  EXPECT_NEAR(sample(difference, inputs, options)->standard, std::sqrt(0.8), 0.01);
  const std::array rectangles{shaped(0, 1, Shape::rectangular), shaped(0, 1, Shape::rectangular)};
  options.correlations.set(0, 1, 1);
  EXPECT_NEAR(sample(difference, rectangles, options)->standard, 0, 1e-9);
}

TEST(MonteCarlo, FindsTheShortestIntervalOfALopsidedResult) {
  const std::array inputs{shaped(0, 1, Shape::normal)};  // chi-square with one degree of freedom
  MonteCarloOptions options;
  const Sampled equal = sample(square, inputs, options).value();
  options.shortest = true;
  const Sampled shortest = sample(square, inputs, options).value();
  EXPECT_NEAR(equal.high, 5.024, 0.06);     // chi-square 0.975 quantile, 1 degree of freedom (tables)
  EXPECT_NEAR(shortest.high, 3.841, 0.05);  // its 0.95 quantile: the shortest interval starts at 0
  EXPECT_LT(shortest.high - shortest.low, equal.high - equal.low);
}

TEST(MonteCarlo, StopsWhenTheResultsStandStill) {
  const std::array inputs{shaped(10, 1, Shape::normal)};
  MonteCarloOptions options;
  options.adaptive = true;
  options.digits = 1;
  const Sampled coarse = sample(identity, inputs, options).value();
  EXPECT_TRUE(coarse.settled);
  EXPECT_LT(coarse.trials, options.trials);
  EXPECT_LE(coarse.numerical_error, 0.5 / 5);
  options.digits = 2;
  options.trials = 30000;
  EXPECT_FALSE(sample(identity, inputs, options)->settled);
}

TEST(MonteCarlo, SaysInHowManyTrialsThereIsNoValue) {
  const std::array inputs{shaped(1, 1, Shape::normal)};
  const Model root = [](std::span<const double> x) { return std::sqrt(x[0]); };
  EXPECT_EQ(sample(root, inputs).fault().code, Code::not_finite);
}

TEST(MonteCarlo, RefusesContradictoryCorrelations) {
  const std::array inputs{shaped(0, 1, Shape::normal), shaped(0, 1, Shape::normal), shaped(0, 1, Shape::normal)};
  MonteCarloOptions options;
  options.correlations = Correlations(3);
  options.correlations.set(0, 1, 0.9);
  options.correlations.set(0, 2, 0.9);
  options.correlations.set(1, 2, -0.9);
  EXPECT_EQ(sample(identity, inputs, options).fault().code, Code::impossible);
}

TEST(CheckFirstOrder, KeepsFirstOrderWhereItHolds) {
  const std::array inputs{shaped(10, 0.1, Shape::normal), shaped(5, 0.1, Shape::normal)};
  const Model product = [](std::span<const double> x) { return x[0] * x[1]; };
  const Checked checked = check_first_order(product, inputs).value();
  EXPECT_TRUE(checked.agree) << checked.sentence;
  EXPECT_EQ(checked.best, 50);
  EXPECT_EQ(checked.sentence, "First order and a Monte Carlo run of 200\u00A0000 trials agree.");
}

TEST(CheckFirstOrder, SaysSoWhereTheModelBends) {
  const std::array inputs{shaped(0, 1, Shape::normal)};
  const Checked checked = check_first_order(square, inputs, {}, "g").value();
  EXPECT_FALSE(checked.agree);
  EXPECT_NEAR(checked.best, 1, 0.02);                 // the mean of chi-square with one degree of freedom
  EXPECT_NEAR(checked.standard, std::sqrt(2), 0.03);  // and its standard deviation
  EXPECT_NE(checked.sentence.find("First order gives 0 g (95 %: 0.0 to 0.0), but a Monte Carlo run of 200\u00A0000 "
                                  "trials gives (1.0 ± 1.4) g (0.0 to 5.0)"),
            std::string::npos)
      << checked.sentence;
}

TEST(CheckFirstOrder, AgreesWhereNothingVaries) {
  const std::array inputs{shaped(3, 0, Shape::exact)};
  EXPECT_TRUE(check_first_order(square, inputs)->agree);
}

}  // namespace
}  // namespace sash::quantity
