#include "workings/reconcile.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace sash::workings {
namespace {

// Arithmetic below is by hand: two measured values of one thing average with inverse-variance weights.

Reconciliation reconciled(const System& system) {
  auto result = reconcile(system);
  EXPECT_TRUE(result) << (result ? "" : result.fault().sentence);
  return std::move(*result);
}

// a = b, measured as 10.0 +- 0.3 and 10.4 +- 0.4.
System twice_measured() {
  System system;
  system.add(Variable::measured("a", 10.0, 0.3));
  system.add(Variable::measured("b", 10.4, 0.4));
  system.add(Constraint{"a = b", {0, 1}, linear_law({1, -1})});
  return system;
}

TEST(Reconcile, AveragesTwoMeasurementsByTheirWeights) {
  const auto r = reconciled(twice_measured());
  // weights 1/0.09 and 1/0.16: (10.0/0.09 + 10.4/0.16) / (1/0.09 + 1/0.16) = 10.144; spread 0.24.
  EXPECT_NEAR(r.estimates[0].value, 10.144, 1e-12);
  EXPECT_NEAR(r.estimates[1].value, 10.144, 1e-12);
  EXPECT_NEAR(r.estimates[0].spread, 0.24, 1e-12);
  EXPECT_NEAR(r.test.statistic, 0.4 * 0.4 / 0.25, 1e-12);
  EXPECT_EQ(r.test.freedom, 1);
  EXPECT_EQ(r.estimates[0].standing, Standing::redundant);
  // Both stand equally far out: |0.4| / 0.5.
  EXPECT_NEAR(*r.estimates[0].standardised, 0.8, 1e-12);
  EXPECT_NEAR(*r.estimates[1].standardised, -0.8, 1e-12);
}

TEST(Reconcile, WorksOutAnUnmeasuredValueWithItsUncertainty) {
  System system;
  system.add(Variable::measured("density", 1.42, 0.01, Scale::logarithmic));
  system.add(Variable::measured("volume", 20.0, 0.1, Scale::logarithmic));
  system.add(Variable::wanted("mass", {}, Scale::logarithmic));
  system.add(Constraint{"m = rho V", {0, 1, 2}, product_law({1, 1, -1})});
  const auto r = reconciled(system);
  EXPECT_NEAR(r.estimates[2].value, 28.4, 1e-10);
  EXPECT_NEAR(r.estimates[2].spread, 28.4 * std::hypot(0.01 / 1.42, 0.1 / 20.0), 1e-10);
  EXPECT_EQ(r.estimates[2].standing, Standing::determined);
  EXPECT_EQ(r.estimates[0].standing, Standing::unchecked);
  EXPECT_FALSE(r.estimates[0].standardised);
  EXPECT_EQ(r.test.freedom, 0);
  EXPECT_EQ(r.test.probability, 1);
}

TEST(Reconcile, SaysWhatDoesNotFollow) {
  System system;
  system.add(Variable::measured("whole", 10, 0.1));
  system.add(Variable::wanted("part 1"));
  system.add(Variable::wanted("part 2"));
  system.add(Variable::wanted("both"));
  system.add(Constraint{"total", {0, 1, 2}, linear_law({1, -1, -1})});
  system.add(Constraint{"again", {1, 2, 3}, linear_law({1, 1, -1})});
  const auto r = reconciled(system);
  EXPECT_EQ(r.estimates[1].standing, Standing::undetermined);
  EXPECT_EQ(r.estimates[2].standing, Standing::undetermined);
  EXPECT_EQ(r.estimates[3].standing, Standing::determined);
  EXPECT_NEAR(r.estimates[3].value, 10, 1e-12);
  EXPECT_NEAR(r.estimates[3].spread, 0.1, 1e-12);
}

TEST(Reconcile, CountsARelationStatedTwiceOnce) {
  System system = twice_measured();
  system.add(Constraint{"b = a", {1, 0}, linear_law({2, -2})});
  const auto r = reconciled(system);
  EXPECT_EQ(r.test.freedom, 1);
  EXPECT_NEAR(r.estimates[0].value, 10.144, 1e-12);
}

TEST(Reconcile, GoesRoundARingOfRelations) {
  System system;
  for (int i = 0; i < 4; ++i) system.add(Variable::measured("x" + std::to_string(i), 5 + 0.1 * i, 0.1));
  for (std::size_t i = 0; i < 4; ++i) system.add(Constraint{"ring", {i, (i + 1) % 4}, linear_law({1, -1})});
  const auto r = reconciled(system);
  EXPECT_EQ(r.test.freedom, 3);
  for (const Estimate& e : r.estimates) EXPECT_NEAR(e.value, 5.15, 1e-12);
}

TEST(Reconcile, NamesTheCulpritAndWhatItShouldHaveBeen) {
  // m = rho V three ways; the second volume lost its decimal point.
  System system;
  system.add(Variable::measured("density", 1.42, 0.003, Scale::logarithmic));
  const double volumes[] = {20.0, 200.0, 20.1};
  const double masses[] = {28.4, 28.4, 28.5};
  for (int i = 0; i < 3; ++i) {
    system.add(Variable::measured("volume", volumes[i], 0.1, Scale::logarithmic));
    system.add(Variable::measured("mass", masses[i], 0.05, Scale::logarithmic));
    const VariableIndex v = system.variables().size() - 2;
    system.add(Constraint{"m = rho V", {0, v, v + 1}, product_law({1, 1, -1})});
  }
  system.add(Constraint{"same volume", {1, 3}, linear_law({1, -1})});
  const auto r = reconciled(system);
  ASSERT_EQ(r.parts.size(), 1u);
  const Suspicion& suspicion = r.parts[0].suspicion;
  ASSERT_FALSE(suspicion.suspects.empty());
  EXPECT_EQ(suspicion.tied, 1u);
  ASSERT_EQ(suspicion.suspects[0].values.size(), 1u);
  EXPECT_EQ(suspicion.suspects[0].values[0].variable, 3u);
  EXPECT_NEAR(suspicion.suspects[0].values[0].value, 20.0, 0.1);
  EXPECT_LT(suspicion.suspects[0].values[0].spread, 0.1);
  EXPECT_TRUE(suspicion.suspects[0].settles);
}

TEST(Reconcile, SaysATieAsATie) {
  System system = twice_measured();
  system.variable(1).value = 20;
  const auto r = reconciled(system);
  const Suspicion& suspicion = r.parts[0].suspicion;
  ASSERT_EQ(suspicion.suspects.size(), 2u);
  EXPECT_EQ(suspicion.tied, 2u);
  EXPECT_NEAR(suspicion.suspects[0].values[0].value, 20, 1e-9);
  EXPECT_NEAR(suspicion.suspects[1].values[0].value, 10, 1e-9);
  EXPECT_NEAR(suspicion.suspects[1].values[0].spread, 0.3, 1e-9);
}

TEST(Reconcile, NamesTwoCulpritsWhereOneDoesNotSuffice) {
  // Five readings of one mass; two are off, in opposite directions.
  System system;
  const double readings[] = {5.00, 5.01, 4.99, 7.00, 3.50};
  for (const double m : readings) system.add(Variable::measured("m", m, 0.01));
  for (std::size_t i = 1; i < 5; ++i) system.add(Constraint{"same", {0, i}, linear_law({1, -1})});
  const auto r = reconciled(system);
  const Suspicion& suspicion = r.parts[0].suspicion;
  ASSERT_FALSE(suspicion.suspects.empty());
  ASSERT_EQ(suspicion.suspects[0].values.size(), 2u);
  std::vector<VariableIndex> named{suspicion.suspects[0].values[0].variable, suspicion.suspects[0].values[1].variable};
  std::sort(named.begin(), named.end());
  EXPECT_EQ(named, (std::vector<VariableIndex>{3, 4}));
  EXPECT_TRUE(suspicion.suspects[0].settles);
  EXPECT_EQ(suspicion.tied, 1u);
}

TEST(Reconcile, SaysThatExactValuesContradict) {
  System system;
  system.add(Variable::exact("two", 2));
  system.add(Variable::exact("three", 3));
  system.add(Constraint{"two = three", {0, 1}, linear_law({1, -1})});
  const auto r = reconciled(system);
  ASSERT_TRUE(r.parts[0].trouble);
  EXPECT_EQ(r.parts[0].trouble->code, Code::impossible);
  EXPECT_EQ(r.parts[0].trouble->sentence,
            "No values can meet two = three: everything it rests on is exact, or set by other relations.");
}

TEST(Reconcile, SaysThatAnUnknownCannotBeTwoThings) {
  System system;
  system.add(Variable::exact("two", 2));
  system.add(Variable::exact("three", 3));
  system.add(Variable::wanted("x"));
  system.add(Constraint{"x = two", {0, 2}, linear_law({1, -1})});
  system.add(Constraint{"x = three", {1, 2}, linear_law({1, -1})});
  const auto r = reconciled(system);
  ASSERT_TRUE(r.parts[0].trouble);
  EXPECT_EQ(r.parts[0].trouble->code, Code::impossible);
}

TEST(Reconcile, ATroubledPartSpoilsNoOther) {
  System system = twice_measured();
  const auto two = system.add(Variable::exact("two", 2));
  const auto three = system.add(Variable::exact("three", 3));
  system.add(Constraint{"two = three", {two, three}, linear_law({1, -1})});
  const auto r = reconciled(system);
  EXPECT_NEAR(r.estimates[0].value, 10.144, 1e-12);
}

TEST(Reconcile, RefusesNumbersThatAreNone) {
  for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity(), 1e300}) {
    System system = twice_measured();
    system.variable(0).value = bad;
    const auto result = reconcile(system);
    ASSERT_FALSE(result);
    EXPECT_EQ(result.fault().code, Code::not_finite);
    EXPECT_EQ(result.fault().offending, "a");
  }
}

TEST(Reconcile, RefusesZeroUnderALogarithm) {
  System system;
  system.add(Variable::measured("mass", 0, 0.1, Scale::logarithmic));
  const auto result = reconcile(system);
  ASSERT_FALSE(result);
  EXPECT_EQ(result.fault().sentence, "The value of mass must be above zero.");
}

TEST(Reconcile, RefusesImpossibleCorrelations) {
  System system = twice_measured();
  system.correlate(0, 1, 1.5);
  ASSERT_FALSE(reconcile(system));
  EXPECT_EQ(reconcile(system).fault().code, Code::out_of_range);
}

TEST(Reconcile, SolvesSimultaneousUnknownsFromAFarStart) {
  // A mixture: n1 + n2 = 0.3, 40 n1 + 58.5 n2 = 14.775: n1 = n2 = 0.15 by hand.
  System system;
  system.add(Variable::measured("total", 0.3, 1e-3));
  system.add(Variable::measured("mass", 14.775, 1e-2));
  system.add(Variable::wanted("n1", 1e6, Scale::logarithmic));
  system.add(Variable::wanted("n2", {}, Scale::logarithmic));
  system.add(Constraint{"amounts", {0, 2, 3}, linear_law({1, -1, -1})});
  system.add(Constraint{"masses", {1, 2, 3}, linear_law({1, -40, -58.5})});
  const auto r = reconciled(system);
  ASSERT_FALSE(r.parts[0].trouble) << r.parts[0].trouble->sentence;
  EXPECT_NEAR(r.estimates[2].value, 0.15, 1e-9);
  EXPECT_NEAR(r.estimates[3].value, 0.15, 1e-9);
}

}  // namespace
}  // namespace sash::workings
