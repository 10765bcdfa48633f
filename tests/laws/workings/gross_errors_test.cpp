// What the statistics of a reconciliation promise, measured over thousands of made networks.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "workings/reconcile.h"

namespace sash::workings {
namespace {

using Random = std::mt19937_64;

// A consistent network: true values, and laws they meet. Each new quantity is a sum or a product of earlier ones.
struct Made {
  std::vector<double> truth;
  std::vector<double> spread;
  std::vector<Constraint> laws;
  std::vector<bool> adds;
};

Made made_network(Random& random) {
  Made m;
  std::uniform_real_distribution<double> size(1, 10);
  std::uniform_real_distribution<double> precision(0.001, 0.01);
  const auto add = [&](double value) {
    m.truth.push_back(value);
    m.spread.push_back(value * precision(random));
    m.adds.push_back(false);
    return m.truth.size() - 1;
  };
  for (int i = 0; i < 5; ++i) add(size(random));
  const int laws = std::uniform_int_distribution<int>(5, 10)(random);
  for (int i = 0; i < laws; ++i) {
    std::uniform_int_distribution<std::size_t> pick(0, m.truth.size() - 1);
    const std::size_t a = pick(random);
    std::size_t b = pick(random);
    if (b == a) b = (a + 1) % m.truth.size();
    if (i % 3 == 2) {
      const std::size_t c = add(m.truth[a] * m.truth[b]);
      m.laws.push_back({"product", {a, b, c}, product_law({1, 1, -1})});
    } else {
      const std::size_t c = add(m.truth[a] + m.truth[b]);
      m.laws.push_back({"sum", {a, b, c}, linear_law({1, 1, -1})});
      m.adds[a] = m.adds[b] = m.adds[c] = true;
    }
  }
  return m;
}

System measured(const Made& m, Random& random) {
  std::normal_distribution<double> noise;
  System system;
  for (std::size_t i = 0; i < m.truth.size(); ++i) {
    system.add(Variable::measured("x" + std::to_string(i), m.truth[i] + m.spread[i] * noise(random), m.spread[i],
                                  m.adds[i] ? Scale::plain : Scale::logarithmic));
  }
  for (const Constraint& law : m.laws) system.add(law);
  return system;
}

TEST(GlobalTest, RaisesFalseAlarmsAsOftenAsItSays) {
  Random random(20240611);
  ReconcileOptions options;
  options.find_suspects = false;
  int tested = 0;
  int alarms = 0;
  for (int n = 0; n < 4000; ++n) {
    const Made m = made_network(random);
    const auto result = reconcile(measured(m, random), options);
    ASSERT_TRUE(result);
    for (const Part& part : result->parts) {
      ASSERT_FALSE(part.trouble) << part.trouble->sentence;
      if (part.test.freedom == 0) continue;
      ++tested;
      alarms += part.test.fails(options.level) ? 1 : 0;
    }
  }
  ASSERT_GT(tested, 3000);
  const double rate = static_cast<double>(alarms) / tested;
  // Three binomial standard deviations about the stated 5 %.
  const double allowed = 3 * std::sqrt(0.05 * 0.95 / tested);
  EXPECT_NEAR(rate, 0.05, allowed);
  RecordProperty("false_alarm_rate", std::to_string(rate));
}

TEST(Suspicion, NamesAPlantedGrossErrorOfTenSigma) {
  Random random(7);
  int planted = 0;
  int named = 0;
  int named_alone = 0;
  for (int n = 0; n < 1500; ++n) {
    const Made m = made_network(random);
    System system = measured(m, random);
    const auto clean = reconcile(system, {0.05, false});
    ASSERT_TRUE(clean);
    // Figures in which an error of ten sigma would be noticed with room to spare.
    std::vector<VariableIndex> redundant;
    for (VariableIndex v = 0; v < m.truth.size(); ++v) {
      const Estimate& e = clean->estimates[v];
      if (e.noticeable && *e.noticeable < 7 * m.spread[v]) redundant.push_back(v);
    }
    if (redundant.empty()) continue;
    const VariableIndex victim = redundant[random() % redundant.size()];
    system.variable(victim).value += (n % 2 == 0 ? 10 : -10) * m.spread[victim];
    const auto result = reconcile(system);
    ASSERT_TRUE(result);
    ++planted;
    for (const Part& part : result->parts) {
      const Suspicion& s = part.suspicion;
      for (std::size_t i = 0; i < s.tied; ++i) {
        const auto& values = s.suspects[i].values;
        const bool is_victim = std::any_of(values.begin(), values.end(), [&](auto& v) { return v.variable == victim; });
        if (!is_victim) continue;
        ++named;
        named_alone += s.tied == 1 && values.size() == 1 ? 1 : 0;
        break;
      }
    }
  }
  ASSERT_GT(planted, 1000);
  EXPECT_GE(named, 0.95 * planted) << named << " of " << planted;
  RecordProperty("named", std::to_string(static_cast<double>(named) / planted));
  RecordProperty("named_alone", std::to_string(static_cast<double>(named_alone) / planted));
  std::printf("%d planted, %d named, %d of them alone\n", planted, named, named_alone);
}

TEST(Reconciliation, NarrowingAFigureNeverWidensAResult) {
  Random random(99);
  for (int n = 0; n < 300; ++n) {
    const Made m = made_network(random);
    System system = measured(m, random);
    // At the true values, so that the laws' slopes stay where they are.
    for (VariableIndex v = 0; v < m.truth.size(); ++v) system.variable(v).value = m.truth[v];
    const auto before = reconcile(system, {0.05, false});
    const VariableIndex v = random() % m.truth.size();
    system.variable(v).spread /= 3;
    const auto after = reconcile(system, {0.05, false});
    ASSERT_TRUE(before && after);
    for (VariableIndex i = 0; i < m.truth.size(); ++i) {
      EXPECT_LE(after->estimates[i].spread, before->estimates[i].spread * (1 + 1e-7) + 1e-9);
    }
  }
}

TEST(Reconciliation, ReconciledValuesMeetEveryLaw) {
  Random random(5);
  for (int n = 0; n < 500; ++n) {
    const Made m = made_network(random);
    const auto result = reconcile(measured(m, random), {0.05, false});
    ASSERT_TRUE(result);
    for (const Constraint& law : m.laws) {
      std::vector<double> x;
      for (const VariableIndex v : law.variables) x.push_back(result->estimates[v].value);
      std::vector<double> slope(x.size());
      EXPECT_NEAR(law.law->residual(x, slope), 0, 1e-7 * (std::fabs(x[0]) + std::fabs(x[1]) + std::fabs(x[2])));
    }
  }
}

}  // namespace
}  // namespace sash::workings
