#include <nlohmann/json.hpp>

#include "cli/said.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::cli {
namespace {

using nlohmann::json;

// Source: OpenStax Chemistry 2e, section 4.2 and chapter 17 write copper in dilute nitric acid so: 3, 8, 3, 2, 4.
TEST(EquationCommand, BalancesInTheOrderWritten) {
  EXPECT_EQ(said({"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O"}),
            (Said{fine, "3 Cu + 8 HNO₃ → 3 Cu(NO₃)₂ + 2 NO + 4 H₂O\n", ""}));
  const json j = json::parse(said({"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O", "--json"}).out);
  EXPECT_EQ(j.at("status"), "balanced");
  EXPECT_EQ(j.at("coefficients"), json::parse("[3, 8, 3, 2, 4]"));
  EXPECT_EQ(j.at("balanced"), "3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O");
  EXPECT_TRUE(j.at("why").is_null());
}

TEST(EquationCommand, AcceptsEveryArrow) {
  const Said expected{fine, "2 H₂ + O₂ → 2 H₂O\n", ""};
  for (const char* arrow : {"=", "->", "→"})
    EXPECT_EQ(said({"equation", std::string("H2 + O2 ") + arrow + " H2O"}), expected) << arrow;
}

TEST(EquationCommand, BalancesThePublishedExamples) {
  for (const auto& row : test::read_table("known/chem/balancing.csv")) {
    const auto inputs = row.pairs("inputs");
    const auto& text = row.at("inputs");
    const std::string equation = text.substr(text.find('=') + 1);
    std::vector<std::int64_t> expected;
    bool numbers = true;
    for (const auto piece : split(row.at("expected"), ',')) {
      const auto n = read_number(trim(piece));
      numbers = numbers && n.has_value();
      if (n) expected.push_back(static_cast<std::int64_t>(*n));
    }
    if (!inputs.contains("equation") || !numbers) continue;
    const Said answer = said({"equation", equation, "--json"});
    ASSERT_EQ(answer.code, fine) << row.at("id") << ' ' << equation << answer.err;
    EXPECT_EQ(json::parse(answer.out).at("coefficients"), json(expected)) << row.at("id") << ' ' << row.at("source");
  }
}

// Source: OpenStax Chemistry 2e, Example 17.2 (permanganate and iron(II) in acid).
TEST(EquationCommand, BalancesCharge) {
  EXPECT_EQ(said({"equation", "MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O"}),
            (Said{fine, "MnO₄⁻ + 5 Fe²⁺ + 8 H⁺ → Mn²⁺ + 5 Fe³⁺ + 4 H₂O\n", ""}));
}

TEST(EquationCommand, SaysWhyNoneIsPossible) {
  EXPECT_EQ(said({"equation", "H2 -> O2"}),
            (Said{conflicts_found, "impossible: H stands only on the left; O stands only on the right.\n", ""}));
  const Said told = said({"equation", "H2 -> O2", "--json"});
  EXPECT_EQ(told.code, conflicts_found);
  const json j = json::parse(told.out);
  EXPECT_EQ(j.at("status"), "impossible");
  EXPECT_EQ(j.at("coefficients"), json::array());
  EXPECT_TRUE(j.at("balanced").is_null());
  EXPECT_EQ(j.at("why"), "H stands only on the left; O stands only on the right.");
}

// C burns to CO and to CO2 independently: any mixture of 2 C + O2 -> 2 CO and C + O2 -> CO2 balances.
TEST(EquationCommand, SaysWhenTheAnswerIsNotUnique) {
  const Said told = said({"equation", "C + O2 -> CO + CO2", "--json"});
  EXPECT_EQ(told.code, conflicts_found);
  const json j = json::parse(told.out);
  EXPECT_EQ(j.at("status"), "not unique");
  EXPECT_EQ(j.at("coefficients"), json::array());
  EXPECT_TRUE(j.at("balanced").is_null());
  ASSERT_EQ(j.at("solutions").size(), 2U);
  for (const auto& s : j.at("solutions")) {
    const auto n = s.get<std::vector<std::int64_t>>();
    ASSERT_EQ(n.size(), 4U);
    EXPECT_EQ(n[0], n[2] + n[3]) << "carbon";
    EXPECT_EQ(2 * n[1], n[2] + 2 * n[3]) << "oxygen";
  }
}

TEST(EquationCommand, JudgesCoefficientsThatWereTyped) {
  EXPECT_EQ(said({"equation", "2 H2 + O2 -> 2 H2O"}), (Said{fine, "Balanced as typed.\n2 H₂ + O₂ → 2 H₂O\n", ""}));
  EXPECT_EQ(said({"equation", "1 H2 + O2 -> H2O"}),
            (Said{fine,
                  "As typed it does not balance. O: 2 on the left, 1 on the right.\n"
                  "2 H₂ + O₂ → 2 H₂O\n",
                  ""}));
}

TEST(EquationCommand, AsksForAnArrow) {
  EXPECT_EQ(said({"equation", "H2 + O2"}),
            fault("There is no arrow in 'H2 + O2'; put -> or = between what reacts and what forms."));
}

}  // namespace
}  // namespace sash::cli
