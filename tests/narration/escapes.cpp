#include "escapes.h"

#include <cstdlib>

#include "support/check.h"

namespace sash::narration::test {

std::string unescaped(std::string_view cell) {
  constexpr std::string_view letters = "nrtfv0\\";
  constexpr std::string_view bytes("\n\r\t\f\v\0\\", 7);
  std::string out;
  for (std::size_t i = 0; i < cell.size(); ++i) {
    if (cell[i] != '\\') {
      out += cell[i];
      continue;
    }
    ++i;
    promise(i < cell.size(), "a cell ends in the middle of an escape");
    if (cell[i] == 'x') {
      promise(i + 2 < cell.size(), "a cell ends in the middle of an escape");
      out += static_cast<char>(std::strtol(std::string(cell.substr(i + 1, 2)).c_str(), nullptr, 16));
      i += 2;
      continue;
    }
    const std::size_t which = letters.find(cell[i]);
    promise(which != std::string_view::npos, "a cell has an unknown escape");
    out += bytes[which];
  }
  return out;
}

}  // namespace sash::narration::test
