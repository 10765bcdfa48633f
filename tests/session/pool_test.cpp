#include "session/pool.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <latch>
#include <thread>

namespace sash::session {
namespace {

TEST(Pool, RunsEverythingItIsGiven) {
  std::atomic<int> done{0};
  std::latch all(100);
  Pool pool(2);
  for (int i = 0; i < 100; ++i) {
    pool.run([&] {
      ++done;
      all.count_down();
    });
  }
  all.wait();
  EXPECT_EQ(done, 100);
}

TEST(Pool, WaitsForWhatHasBegunWhenItGoes) {
  bool finished = false;  // seen safely afterwards only because the pool has waited
  std::latch begun(1);
  {
    Pool pool(1);
    pool.run([&] {
      begun.count_down();
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
      finished = true;
    });
    begun.wait();
  }
  EXPECT_TRUE(finished);
}

}  // namespace
}  // namespace sash::session
