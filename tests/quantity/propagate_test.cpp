#include "quantity/propagate.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <vector>

namespace sash::quantity {
namespace {

Input input(const char* name, double best, double standard, std::optional<double> degrees = std::nullopt) {
  Input out{name, best, exactly("")};
  out.spread.standard = standard;
  out.spread.shape = standard > 0 ? Shape::normal : Shape::exact;
  out.spread.degrees_of_freedom = degrees;
  return out;
}

const Model product = [](std::span<const double> x) { return x[0] * x[1]; };
const Model sum = [](std::span<const double> x) { return x[0] + x[1]; };

// JCGM 100:2008 5.1.6: relative variances of a product add.
TEST(Propagate, AddsRelativeVariancesOfAProduct) {
  const std::array inputs{input("m", 2, 0.02), input("c", 5, 0.1)};
  const auto result = propagate(product, inputs);
  ASSERT_TRUE(result.ok());
  EXPECT_DOUBLE_EQ(result->best, 10);
  EXPECT_NEAR(result->standard / 10, std::hypot(0.01, 0.02), 1e-9);
  EXPECT_NEAR(result->budget[0].sensitivity, 5, 1e-9);
  EXPECT_NEAR(result->budget[1].share, 0.8, 1e-9);
  EXPECT_NEAR(result->budget[0].share + result->budget[1].share, 1, 1e-12);
}

// JCGM 100:2008 5.2.2 example: ten resistors calibrated against one standard, all correlated: uncertainties add
// linearly.
TEST(Propagate, AddsCorrelatedUncertaintiesLinearly) {
  std::vector<Input> resistors;
  for (int i = 0; i < 10; ++i) resistors.push_back(input("R", 1000, 0.1));
  PropagateOptions options;
  options.correlations = Correlations(10);
  for (std::size_t a = 0; a < 10; ++a) {
    for (std::size_t b = a + 1; b < 10; ++b) options.correlations.set(a, b, 1);
  }
  const Model total = [](std::span<const double> x) {
    double out = 0;
    for (const double one : x) out += one;
    return out;
  };
  EXPECT_NEAR(propagate(total, resistors, options)->standard, 1.0, 1e-9);
  options.correlations = Correlations();
  EXPECT_NEAR(propagate(total, resistors, options)->standard, 0.32, 0.005);
}

TEST(Propagate, CancelsWhatIsSharedInADifference) {
  PropagateOptions options;
  options.correlations = Correlations(2);
  options.correlations.set(0, 1, 1);
  const std::array inputs{input("gross", 25, 0.1), input("tare", 20, 0.1)};
  const Model difference = [](std::span<const double> x) { return x[0] - x[1]; };
  EXPECT_NEAR(propagate(difference, inputs, options)->standard, 0, 1e-9);
}

TEST(Propagate, TakesDerivativesThatAreKnown) {
  const std::array inputs{input("m", 2, 0.02), input("c", 5, 0.1)};
  const std::array slopes{5.0, 2.0};
  PropagateOptions options;
  options.derivatives = slopes;
  EXPECT_DOUBLE_EQ(propagate(product, inputs, options)->standard, std::hypot(0.1, 0.2));
}

TEST(Propagate, FindsSlopesOfBentModels) {
  const std::array inputs{input("t", 300, 30)};
  const Model arrhenius = [](std::span<const double> x) { return std::exp(-5000 / x[0]); };
  const double expected = std::exp(-5000.0 / 300) * 5000 / (300.0 * 300);
  EXPECT_NEAR(sensitivities(arrhenius, inputs).value()[0] / expected, 1, 1e-3);
}

TEST(Propagate, StepsLessWhereTheModelEnds) {
  const std::array inputs{input("c", 0.001, 0.01)};
  const Model root = [](std::span<const double> x) { return std::sqrt(x[0]); };
  const auto result = propagate(root, inputs);
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->budget[0].sensitivity, 0.5 / std::sqrt(0.001), 0.1);
}

TEST(Propagate, SaysWhereTheModelHasNoValue) {
  const std::array inputs{input("volume", 0, 0.1)};
  const Model inverse = [](std::span<const double> x) { return 1 / x[0]; };
  const auto result = propagate(inverse, inputs);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.fault().code, Code::not_finite);
  const Model nowhere = [](std::span<const double>) { return std::numeric_limits<double>::quiet_NaN(); };
  EXPECT_FALSE(propagate(nowhere, inputs).ok());
}

TEST(Propagate, RefusesContradictoryCorrelations) {
  const std::array inputs{input("a", 1, 1), input("b", 1, 1), input("c", 1, 1)};
  PropagateOptions options;
  options.correlations = Correlations(3);
  options.correlations.set(0, 1, -1);
  options.correlations.set(0, 2, -1);
  options.correlations.set(1, 2, -1);
  const Model total = [](std::span<const double> x) { return x[0] + x[1] + x[2]; };
  EXPECT_EQ(propagate(total, inputs, options).fault().code, Code::impossible);
}

// JCGM 100:2008 G.4.1 example: y = b x1 x2 x3 with relative uncertainties 0.25, 0.57, 0.82 % from n = 10, 5, 15
// readings: u_c/y = 1.03 %, effective degrees of freedom 19.0, U95 with t = 2.09 is 2.2 %.
TEST(Propagate, ReproducesTheWelchSatterthwaiteExample) {
  const std::array inputs{input("x1", 1, 0.0025, 9), input("x2", 1, 0.0057, 4), input("x3", 1, 0.0082, 14)};
  const Model model = [](std::span<const double> x) { return x[0] * x[1] * x[2]; };
  const auto result = propagate(model, inputs);
  EXPECT_NEAR(result->standard, 0.0103, 0.00005);
  EXPECT_NEAR(result->degrees_of_freedom.value(), 19.0, 0.05);
  EXPECT_NEAR(result->expanded(0.95), 0.022, 0.0005);
}

TEST(Propagate, GivesNoDegreesOfFreedomWhereTheFormulaDoesNotHold) {
  const std::array inputs{input("a", 1, 0.1, 4), input("b", 1, 0.1, 4)};
  PropagateOptions options;
  options.correlations = Correlations(2);
  options.correlations.set(0, 1, 0.5);
  EXPECT_FALSE(propagate(sum, inputs, options)->degrees_of_freedom.has_value());
}

TEST(Propagate, CorrelatesResultsThatShareInputs) {
  const std::array inputs{input("a", 1, 0.3), input("b", 2, 0.4)};
  const std::array<Model, 2> models{sum, [](std::span<const double> x) { return x[0] - x[1]; }};
  const auto joint = propagate_jointly(models, inputs);
  ASSERT_TRUE(joint.ok());
  EXPECT_NEAR(joint->standard(0), 0.5, 1e-9);
  EXPECT_NEAR(joint->correlation(0, 1), (0.09 - 0.16) / 0.25, 1e-9);
}

}  // namespace
}  // namespace sash::quantity
