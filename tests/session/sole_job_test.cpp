#include "session/sole_job.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <thread>

namespace sash::session {
namespace {

using TextJob = SoleJob<std::string>;

std::optional<Outcome<std::string>> wait_for(TextJob& job) {
  for (int i = 0; i < 2000; ++i) {
    if (auto outcome = job.poll()) return outcome;
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  return std::nullopt;
}

TEST(SoleJob, GivesItsOutcomeOnceAndWakesTheDesk) {
  std::promise<void> woken;
  TextJob job("Writing the script", [&] { woken.set_value(); });
  EXPECT_FALSE(job.under_way());
  job.begin([](Progress& progress) -> Outcome<std::string> {
    progress.at(1);
    return std::string("/lessons/out");
  });
  EXPECT_TRUE(job.under_way());
  EXPECT_EQ(job.job()->what, "Writing the script");
  woken.get_future().wait();
  const auto outcome = wait_for(job);
  ASSERT_TRUE(outcome && *outcome);
  EXPECT_EQ(outcome->value(), "/lessons/out");
  EXPECT_FALSE(job.poll());
  EXPECT_FALSE(job.job());
}

TEST(SoleJob, BegunAnewItForgetsWhatWasUnderWay) {
  TextJob job("Writing the script", {});
  job.begin([](Progress& progress) -> Outcome<std::string> {
    while (!progress.cancelled()) std::this_thread::yield();
    return Fault::of(Code::cancelled, "Writing the script was stopped.");
  });
  job.begin([](Progress&) -> Outcome<std::string> { return std::string("second"); });
  const auto outcome = wait_for(job);
  ASSERT_TRUE(outcome && *outcome) << "the stopped one says nothing";
  EXPECT_EQ(outcome->value(), "second");
}

TEST(SoleJob, StoppedItIsUnderWayNoMoreAndSaysNothing) {
  std::promise<void> over;
  TextJob job("Writing the script", [&] { over.set_value(); });
  job.begin([](Progress& progress) -> Outcome<std::string> {
    while (!progress.cancelled()) std::this_thread::yield();
    return std::string("too late");
  });
  EXPECT_TRUE(job.job()->can_stop);
  job.stop();
  EXPECT_FALSE(job.under_way());
  over.get_future().wait();
  EXPECT_FALSE(job.poll());
}

TEST(SoleJob, LeavingStopsTheWork) {
  std::atomic<bool> begun = false;
  std::atomic<bool> stopped = false;
  {
    TextJob job("Drawing", {});
    job.begin([&](Progress& progress) -> Outcome<std::string> {
      begun = true;
      while (!progress.cancelled()) std::this_thread::yield();
      stopped = true;
      return std::string();
    });
    while (!begun) std::this_thread::yield();
  }
  EXPECT_TRUE(stopped);
}

}  // namespace
}  // namespace sash::session
