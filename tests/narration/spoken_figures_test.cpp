// What is a figure and of which kind, one sentence for each rule (tests/known/narration/spoken_figures.csv, the
// sentences are our own; the labels' rules are those that tests/known/narration/README.md tells).

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "narration/figures.h"
#include "quantity/kind.h"
#include "tools/table.h"

namespace sash::narration {
namespace {

/// "mass 655 g; temperature 60,65 Cel", in the order they are said.
std::string figures_in(const std::string& spoken) {
  model::NarrationLine line;
  line.text = spoken;
  const std::vector<model::NarrationLine> lines{line};
  std::string all;
  for (const SpokenFigure& f : read_figures(std::span(lines)).figures) {
    const std::string upper = f.reading.upper ? fmt::format(",{:g}", *f.reading.upper) : "";
    all += fmt::format("{}{} {:g}{} {}", all.empty() ? "" : "; ", quantity::kind_name(f.kind), f.reading.value, upper,
                       f.reading.unit);
  }
  return all;
}

TEST(SpokenFigures, AreFoundAndOfTheirKind) {
  for (const test::Row& row : test::read_table("known/narration/spoken_figures.csv")) {
    EXPECT_EQ(figures_in(row.at("spoken")), row.at("figures")) << row.at("rule") << ": " << row.at("spoken");
  }
}

}  // namespace
}  // namespace sash::narration
