// What a frame of the desk costs the processor on a long record, against a frame of the toolkit with nothing in it; and
// what an edit costs the pages. No window and no graphics: drawing the triangles is the graphics card's.
#include <benchmark/benchmark.h>

#include <imgui.h>

#include "desk/shown/findings_page.h"
#include "desk/shown/sheet.h"
#include "draw/kit/harness.h"
#include "draw/pages/fake_desk.h"
#include "draw/pages/lesson.h"

namespace {

using sash::Moment;
using sash::testing::FakeDesk;
using sash::testing::Harness;

void EmptyFrame(benchmark::State& state) {
  Harness harness;
  harness.show([](sash::desk::Kit&) {});
  for (auto _ : state) harness.frame();
}
BENCHMARK(EmptyFrame)->Unit(benchmark::kMicrosecond);

// Playing: the playhead moves each frame, the sheet follows, nothing else changes.
void Playing(benchmark::State& state) {
  FakeDesk desk(sash::testing::long_lesson(static_cast<int>(state.range(0)), static_cast<int>(state.range(1))));
  desk.transport().playing = true;
  double at = 3000;
  for (auto _ : state) {
    at += 1.0 / 60;
    desk.transport().at = Moment::seconds(at);
    desk.hand().frame();
  }
}
BENCHMARK(Playing)->Args({3, 100})->Args({3, 1'000})->Args({3, 10'000})->Unit(benchmark::kMicrosecond);

// Scrolling through the whole length: every frame shows another part.
void Scrolling(benchmark::State& state) {
  FakeDesk desk(sash::testing::long_lesson(3, 10'000));
  double at = 0;
  for (auto _ : state) {
    at = at > 10'000 ? 0 : at + 37;
    desk.transport().at = Moment::seconds(at);
    desk.hand().frame();
  }
}
BENCHMARK(Scrolling)->Unit(benchmark::kMicrosecond);

// An edit makes the pages anew: the sheet is laid out again, whole.
void LayingOut(benchmark::State& state) {
  const auto record = sash::testing::long_lesson(3, static_cast<int>(state.range(0)));
  const auto cover = sash::safety::check_cover(record);
  const sash::desk::EvenMeasure body(8, 20);
  const sash::desk::EvenMeasure small(6, 17);
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        sash::desk::show_sheet({record, cover, {}, ""}, {sash::desk::share_columns(600, 15), body, small}));
  }
}
BENCHMARK(LayingOut)->Arg(100)->Arg(1'000)->Arg(10'000)->Unit(benchmark::kMillisecond);

}  // namespace
