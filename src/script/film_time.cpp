#include "script/film_time.h"

#include <fmt/format.h>

#include <algorithm>

namespace sash::script {
namespace {

std::string hours_minutes_seconds(std::int64_t seconds) {
  if (seconds >= 3600) return fmt::format("{}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60);
  return fmt::format("{}:{:02}", seconds / 60, seconds % 60);
}

}  // namespace

FilmTime::FilmTime(const model::Record& record) {
  Moment start;
  for (const auto* footage : model::in_order(record)) {
    starts_[footage->id] = start;
    start = start + footage->duration;
  }
}

Moment FilmTime::of(model::FootageId footage, Moment at) const {
  const auto it = starts_.find(footage);
  return it != starts_.end() ? it->second + at : at;
}

Stretch FilmTime::span(const model::Place& place) const {
  return {of(place), of(place.footage, place.until.value_or(place.from))};
}

std::string clock_text(Moment at) {
  return hours_minutes_seconds(std::max<std::int64_t>(0, at.count()) / Moment::per_second);
}

std::string precise_text(Moment at) {
  const std::int64_t tenths = std::max<std::int64_t>(0, at.count()) / (Moment::per_second / 10);
  return fmt::format("{}.{}", hours_minutes_seconds(tenths / 10), tenths % 10);
}

}  // namespace sash::script
