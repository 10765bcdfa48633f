// Worked examples whose answer was computed by hand, computed once more by GNU Units (Debian package units) with its
// own weights of the elements and constants, asked at test time.
#include <gtest/gtest.h>

#include <map>
#include <optional>
#include <string>

#include "support/text.h"
#include "tools/gnu_units.h"
#include "tools/table.h"

namespace sash::workings {
namespace {

using sash::test::read_table;
using sash::test::Row;

struct Expected {
  double value;
  double tolerance;
};

std::map<std::string, Expected> worked_by_hand() {
  std::map<std::string, Expected> rows;
  for (const Row& row : read_table("known/workings/worked_examples.csv")) {
    if (row.at("source").find("by hand") == std::string::npos) continue;
    rows[row.at("id")] = {row.number("expected"), row.number("tolerance")};
  }
  return rows;
}

TEST(WorkedByHand, ComesOutTheSameByAnotherProgram) {
  if (!test::has_gnu_units()) GTEST_SKIP() << "the package units is not installed";
  const auto by_hand = worked_by_hand();
  for (const Row& row : read_table("known/workings/by_hand.csv")) {
    SCOPED_TRACE(row.at("id") + " " + row.at("source"));
    const auto it = by_hand.find(row.at("id"));
    ASSERT_TRUE(it != by_hand.end());
    const auto theirs = test::ask_gnu_units(row.at("gnu"), row.at("into"));
    ASSERT_TRUE(theirs) << row.at("gnu");
    EXPECT_NEAR(*theirs, it->second.value, it->second.tolerance);
  }
}

// Of two a program for units cannot say what comes out: ice that melts, and acid that dissociates.
TEST(WorkedByHand, IsHeldAgainstAnotherProgramButForTwo) {
  std::size_t held = 0;
  for (const Row& row : read_table("known/workings/by_hand.csv")) held += row.at("id").empty() ? 0 : 1;
  EXPECT_EQ(held + 2, worked_by_hand().size());
}

}  // namespace
}  // namespace sash::workings
