// Published atomic weights, isotope masses and molar masses: every row of the tables is computed by our code.

#include <gtest/gtest.h>

#include "chem/molar_mass.h"
#include "tools/table.h"

namespace sash::chem {
namespace {

TEST(KnownWeights, MatchTheIupacTableRowByRow) {
  const auto rows = test::read_table("known/chem/atomic_weights.csv");
  ASSERT_EQ(rows.size(), 56U);
  for (const test::Row& row : rows) {
    auto in = row.pairs("inputs");
    const Element* e = find_element(in["symbol"]);
    ASSERT_NE(e, nullptr) << row.at("id");
    EXPECT_EQ(std::to_string(e->number), in["Z"]) << row.at("id");
    ASSERT_TRUE(e->weight.has_value()) << row.at("id");
    EXPECT_DOUBLE_EQ(*e->weight, row.number("expected")) << row.at("id");
    EXPECT_DOUBLE_EQ(e->bound, row.number("tolerance")) << row.at("id");
    EXPECT_EQ(e->interval, in["standard"].ends_with("interval")) << row.at("id");
  }
}

TEST(KnownWeights, MatchTheAtomicMassEvaluation) {
  const auto rows = test::read_table("known/chem/isotope_masses.csv");
  ASSERT_EQ(rows.size(), 8U);
  for (const test::Row& row : rows) {
    auto in = row.pairs("inputs");
    const auto formula = read_formula("[" + in["nuclide"] + "]");
    ASSERT_TRUE(formula.ok()) << row.at("id");
    EXPECT_NEAR(molar_mass(*formula)->value, row.number("expected"), row.number("tolerance")) << row.at("id");
  }
}

TEST(KnownWeights, GiveEveryMolarMassOfTheTable) {
  const auto rows = test::read_table("known/chem/molar_mass.csv");
  ASSERT_EQ(rows.size(), 59U);
  for (const test::Row& row : rows) {
    auto in = row.pairs("inputs");
    const auto formula = read_formula(in["formula"]);
    ASSERT_TRUE(formula.ok()) << row.at("id") << ": " << formula.fault().sentence;
    EXPECT_EQ(std::to_string(formula->charge()), in["charge"]) << row.at("id");
    const auto mass = molar_mass(*formula);
    ASSERT_TRUE(mass.ok()) << row.at("id");
    EXPECT_NEAR(mass->value, row.number("expected"), row.number("tolerance")) << row.at("id");
    if (in.contains("summed_abridged_uncertainty")) {
      EXPECT_NEAR(mass->bound, std::stod(in["summed_abridged_uncertainty"]), 5e-5) << row.at("id");
    }
  }
}

}  // namespace
}  // namespace sash::chem
