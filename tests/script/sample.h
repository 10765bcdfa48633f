#pragma once
// A small record for the script's tests: two footages, a line, a figure, a hazard with a callout.

#include "model/record.h"

namespace sash::script {

inline model::Record sample() {
  model::Record r;
  r.bench.title = "Zinc & acid <trial>";
  r.footages = {{{1}, "one.mp4", "", "One", Moment::seconds(60), 0},
                {{2}, "two.mp4", "", "Two", Moment::seconds(30), 1}};
  model::NarrationLine line;
  line.id = {1};
  line.footage = {2};
  line.when = {Moment::seconds(5), Moment::seconds(8)};
  line.text = "Then 2.0 g of zinc & <stir>";
  r.lines = {line};
  model::Figure figure;
  figure.id = {1};
  figure.place = {{2}, Moment::seconds(5.5), std::nullopt};
  figure.words = model::Words{{1}, 5, 5};
  figure.kind = quantity::Kind::mass;
  figure.reading = model::Reading{2, std::nullopt, "2.0", "g", model::Hedge::exact};
  figure.subject = "zinc";
  figure.label = "=2.0 g";
  r.figures = {figure};
  model::Hazard hazard;
  hazard.id = {1};
  hazard.place = {{1}, Moment::seconds(20), Moment::seconds(30)};
  hazard.cause = "hydrogen";
  hazard.route = model::Route::fire;
  r.hazards = {hazard};
  model::Callout callout;
  callout.id = {1};
  callout.place = {{1}, Moment::seconds(17), Moment::seconds(25)};
  callout.text = "WARNING Hydrogen burns.\nNo flames.";
  callout.hazards = {{1}};
  r.callouts = {callout};
  r.chapters = {{{1}, {{1}, Moment::seconds(4), std::nullopt}, "Acid\nfirst"},
                {{2}, {{2}, Moment::seconds(1), std::nullopt}, "Zinc"}};
  return r;
}

}  // namespace sash::script
