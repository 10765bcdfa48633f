#include "workings/to_look_at.h"

namespace sash::workings {

std::optional<model::FigureId> figure_to_look_at(const Finding& finding) {
  if (!finding.culprits.empty() && !finding.culprits.front().should_be.empty())
    return finding.culprits.front().should_be.front().figure;
  if (finding.said) return finding.said->figure;
  if (!finding.figures.empty()) return finding.figures.front();
  return std::nullopt;
}

}  // namespace sash::workings
