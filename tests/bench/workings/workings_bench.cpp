// How the cost of reconciling grows with the number of figures, and what a check of an ordinary record costs. The floor
// is one evaluation of every law of the same network: the least any reconciliation must do. Both in processor time.

#include <benchmark/benchmark.h>

#include <cmath>
#include <ctime>
#include <random>

#include "workings/check.h"
#include "workings/reconcile.h"
#include "workings/records.h"

namespace {

using namespace sash;
using namespace sash::workings;

// A flow of steps: what goes into a step is what goes on and what is taken off; all three measured. Every tenth step
// goes on unmeasured. One connected piece.
System flow(std::size_t figures, bool conflict) {
  std::mt19937_64 random(1);
  std::normal_distribution<double> noise;
  System system;
  const auto measured = [&](double truth) {
    return system.add(Variable::measured("x", truth * (1 + 0.005 * noise(random)), 0.005 * truth));
  };
  double carried = 1000;
  VariableIndex in = measured(carried);
  for (std::size_t n = 1, step = 0; n + 2 <= figures; n += 2, ++step) {
    const double side = carried * 0.001;
    const double on = carried - side;
    const VariableIndex off = measured(side);
    const VariableIndex next = step % 10 == 9 ? system.add(Variable::wanted("x")) : measured(on);
    system.add(Constraint{"step", {in, off, next}, linear_law({1, -1, -1})});
    in = next;
    carried = on;
  }
  if (conflict) system.variable(in).value *= 1.2;
  return system;
}

double floor_seconds(const System& system) {
  constexpr int times = 2000;
  const std::clock_t start = std::clock();
  for (int i = 0; i < times; ++i) {
    for (const Constraint& c : system.constraints()) {
      double x[3];
      double slope[3];
      for (std::size_t m = 0; m < 3; ++m) x[m] = system.variables()[c.variables[m]].value;
      benchmark::DoNotOptimize(c.law->residual(x, slope));
    }
  }
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / times;
}

void reconcile_figures(benchmark::State& state, bool conflict) {
  const System system = flow(static_cast<std::size_t>(state.range(0)), conflict);
  double spent = 0;
  for (auto _ : state) {
    const std::clock_t start = std::clock();
    auto result = reconcile(system);
    spent += static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    benchmark::DoNotOptimize(result);
  }
  const double each = spent / static_cast<double>(state.iterations());
  state.counters["us_per_figure"] = 1e6 * each / static_cast<double>(state.range(0));
  state.counters["times_floor"] = each / floor_seconds(system);
  state.SetComplexityN(state.range(0));
}

void reconcile_consistent(benchmark::State& state) { reconcile_figures(state, false); }
void reconcile_with_a_gross_error(benchmark::State& state) { reconcile_figures(state, true); }

BENCHMARK(reconcile_consistent)->RangeMultiplier(10)->Range(10, 10000)->Complexity()->Unit(benchmark::kMillisecond);
BENCHMARK(reconcile_with_a_gross_error)->RangeMultiplier(10)->Range(10, 10000)->Unit(benchmark::kMillisecond);

// About 60 figures and 40 relations: ten portions weighed, measured, dissolved and reacted, with a conflict in one.
model::Record ordinary_record(bool conflict) {
  using model::RelationType;
  using quantity::Kind;
  workings::test::RecordBuilder b;
  for (int i = 0; i < 10; ++i) {
    const bool odd = conflict && i == 3;
    const auto mass = b.figure(odd ? "24.8 g" : "28.4 g", Kind::mass, "HNO3");
    const auto volume = b.figure("20.0 mL", Kind::volume, "HNO3");
    const auto strength = b.figure("6.00 mol/L", Kind::molar_concentration, "HNO3");
    const auto acid = b.figure("", Kind::amount, "HNO3");
    const auto copper = b.figure("3.177 g", Kind::mass, "Cu");
    const auto gas = b.figure("0.0300 mol", Kind::amount, "NO");
    b.relation(RelationType::same_portion, {{"mass", mass}, {"volume", volume}}, {{"density", "1.42 g/mL"}});
    b.relation(RelationType::in_solution,
               {{"strength", strength}, {"solution_volume", volume}, {"solute_amount", acid}}, {{"substance", "HNO3"}});
    b.relation(RelationType::reaction, {{"reactant", copper, "Cu"}, {"reactant", acid, "HNO3"}, {"product", gas, "NO"}},
               {{"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O"}});
    b.relation(RelationType::same_portion, {{"mass", copper}, {"amount", b.figure("", Kind::amount, "Cu")}});
  }
  return b.record();
}

void check_record(benchmark::State& state, bool conflict) {
  const model::Record record = ordinary_record(conflict);
  for (auto _ : state) {
    auto report = check(record);
    benchmark::DoNotOptimize(report);
  }
  state.counters["figures"] = static_cast<double>(record.figures.size());
  state.counters["relations"] = static_cast<double>(record.relations.size());
}

void check_ordinary_record(benchmark::State& state) { check_record(state, false); }
void check_ordinary_record_with_a_conflict(benchmark::State& state) { check_record(state, true); }

// Copper sulfate, sodium hydroxide and ammonia by the tables' constants: some thirty species and a solid.
void check_an_equilibrium(benchmark::State& state) {
  using quantity::Kind;
  workings::test::RecordBuilder b;
  const auto copper = b.figure("0.0500 mol/L", Kind::molar_concentration);
  const auto base = b.figure("0.100 mol/L", Kind::molar_concentration);
  const auto ammonia = b.figure("1.00 mol/L", Kind::molar_concentration);
  const auto dissolved = b.figure("", Kind::molar_concentration);
  b.relation(model::RelationType::equilibrium, {{"total", copper, "CuSO4"},
                                                {"total", base, "NaOH"},
                                                {"total", ammonia, "NH3"},
                                                {"species", dissolved, "[Cu(NH3)4]^2+"}});
  for (auto _ : state) {
    auto report = check(b.record());
    benchmark::DoNotOptimize(report);
  }
}

BENCHMARK(check_an_equilibrium)->Unit(benchmark::kMillisecond);
BENCHMARK(check_ordinary_record)->Unit(benchmark::kMillisecond);
BENCHMARK(check_ordinary_record_with_a_conflict)->Unit(benchmark::kMillisecond);

}  // namespace
