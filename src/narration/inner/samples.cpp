#include "narration/inner/samples.h"

namespace sash::narration {

using quantity::Kind;

std::vector<Sample> samples_of(const Reading& reading) {
  const auto& figures = reading.figures;
  std::vector<Sample> samples;
  std::vector<std::size_t> place(figures.size(), 0);
  for (std::size_t i = 0; i < figures.size(); ++i) {
    if (figures[i].corrected_by) continue;
    const auto first = figures[i].same_sample_as;
    if (first && *first < i && !figures[*first].corrected_by) {
      place[i] = place[*first];
      samples[place[i]].members.push_back(i);
    } else {
      place[i] = samples.size();
      samples.push_back({{i}, {}, {}});
    }
  }
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const auto to = figures[i].attached_to;
    if (!to || figures[i].corrected_by || figures[*to].corrected_by) continue;
    Sample& sample = samples[place[*to]];
    switch (figures[i].kind) {
      case Kind::molar_concentration:
      case Kind::mass_concentration:
      case Kind::mass_percent:
      case Kind::volume_percent:
      case Kind::molality:
        // A strength said of the water it was made with is that of the solution, not of the water.
        if (figures[*to].subject != "water" || figures[i].subject == "water") sample.strengths.push_back(i);
        break;
      case Kind::density:
        sample.densities.push_back(i);
        break;
      default:
        break;
    }
  }
  return samples;
}

}  // namespace sash::narration
