#include "chem/inner/table.h"

#include <vector>

#include "support/check.h"
#include "support/text.h"

namespace sash::chem::inner {

void each_row(std::string_view table, const std::function<void(TableRow)>& take) {
  std::size_t width = 0;
  for (const std::string_view line : split_lines(table)) {
    const std::vector<std::string_view> cells = split(line, '\t');
    if (width == 0) {
      width = cells.size();
      continue;
    }
    promise(cells.size() == width, "every row of a compiled-in table has a cell for each column");
    take(cells);
  }
}

double cell_number(std::string_view cell) {
  const auto number = read_number(cell);
  promise(number.has_value(), "a number stands where a compiled-in table promises one");
  return *number;
}

int cell_integer(std::string_view cell) {
  const auto number = read_integer(cell);
  promise(number.has_value(), "an integer stands where a compiled-in table promises one");
  return static_cast<int>(*number);
}

}  // namespace sash::chem::inner
