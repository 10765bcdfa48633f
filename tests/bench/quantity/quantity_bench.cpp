// What propagating costs beside the floor of the same run: the bare model called as often. "ratio" is ours over the
// floor.

#include <benchmark/benchmark.h>

#include <array>
#include <chrono>

#include "quantity/monte_carlo.h"
#include "quantity/propagate.h"
#include "quantity/unit.h"

namespace sash::quantity {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_of(auto&& work) {
  const auto start = Clock::now();
  work();
  return std::chrono::duration<double>(Clock::now() - start).count();
}

const Model strength = [](std::span<const double> x) { return x[0] * x[1] / (x[2] * x[3]) + x[4]; };

std::array<Input, 5> made_inputs() {
  std::array<Input, 5> inputs;
  for (Input& input : inputs) input = {"x", 2, stated(0.02, Meant::limits, "").value()};
  return inputs;
}

double bare_calls(std::size_t count) {
  std::array<double, 5> at{2, 2, 2, 2, 2};
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i) {
    at[0] += 1e-9;
    sum += strength(at);
  }
  return sum;
}

void first_order(benchmark::State& state) {
  const auto inputs = made_inputs();
  for (auto _ : state) benchmark::DoNotOptimize(propagate(strength, inputs));
  const double ours = seconds_of([&] {
    for (int i = 0; i < 10000; ++i) benchmark::DoNotOptimize(propagate(strength, inputs));
  });
  // One value and four for each slope of five inputs.
  const double floor = seconds_of([] { benchmark::DoNotOptimize(bare_calls(210000)); });
  state.counters["ratio"] = ours / floor;
}
BENCHMARK(first_order);

void monte_carlo(benchmark::State& state) {
  const auto inputs = made_inputs();
  for (auto _ : state) benchmark::DoNotOptimize(sample(strength, inputs));
  const double ours = seconds_of([&] { benchmark::DoNotOptimize(sample(strength, inputs)); });
  const double floor = seconds_of([] { benchmark::DoNotOptimize(bare_calls(200000)); });
  state.counters["ratio"] = ours / floor;
}
BENCHMARK(monte_carlo)->Unit(benchmark::kMillisecond);

void parse_unit(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(Unit::parse("mmol/L"));
}
BENCHMARK(parse_unit);

}  // namespace
}  // namespace sash::quantity
