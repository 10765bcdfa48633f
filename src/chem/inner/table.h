#pragma once
// Walks the tab-separated tables that are compiled in: a header row, then one row a line. A table of ours that does not
// read is a bug, so this promises instead of returning faults. Pure.

#include <functional>
#include <span>
#include <string_view>

namespace sash::chem::inner {

using TableRow = std::span<const std::string_view>;

/// Calls `take` with the cells of each row after the header. Requires: every row has as many cells as the header.
void each_row(std::string_view table, const std::function<void(TableRow)>& take);

/// The number in a cell. Requires: it is one.
double cell_number(std::string_view cell);
int cell_integer(std::string_view cell);

}  // namespace sash::chem::inner
