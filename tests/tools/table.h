#pragma once
// Reads the data tables that tests are driven by (CSV with a header row, RFC 4180 quoting, UTF-8).
// A missing file or a missing column aborts the test program with a sentence: a check must not pass by reading nothing.

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace sash::test {

/// One row: column name to text.
struct Row {
  std::map<std::string, std::string> cells;
  std::size_t line = 0;  ///< where it starts in the file, from 1

  const std::string& at(const std::string& column) const;  ///< aborts when there is no such column
  double number(const std::string& column) const;          ///< aborts when the cell is no number
  /// The cell "a=1; b=x" as a map.
  std::map<std::string, std::string> pairs(const std::string& column) const;
};

/// Rows of tests/`path`. Aborts when the file cannot be read or holds no row.
std::vector<Row> read_table(const std::string& path);

/// The bytes of a file of the source tree, named from its root. Aborts when it cannot be read.
std::string read_source_file(const std::string& path);

}  // namespace sash::test
