// Published worked examples, run as records through check() (tests/known/workings/worked_examples.csv). How a row tells
// its figures and relations is said in tools/told_record.h.
#include <gtest/gtest.h>

#include "tools/table.h"
#include "tools/told_record.h"

namespace sash::workings {
namespace {

using sash::test::Row;

void expect_reproduced(const Row& row) {
  const test::ToldRecord example(row.at("figures"), row.at("relations"));
  EXPECT_EQ(example.report().count(Verdict::unsettled), 0u) << example.everything_said();
  EXPECT_EQ(example.report().count(Verdict::conflicts), 0u) << example.everything_said();
  if (row.at("wanted") == "first out") {
    EXPECT_NE(example.everything_said().find(row.at("expected") + " runs out first"), std::string::npos)
        << example.everything_said();
    return;
  }
  EXPECT_NEAR(example.value_in(row.at("wanted"), row.at("unit")), row.number("expected"), row.number("tolerance"))
      << example.everything_said();
}

TEST(WorkedExamples, AreReproduced) {
  for (const Row& row : sash::test::read_table("known/workings/worked_examples.csv")) {
    SCOPED_TRACE(row.at("id") + " " + row.at("source"));
    expect_reproduced(row);
  }
}

}  // namespace
}  // namespace sash::workings
