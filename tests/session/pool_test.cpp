#include "session/pool.h"

#include <gtest/gtest.h>

#include <atomic>
#include <latch>

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
  std::atomic<bool> finished{false};
  std::latch begun(1);
  {
    Pool pool(1);
    pool.run([&] {
      begun.count_down();
      for (volatile int i = 0; i < 1000000; i = i + 1) {
      }
      finished = true;
    });
    begun.wait();
  }
  EXPECT_TRUE(finished);
}

}  // namespace
}  // namespace sash::session
