// Identities of uncertainties: narrower inputs never widen a result, scaling scales, order and unit are irrelevant.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "quantity/monte_carlo.h"
#include "quantity/propagate.h"
#include "quantity/said.h"
#include "quantity/show.h"
#include "support/text.h"

namespace sash::quantity {
namespace {

double between(std::mt19937_64& draw, double low, double high) {
  return low + (high - low) * (static_cast<double>(draw() >> 11U) * 0x1p-53);
}

std::vector<Input> random_inputs(std::mt19937_64& draw) {
  std::vector<Input> out;
  for (int i = 0; i < 4; ++i) {
    const double best = between(draw, 0.5, 20);
    out.push_back({"x", best, stated(best * between(draw, 0, 0.05), Meant::one_standard, "").value()});
  }
  return out;
}

// A strength, a reaction, a sum with shares: shapes that bench arithmetic takes.
const std::array<Model, 4> models{
    [](std::span<const double> x) { return x[0] * x[1] / (x[2] * x[3]); },
    [](std::span<const double> x) { return x[0] + x[1] - x[2] * 0.3 + x[3]; },
    [](std::span<const double> x) { return x[0] * std::exp(-x[1] / 10) / (1 + x[2] * x[3]); },
    [](std::span<const double> x) { return (x[0] * x[1] + x[2] * x[3]) / (x[0] + x[2]); },
};

TEST(UncertaintyLaws, NarrowingAnInputNeverWidensAResult) {
  std::mt19937_64 draw(1);
  for (int round = 0; round < 500; ++round) {
    auto inputs = random_inputs(draw);
    for (const Model& model : models) {
      const double before = propagate(model, inputs)->standard;
      auto narrower = inputs;
      Spread& spread = narrower[draw() % 4].spread;
      spread.standard *= between(draw, 0.05, 0.9);
      EXPECT_LE(propagate(model, narrower)->standard, before * (1 + 1e-6));
    }
  }
}

TEST(UncertaintyLaws, TheOrderOfInputsIsIrrelevant) {
  std::mt19937_64 draw(2);
  for (int round = 0; round < 200; ++round) {
    const auto inputs = random_inputs(draw);
    auto turned = inputs;
    std::reverse(turned.begin(), turned.end());
    for (const Model& model : models) {
      const Model backwards = [&](std::span<const double> x) { return model(std::array{x[3], x[2], x[1], x[0]}); };
      EXPECT_NEAR(propagate(backwards, turned)->standard / propagate(model, inputs)->standard, 1, 1e-12);
    }
  }
}

TEST(UncertaintyLaws, TheUnitOfAnInputIsIrrelevant) {
  std::mt19937_64 draw(3);
  for (int round = 0; round < 200; ++round) {
    const auto inputs = random_inputs(draw);
    auto scaled = inputs;  // the first input in a thousandth of its unit
    scaled[0].best *= 1000;
    scaled[0].spread = scaled[0].spread.scaled(1000);
    for (const Model& model : models) {
      const Model undone = [&](std::span<const double> x) { return model(std::array{x[0] / 1000, x[1], x[2], x[3]}); };
      EXPECT_NEAR(propagate(undone, scaled)->standard / propagate(model, inputs)->standard, 1, 1e-9);
    }
  }
}

TEST(UncertaintyLaws, SharesOfTheBudgetAddUpToOne) {
  std::mt19937_64 draw(4);
  for (int round = 0; round < 200; ++round) {
    const auto inputs = random_inputs(draw);
    PropagateOptions options;
    options.correlations = Correlations(4);
    options.correlations.set(0, 1, between(draw, -0.6, 0.6));
    for (const Model& model : models) {
      double sum = 0;
      const Propagated result = propagate(model, inputs, options).value();
      for (const BudgetRow& row : result.budget) sum += row.share;
      EXPECT_NEAR(sum, 1, 1e-9);
    }
  }
}

TEST(UncertaintyLaws, MonteCarloAgreesWithFirstOrderOnLinearModels) {
  std::mt19937_64 draw(5);
  for (int round = 0; round < 5; ++round) {
    const auto inputs = random_inputs(draw);
    MonteCarloOptions options;
    options.seed = draw();
    const Checked checked = check_first_order(models[1], inputs, options).value();
    EXPECT_TRUE(checked.agree) << checked.sentence;
    EXPECT_NEAR(checked.sampled.standard / checked.first_order.standard, 1, 0.01);
  }
}

TEST(UncertaintyLaws, MoreDigitsOfANumberNeverReachFurther) {
  std::mt19937_64 draw(6);
  for (int round = 0; round < 2000; ++round) {
    Said said;
    said.digits = replace_all(show_at(between(draw, 0.1, 90000), static_cast<int>(draw() % 5) - 2), "\u00A0", "");
    said.value = read_number(said.digits).value();
    double wider = reach_of(said);
    if (said.digits.find('.') == std::string::npos) said.digits += '.';
    for (int more = 0; more < 3; ++more) {
      const double reach = reach_of(said);
      EXPECT_LE(reach, wider) << said.digits;
      wider = reach;
      said.digits += '0';
    }
  }
}

TEST(UncertaintyLaws, HedgesNeverNarrow) {
  std::mt19937_64 draw(8);
  for (int round = 0; round < 2000; ++round) {
    Said said;
    said.digits = show_at(between(draw, 0.1, 900), static_cast<int>(draw() % 4) - 2);
    said.value = read_number(said.digits).value();
    const Limits plain = limits_of(said);
    said.hedge = Hedge::about;
    const Limits about = limits_of(said);
    EXPECT_LE(about.low, plain.low) << said.digits;
    EXPECT_GE(about.high, plain.high) << said.digits;
    said.hedge = Hedge::exact;
    said.precisely = true;
    EXPECT_GE(limits_of(said).low, plain.low) << said.digits;
  }
}

TEST(UncertaintyLaws, WhateverIsRoundedByTheShownRuleAgreesAsRounded) {
  std::mt19937_64 draw(9);
  for (int round = 0; round < 5000; ++round) {
    const double exact = between(draw, -50, 5000);
    Said said;
    said.digits = replace_all(show_at(exact, -static_cast<int>(draw() % 5)), "\u00A0", "");
    said.value = read_number(replace_all(said.digits, "−", "-")).value();
    EXPECT_TRUE(agrees_as_rounded(said, exact)) << said.digits << " for " << exact;
  }
}

TEST(UncertaintyLaws, NumbersReadBackAsShown) {
  std::mt19937_64 draw(10);
  for (int round = 0; round < 5000; ++round) {
    const double number = std::pow(10, between(draw, -2.9, 4)) * (draw() % 2 == 0 ? 1 : -1);
    const int digits = 1 + static_cast<int>(draw() % 8);
    const std::string text = replace_all(replace_all(show_significant(number, digits), "\u00A0", ""), "−", "-");
    const double back = read_number(text).value();
    const double half = 0.5 * std::pow(10, std::floor(std::log10(std::abs(number))) + 1 - digits);
    EXPECT_NEAR(back, number, half * (1 + 1e-9)) << text;
  }
}

}  // namespace
}  // namespace sash::quantity
