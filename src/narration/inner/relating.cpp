#include "narration/inner/relating.h"

#include "narration/inner/arithmetic.h"
#include "narration/inner/chains.h"
#include "narration/inner/currents.h"
#include "narration/inner/gases.h"
#include "narration/inner/heats.h"
#include "narration/inner/ledger.h"
#include "narration/inner/portions.h"
#include "narration/inner/proportions.h"
#include "narration/inner/reacting.h"
#include "narration/inner/solutions.h"
#include "narration/inner/wiring.h"
#include "narration/inner/yields.h"

namespace sash::narration {

std::string without_water(const std::string& substance) {
  const std::size_t last = substance.rfind(' ');
  return last != std::string::npos && substance.ends_with("hydrate") ? substance.substr(0, last) : substance;
}

std::string substance_of(const std::string& subject) {
  constexpr std::string_view solution = " solution";
  if (subject.ends_with(solution)) return subject.substr(0, subject.size() - solution.size());
  return subject;
}

std::vector<SpokenRelation> relate(const Reading& reading, std::span<const model::NarrationLine> lines) {
  const Ledger told(reading, lines);
  Wirings ways(told);
  wire_portions(told, ways);
  wire_gases(told, ways);
  wire_arithmetic(told, ways);
  wire_solutions(told, ways);
  wire_yields(told, ways);
  wire_reactions(told, ways);
  wire_currents(told, ways);
  wire_proportions(told, ways);
  wire_heats(told, ways);
  std::vector<SpokenRelation> found = ways.chosen();
  for (SpokenRelation& chain : chains(reading.figures, found)) found.push_back(std::move(chain));
  return found;
}

}  // namespace sash::narration
