// How fast formulas are read, equations balanced and names found. Each is stated beside a floor measured in the same
// run, the least work any such code must do: stepping through the text once for reading, reading the equation for
// balancing.

#include <benchmark/benchmark.h>

#include <array>
#include <chrono>

#include "chem/balance.h"
#include "chem/molar_mass.h"
#include "chem/names.h"
#include "support/text.h"

namespace {

using namespace sash;
using namespace sash::chem;

constexpr std::array<std::string_view, 8> formulas{"H2O",      "CuSO4·5H2O",    "K4[Fe(CN)6]·3H2O", "SO4^2-",
                                                   "C20H14O4", "[Cu(NH3)4]^2+", "Ca5(PO4)3OH",      "Al2(SO4)3·18H2O"};

constexpr std::array<std::string_view, 3> equations{
    "Cu + HNO3 = Cu(NO3)2 + NO + H2O", "K4[Fe(CN)6] + KMnO4 + H2SO4 = KHSO4 + Fe2(SO4)3 + MnSO4 + HNO3 + CO2 + H2O",
    "H2 + Ca(CN)2 + NaAlF4 + FeSO4 + MgSiO3 + KI + H3PO4 + PbCrO4 + BrCl + CF2Cl2 + SO2 = PbBr2 + CrCl3 + MgCO3 + "
    "KAl(OH)4 + Fe(SCN)3 + PI3 + Na2SiO3 + CaF2 + H2O"};

/// Seconds one call of `work` takes, over many.
template <class Work>
double seconds_each(Work work) {
  constexpr int times = 20000;
  const auto start = std::chrono::steady_clock::now();
  for (int i = 0; i < times; ++i) work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count() / times;
}

void walk(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint c = code_point_at(text, at);
    benchmark::DoNotOptimize(c.value);
    at += c.length;
  }
}

template <class Work>
void run_against(benchmark::State& state, double floor, Work work) {
  const auto start = std::chrono::steady_clock::now();
  for (auto _ : state) work();
  const double each = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count() /
                      static_cast<double>(state.iterations());
  state.counters["times_floor"] = each / floor;
  state.counters["per_second"] = 1 / each;
}

void read_formulas(benchmark::State& state) {
  std::size_t i = 0;
  const double floor = seconds_each([&i] { walk(formulas[i++ % formulas.size()]); });
  run_against(state, floor, [&i] { benchmark::DoNotOptimize(read_formula(formulas[i++ % formulas.size()])); });
}
BENCHMARK(read_formulas);

void weigh_formulas(benchmark::State& state) {
  std::size_t i = 0;
  std::vector<Formula> read;
  for (const std::string_view text : formulas) read.push_back(read_formula(text).value());
  const double floor = seconds_each([&i] { walk(formulas[i++ % formulas.size()]); });
  run_against(state, floor, [&] { benchmark::DoNotOptimize(molar_mass(read[i++ % read.size()])); });
}
BENCHMARK(weigh_formulas);

void balance_equations(benchmark::State& state) {
  const std::string_view text = equations[static_cast<std::size_t>(state.range(0))];
  const Equation equation = read_equation(text).value();
  const double floor = seconds_each([text] { benchmark::DoNotOptimize(read_equation(text)); });
  state.SetLabel(std::to_string(equation.all().size()) + " species");
  run_against(state, floor, [&equation] { benchmark::DoNotOptimize(balance(equation)); });
}
BENCHMARK(balance_equations)->DenseRange(0, static_cast<int>(equations.size()) - 1);

void find_names(benchmark::State& state) {
  constexpr std::string_view speech =
      "now add twenty grams of copper two sulfate pentahydrate to the dilute nitric acid and stir until it has all "
      "dissolved "
      "then drop in a little washing soda while the beaker is still warm because no two batches are the same";
  const auto words = split(speech, ' ');
  const NameBook& book = NameBook::standard();
  const double floor = seconds_each([&] { walk(speech); }) / static_cast<double>(words.size());
  std::size_t at = 0;
  run_against(state, floor, [&] { benchmark::DoNotOptimize(book.find_longest(words, at++ % words.size())); });
}
BENCHMARK(find_names);

}  // namespace
