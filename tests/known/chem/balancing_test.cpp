// Published equations: every row of the table is balanced by our code, or refused for the reason the row states.

#include <gtest/gtest.h>

#include "chem/balance.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::chem {
namespace {

std::string listed(const Coefficients& coefficients) {
  std::string out;
  for (const std::int64_t n : coefficients) out += (out.empty() ? "" : ",") + std::to_string(n);
  return out;
}

TEST(KnownEquations, BalanceAsEveryRowOfTheTableSays) {
  const auto rows = test::read_table("known/chem/balancing.csv");
  ASSERT_EQ(rows.size(), 59U);
  int balanced = 0;
  int refused = 0;
  for (const test::Row& row : rows) {
    const std::string& id = row.at("id");
    const auto equation = read_equation(row.pairs("inputs").at("equation"));
    ASSERT_TRUE(equation.ok()) << id << ": " << equation.fault().sentence;
    const auto result = balance(*equation);
    ASSERT_TRUE(result.ok()) << id;
    const std::string& expected = row.at("expected");
    const auto after = [&expected](std::string_view key) { return expected.substr(expected.find(key) + key.size()); };
    if (expected == "IMPOSSIBLE") {
      EXPECT_EQ(result->status, BalanceStatus::impossible) << id;
      EXPECT_TRUE(result->solutions.empty()) << id;
    } else if (expected.starts_with("NOT_UNIQUE")) {
      EXPECT_EQ(result->status, BalanceStatus::not_unique) << id;
      EXPECT_EQ(std::to_string(result->solutions.size()), after("nullity=")) << id;
    } else if (expected.starts_with("ZERO_COEFFICIENT")) {
      EXPECT_EQ(result->status, BalanceStatus::impossible) << id;
      EXPECT_FALSE(result->idle.empty()) << id;
      ASSERT_EQ(result->solutions.size(), 1U) << id;
      EXPECT_EQ(listed(result->solutions[0]), after("nullspace=")) << id;
    } else if (expected.starts_with("NEGATIVE_COEFFICIENT")) {
      EXPECT_EQ(result->status, BalanceStatus::impossible) << id;
      EXPECT_FALSE(result->wrong_side.empty()) << id;
      ASSERT_EQ(result->solutions.size(), 1U) << id;
      EXPECT_EQ(listed(result->solutions[0]), after("nullspace=")) << id;
    } else {
      ++balanced;
      EXPECT_EQ(result->status, BalanceStatus::balanced) << id << ": " << result->why;
      EXPECT_EQ(listed(result->coefficients), expected) << id;
      EXPECT_TRUE(verify(equation->with(result->coefficients))->balanced) << id;
      EXPECT_TRUE(result->why.empty()) << id;
      continue;
    }
    ++refused;
    EXPECT_FALSE(result->why.empty()) << id;
    RecordProperty(id, result->why);
  }
  EXPECT_EQ(balanced, 49);
  EXPECT_EQ(refused, 10);
}

}  // namespace
}  // namespace sash::chem
