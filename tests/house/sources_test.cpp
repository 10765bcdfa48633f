// Every table names where each of its rows comes from.
#include <gtest/gtest.h>

#include <algorithm>

#include "house/tree.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::house {
namespace {

TEST(Sources, EveryShippedTableRowNamesItsSource) {
  const auto tables = files_below("assets/tables", {".tsv"});
  ASSERT_FALSE(tables.empty());
  for (const auto& table : tables) {
    std::optional<std::size_t> source;
    std::size_t row = 0;
    for (const auto line : split_lines(table.text)) {
      ++row;
      if (line.empty() || line.starts_with('#')) continue;
      const auto cells = split(line, '\t');
      if (!source) {
        const auto it =
            std::find_if(cells.begin(), cells.end(), [](auto c) { return c == "source" || c == "sources"; });
        ASSERT_NE(it, cells.end()) << table.path << " has no source column";
        source = static_cast<std::size_t>(it - cells.begin());
        continue;
      }
      ASSERT_GT(cells.size(), *source) << table.path << ":" << row;
      EXPECT_FALSE(trim(cells[*source]).empty()) << table.path << ":" << row << " names no source";
    }
  }
}

TEST(Sources, EveryKnownValueNamesItsSource) {
  const auto tables = files_below("tests/known", {".csv"});
  ASSERT_FALSE(tables.empty());
  for (const auto& table : tables) {
    const auto rows = test::read_table(table.path.substr(6));
    for (const auto& row : rows) {
      const bool has = row.cells.contains("source") && !trim(row.at("source")).empty();
      EXPECT_TRUE(has) << table.path << ":" << row.line << " names no source";
    }
  }
}

}  // namespace
}  // namespace sash::house
