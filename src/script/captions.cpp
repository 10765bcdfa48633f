#include "script/captions.h"

#include <algorithm>

#include "safety/callout_text.h"
#include "script/film_time.h"

namespace sash::script {
namespace {

// High in the picture, so that the captions of the narration keep their place.
constexpr const char* top_of_picture = "line:8%";

void in_order_of_time(std::vector<narration::Cue>& cues) {
  std::stable_sort(cues.begin(), cues.end(), [](const auto& a, const auto& b) { return a.from < b.from; });
}

}  // namespace

std::vector<narration::Cue> narration_cues(const model::Record& record) {
  const FilmTime film(record);
  std::vector<narration::Cue> cues;
  for (const auto& line : record.lines) {
    if (line.noise || line.text.empty()) continue;
    cues.push_back(
        {film.of(line.footage, line.when.from), film.of(line.footage, line.when.until), line.text, line.speaker, {}});
  }
  in_order_of_time(cues);
  return cues;
}

std::vector<narration::Cue> callout_cues(const model::Record& record) {
  const FilmTime film(record);
  std::vector<narration::Cue> cues;
  for (const auto& callout : record.callouts) {
    if (callout.origin.standing == model::Standing::refused || callout.text.empty()) continue;
    const Stretch span = film.span(callout.place);
    cues.push_back({span.from, span.until, safety::read_text(callout), {}, top_of_picture});
  }
  in_order_of_time(cues);
  return cues;
}

}  // namespace sash::script
