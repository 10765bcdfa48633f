#include "narration/inner/usual_hydrates.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace sash::narration {

std::optional<std::string> usual_hydrate(const std::string& substance) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 36> sold{{
      {"aluminium sulfate", "octadecahydrate"},
      {"ammonium iron(II) sulfate", "hexahydrate"},
      {"ammonium oxalate", "monohydrate"},
      {"barium chloride", "dihydrate"},
      {"calcium chloride", "dihydrate"},
      {"calcium nitrate", "tetrahydrate"},
      {"citric acid", "monohydrate"},
      {"cobalt(II) chloride", "hexahydrate"},
      {"copper(II) acetate", "monohydrate"},
      {"copper(II) chloride", "dihydrate"},
      {"copper(II) nitrate", "trihydrate"},
      {"copper(II) sulfate", "pentahydrate"},
      {"iron(II) chloride", "tetrahydrate"},
      {"iron(II) sulfate", "heptahydrate"},
      {"iron(III) chloride", "hexahydrate"},
      {"iron(III) nitrate", "nonahydrate"},
      {"lead(II) acetate", "trihydrate"},
      {"magnesium chloride", "hexahydrate"},
      {"magnesium sulfate", "heptahydrate"},
      {"manganese(II) sulfate", "monohydrate"},
      {"nickel(II) chloride", "hexahydrate"},
      {"nickel(II) sulfate", "hexahydrate"},
      {"oxalic acid", "dihydrate"},
      {"potassium aluminium sulfate", "dodecahydrate"},
      {"potassium oxalate", "monohydrate"},
      {"potassium sodium tartrate", "tetrahydrate"},
      {"sodium acetate", "trihydrate"},
      {"sodium carbonate", "decahydrate"},
      {"sodium citrate", "dihydrate"},
      {"sodium sulfate", "decahydrate"},
      {"sodium tetraborate", "decahydrate"},
      {"sodium thiosulfate", "pentahydrate"},
      {"strontium chloride", "hexahydrate"},
      {"tin(II) chloride", "dihydrate"},
      {"zinc acetate", "dihydrate"},
      {"zinc sulfate", "heptahydrate"},
  }};
  const auto row = std::find_if(sold.begin(), sold.end(), [&](const auto& r) { return r.first == substance; });
  if (row == sold.end()) return std::nullopt;
  return substance + " " + std::string(row->second);
}

}  // namespace sash::narration
