#include "script/figures_csv.h"

#include <gtest/gtest.h>

#include "script/sample.h"
#include "support/text.h"

namespace sash::script {
namespace {

TEST(FiguresCsv, HasOneRowAFigureInFilmTimeAndDisarmsFormulas) {
  auto record = sample();
  record.figures[0].subject = "zinc, \"powder\"";
  const workings::Report report;
  const safety::Cover cover;
  const auto csv = figures_csv({record, report, cover, {}});
  const auto lines = split_lines(csv);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_TRUE(lines[1].starts_with("1,65.500,,'=2.0 g,mass,2,,g,exact,,,\"zinc, \"\"powder\"\"\",")) << lines[1];
  EXPECT_TRUE(csv.ends_with("\r\n"));  // RFC 4180, 2.1
}

TEST(FiguresCsv, LeavesRefusedProposalsOut) {
  auto record = sample();
  record.figures[0].origin.standing = model::Standing::refused;
  const workings::Report report;
  const safety::Cover cover;
  EXPECT_EQ(split_lines(figures_csv({record, report, cover, {}})).size(), 1U);
}

}  // namespace
}  // namespace sash::script
