#pragma once
// Time in the whole film, all footages one after the other, and how it is written for people. Pure.

#include <map>
#include <string>

#include "model/record.h"

namespace sash::script {

/// Where each footage begins in the film; looked up often, so worked out once.
class FilmTime {
 public:
  explicit FilmTime(const model::Record& record);
  Moment of(model::FootageId footage, Moment at) const;
  Moment of(const model::Place& place) const { return of(place.footage, place.from); }
  /// From start to end; a pin without span has its start twice.
  Stretch span(const model::Place& place) const;

 private:
  std::map<model::FootageId, Moment> starts_;
};

std::string clock_text(Moment at);    ///< "2:05", "1:02:05": whole seconds, rounded down
std::string precise_text(Moment at);  ///< "2:05.3", "1:02:05.3": tenths, rounded down

}  // namespace sash::script
