#include "support/outcome.h"

#include <gtest/gtest.h>

#include <memory>

namespace sash {
namespace {

TEST(Outcome, CarriesEitherTheValueOrTheFault) {
  const Outcome<int> good(4);
  const Outcome<int> bad(Fault::of(Code::not_found, "There is no such thing.", "thing"));
  ASSERT_TRUE(good.ok());
  EXPECT_EQ(*good, 4);
  ASSERT_FALSE(bad.ok());
  EXPECT_EQ(bad.fault().code, Code::not_found);
  EXPECT_EQ(bad.fault().offending, "thing");
  EXPECT_EQ(bad.value_or(9), 9);
}

TEST(Outcome, MovesOutValuesThatCannotBeCopied) {
  Outcome<std::unique_ptr<int>> made(std::make_unique<int>(3));
  const std::unique_ptr<int> taken = std::move(made).value();
  EXPECT_EQ(*taken, 3);
}

TEST(OutcomeDeathTest, LookingAtAMissingValueIsABrokenPromise) {
  const Outcome<int> bad(Fault::of(Code::damaged, "The file is cut short."));
  EXPECT_DEATH(static_cast<void>(bad.value()), "broken promise");
}

}  // namespace
}  // namespace sash
