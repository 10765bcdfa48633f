// An hour of narration (and two, four, eight hours) from bytes to linked figures; the floor is splitting the same text
// into words.

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "narration/figures.h"
#include "narration/read.h"
#include "support/text.h"
#include "tools/table.h"

namespace {

/// About 15 minutes of speech, repeated to that many quarters of an hour, as SubRip.
std::string narration_of(std::int64_t quarters) {
  const std::string text = sash::test::read_source_file("tests/known/narration/given/d01_copper_cycle.srt");
  const auto once = sash::narration::read_narration(text, "a.srt");
  std::string out;
  std::int64_t number = 0;
  std::int64_t start = 0;
  // The narration is 3.7 minutes long: four of it are a quarter of an hour.
  for (std::int64_t n = 0; n < quarters * 4; ++n) {
    for (const auto& line : once->lines) {
      start += 3500;
      out += fmt::format("{}\n{:02}:{:02}:{:02},{:03} --> {:02}:{:02}:{:02},{:03}\n{}\n\n", ++number, start / 3'600'000,
                         start / 60'000 % 60, start / 1000 % 60, start % 1000, start / 3'600'000, start / 60'000 % 60,
                         (start / 1000 + 3) % 60, start % 1000, line.text);
    }
  }
  return out;
}

void ReadAndLink(benchmark::State& state) {
  const std::string bytes = narration_of(state.range(0));
  for (auto _ : state) {
    const auto text = sash::narration::read_narration(bytes, "a.srt");
    benchmark::DoNotOptimize(sash::narration::read_figures(*text));
  }
  state.SetComplexityN(state.range(0));
}
BENCHMARK(ReadAndLink)->Arg(4)->Arg(8)->Arg(16)->Arg(32)->Unit(benchmark::kMillisecond)->Complexity();

void SplitIntoWords(benchmark::State& state) {
  const std::string bytes = narration_of(state.range(0));
  for (auto _ : state) {
    std::size_t words = 0;
    for (const auto line : sash::split_lines(bytes)) words += sash::split(line, ' ').size();
    benchmark::DoNotOptimize(words);
  }
}
BENCHMARK(SplitIntoWords)->Arg(4)->Unit(benchmark::kMillisecond);

}  // namespace
