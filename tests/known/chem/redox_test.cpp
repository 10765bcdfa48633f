// Half-reactions of the electrochemical series, and published redox equations with their water, acid or base taken out:
// completing gives every one of them back.

#include <gtest/gtest.h>

#include <map>

#include "chem/redox.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::chem {
namespace {

// Coefficients by species, negative on the left: the order in which species stand does not matter.
std::map<std::string, std::string> counted(const Equation& equation) {
  std::map<std::string, std::string> out;
  for (std::size_t i = 0; i < equation.all().size(); ++i) {
    const Species& s = equation.all()[i];
    out[s.formula.plain()] = (equation.on_left(i) ? "-" : "") + s.coefficient.value_or(1).text();
  }
  return out;
}

TEST(KnownHalfReactions, AreCompletedAsTheSeriesHasThem) {
  const auto rows = test::read_table("known/chem/half_reactions.csv");
  ASSERT_EQ(rows.size(), 61U);
  for (const test::Row& row : rows) {
    const auto inputs = row.pairs("inputs");
    const auto equation = read_equation(inputs.at("equation"));
    const auto expected = read_equation(row.at("expected"));
    ASSERT_TRUE(equation.ok() && expected.ok()) << row.at("id");
    EXPECT_TRUE(verify(*expected)->balanced) << row.at("id");
    const auto completed = complete(*equation, inputs.at("medium") == "acid" ? Medium::acid : Medium::base);
    ASSERT_TRUE(completed.ok()) << row.at("id") << completed.fault().sentence;
    ASSERT_TRUE(completed->equation) << row.at("id") << ' ' << completed->why;
    EXPECT_TRUE(completed->half_reaction) << row.at("id");
    EXPECT_EQ(counted(*completed->equation), counted(*expected)) << row.at("id") << completed->equation->plain();
  }
}

TEST(KnownRedoxEquations, AreGivenBackWhenTheirWaterAndIonsAreTakenOut) {
  int tried = 0;
  for (const test::Row& row : test::read_table("known/chem/balancing.csv")) {
    const auto equation = read_equation(row.pairs("inputs").at("equation"));
    const auto balance = chem::balance(*equation);
    if (!balance || balance->status != BalanceStatus::balanced) continue;
    const auto has = [&equation](const char* what) { return equation->find(read_formula(what).value()).has_value(); };
    const bool acid = has("H^+");
    const bool base = has("OH^-");
    if (!acid && !base) continue;
    std::vector<Species> left;
    std::vector<Species> right;
    for (std::size_t i = 0; i < equation->all().size(); ++i) {
      Species s = equation->all()[i];
      bool helper = s.formula.is_electron();
      for (const char* what : {"H^+", "OH^-", "H2O"}) {
        helper = helper || s.formula.same_composition(read_formula(what).value());
      }
      s.coefficient.reset();
      if (!helper) (equation->on_left(i) ? left : right).push_back(std::move(s));
    }
    if (left.empty() || right.empty()) continue;
    const auto completed = complete(Equation(left, right), acid ? Medium::acid : Medium::base);
    ASSERT_TRUE(completed.ok()) << row.at("id");
    ASSERT_TRUE(completed->equation) << row.at("id") << ' ' << completed->why;
    EXPECT_EQ(counted(*completed->equation), counted(equation->with(balance->coefficients))) << row.at("id");
    ++tried;
  }
  EXPECT_GE(tried, 15);
}

}  // namespace
}  // namespace sash::chem
