// Degrees of freedom and draws through the network, and who is to blame for a conflict.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checked.h"
#include "tools/told_record.h"

namespace sash::workings {
namespace {

using model::RelationType;
using quantity::Kind;
using test::RecordBuilder;
using test::ToldRecord;
using ::testing::Contains;
using ::testing::HasSubstr;

// JCGM 100:2008, G.4.1, example: relative standard uncertainties 0.25 %, 0.57 % and 0.82 % of 10, 5 and 15 readings in
// a product give 1.03 % with 19.0 effective degrees of freedom and a factor of 2.09, or 2.10 where they are truncated
// to 18. As 95 % intervals they are 2.2622, 2.7764 and 2.1448 times as wide (table G.2).
TEST(FewReadings, WidenTheCoverageFactor) {
  RecordBuilder b;
  const auto read = [&](const std::string& text, double half_width, Kind kind, const char* how) {
    const auto id = b.figure_within(text, half_width, kind);
    b.edit(id).doubt.instrument = how;
    return id;
  };
  const auto c = read("1.000 mol/L", 0.0025 * 2.2622, Kind::molar_concentration, "mean of 10 readings");
  const auto v = read("1.000 L", 0.0057 * 2.7764, Kind::volume, "mean of 5 readings");
  const auto w = read("1.000 L", 0.0082 * 2.1448, Kind::volume, "mean of 15 readings");
  const auto wanted = b.figure("", Kind::molar_concentration);
  b.relation(RelationType::dilution,
             {{"strength_before", c}, {"volume_before", v}, {"volume_after", w}, {"strength_after", wanted}});
  const Report report = check(b.record());
  const FigureState* state = report.find(wanted);
  ASSERT_TRUE(state && state->reconciled && state->freedom);
  EXPECT_NEAR(state->reconciled->spread / state->reconciled->value, 0.0103, 0.00005);
  EXPECT_NEAR(*state->freedom, 19.0, 0.1);
  EXPECT_THAT(report.findings.at(0).notes, Contains(HasSubstr("a coverage factor of 2.1 instead of 2")));
}

TEST(FewReadings, AreNotMadeUp) {
  const ToldRecord told("c=1.000 mol/L molar_concentration; v=1.000 L volume; n=? amount",
                        "in_solution: strength=c, solution_volume=v, solute_amount=n");
  EXPECT_FALSE(told.report().find(told.figure("n"))->freedom);
}

// 1 / x with x uniform in 0.5 to 1.5: mean ln 3, variance 4/3 - (ln 3)^2 (by hand); the figure's state has it too, the
// same each time.
TEST(Draws, StandInTheFigureStateAndTheWorkings) {
  RecordBuilder b;
  const auto part = b.figure("1.0 g", Kind::mass);
  b.edit(part).doubt = {model::Doubt::From::assumed_exact, 0, {}};
  const auto fraction = b.figure_within("1.0 1", 0.5, Kind::fraction);
  const auto whole = b.figure("", Kind::mass);
  b.relation(RelationType::share, {{"part", part}, {"whole", whole}, {"fraction", fraction}});
  const Report report = check(b.record());
  const FigureState* state = report.find(whole);
  ASSERT_TRUE(state && state->reconciled);
  EXPECT_NEAR(state->reconciled->value, 1.0986, 0.02);
  EXPECT_NEAR(state->reconciled->spread, 0.3555, 0.02);
  EXPECT_THAT(state->drawn, HasSubstr("Monte Carlo"));
  EXPECT_THAT(plain_text(report.findings.at(0).workings), HasSubstr("Monte Carlo"));
  EXPECT_EQ(check(b.record()).figures, report.figures) << "seeded";
}

// The lesser of two equal normal amounts lies below both: by s / sqrt(pi) for standard deviations s (order statistics
// of two normal values), where first order sees no shift.
TEST(Draws, SeeThatEitherReactantMayRunOut) {
  RecordBuilder b;
  const auto a = b.figure("1.00 mol", Kind::amount);
  const auto c = b.figure("1.00 mol", Kind::amount);
  for (const auto id : {a, c}) b.edit(id).doubt = {model::Doubt::From::stated, 0.0784, "mean of 1000 readings"};
  const auto p = b.figure("", Kind::amount);
  b.relation(RelationType::reaction, {{"reactant", a, "HCl"}, {"reactant", c, "NaOH"}, {"product", p, "NaCl"}},
             {{"equation", "HCl + NaOH -> NaCl + H2O"}});
  const Finding f = first(b);
  ASSERT_TRUE(f.computed);
  const double s = 0.0784 / 1.962;
  EXPECT_EQ(f.computed->unit, "mmol");
  EXPECT_NEAR(f.computed->value, 1000 * (1 - s / 1.7725), 3);
}

TEST(Blame, FallsOnTheCulpritOnly) {
  RecordBuilder b;
  const auto one = b.figure("28.4 g", Kind::mass);
  const auto two = b.figure("28.4 g", Kind::mass);
  const auto wrong = b.figure("24.8 g", Kind::mass);
  const auto elsewhere = b.figure("5.0 g", Kind::mass);
  b.relation(RelationType::same_portion, {{"same", one}, {"same", two}, {"same", wrong}});
  b.relation(RelationType::gas_given_off, {{"mass", elsewhere}}, {{"substance", "CO2"}});
  const Report report = check(b.record());
  EXPECT_EQ(report.find(wrong)->blame, Blame::culprit);
  EXPECT_EQ(report.find(one)->blame, Blame::involved);
  EXPECT_EQ(report.find(two)->blame, Blame::involved);
  EXPECT_EQ(report.find(elsewhere)->blame, Blame::none);
}

TEST(Blame, IsSharedWhereNothingTellsWhich) {
  const ToldRecord told("one=28.4 g mass; other=24.8 g mass", "same_portion: same=one, same=other");
  const Report& report = told.report();
  EXPECT_EQ(report.find(told.figure("one"))->blame, Blame::culprit);
  EXPECT_EQ(report.find(told.figure("other"))->blame, Blame::culprit);
}

}  // namespace
}  // namespace sash::workings
