#include "demo/lines.h"

#include "embedded/demo_narration.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::demo {

std::vector<SpokenLine> spoken_lines() {
  std::vector<SpokenLine> out;
  const auto rows = split_lines(embedded::demo_narration);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto cells = split(rows[i], '\t');
    promise(cells.size() == 3, "three columns in the demo narration");
    const auto from = read_number(cells[0]);
    const auto until = read_number(cells[1]);
    promise(from && until, "times in the demo narration");
    out.push_back({{Moment::seconds(*from), Moment::seconds(*until)}, std::string(cells[2])});
  }
  return out;
}

}  // namespace sash::demo
