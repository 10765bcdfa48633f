#include "desk/shown/film.h"

#include <algorithm>
#include <map>

namespace sash::desk {
namespace {

constexpr Moment room_after_last =
    Moment::seconds(5);  // so that the last pin of an unmeasured footage is not at its end

// The latest moment anything of the record is pinned to, per footage.
std::map<model::FootageId, Moment> latest_pins(const model::Record& record) {
  std::map<model::FootageId, Moment> latest;
  const auto take = [&](model::FootageId footage, Moment end) {
    Moment& last = latest[footage];
    last = std::max(last, end);
  };
  const auto take_place = [&](const model::Place& p) { take(p.footage, p.until.value_or(p.from)); };
  for (const auto& line : record.lines) take(line.footage, line.when.until);
  for (const auto& figure : record.figures) take_place(figure.place);
  for (const auto& hazard : record.hazards) take_place(hazard.place);
  for (const auto& callout : record.callouts) take_place(callout.place);
  for (const auto& note : record.notes) take_place(note.place);
  for (const auto& chapter : record.chapters) take_place(chapter.place);
  return latest;
}

}  // namespace

Film::Film(const model::Record& record) {
  const auto footages = model::in_order(record);
  const bool all_known =
      !footages.empty() &&
      std::all_of(footages.begin(), footages.end(), [](const model::Footage* f) { return f->duration > Moment(); });
  const auto latest = all_known ? std::map<model::FootageId, Moment>() : latest_pins(record);
  Moment start;
  const auto add = [&](model::FootageId id, Moment length) {
    reels_.push_back({id, start, length});
    start = start + length;
  };
  for (const model::Footage* f : footages) {
    const auto pinned = latest.find(f->id);
    const Moment by_pins = (pinned == latest.end() ? Moment() : pinned->second) + room_after_last;
    add(f->id, f->duration > Moment() ? f->duration : by_pins);
  }
  if (reels_.empty() && !latest.empty()) {
    Moment last;
    for (const auto& [id, end] : latest) last = std::max(last, end);
    add(latest.begin()->first, last + room_after_last);
  }
}

Moment Film::length() const { return reels_.empty() ? Moment() : reels_.back().start + reels_.back().length; }

const Film::Reel* Film::reel(model::FootageId footage) const {
  const auto it = std::find_if(reels_.begin(), reels_.end(), [&](const Reel& r) { return r.footage == footage; });
  if (it != reels_.end()) return &*it;
  return reels_.empty() ? nullptr : &reels_.front();
}

Moment Film::to_film(model::FootageId footage, Moment at) const {
  const Reel* r = reel(footage);
  return r == nullptr ? at : r->start + at;
}

Stretch Film::stretch(const model::Place& place, bool open_ended) const {
  const Moment from = to_film(place);
  if (place.until) return {from, to_film(place.footage, *place.until)};
  const Reel* r = reel(place.footage);
  return {from, open_ended && r != nullptr ? std::max(from, r->start + r->length) : from};
}

Film::Spot Film::from_film(Moment film) const {
  if (reels_.empty()) return {};
  film = std::clamp(film, Moment(), length());
  auto it = std::upper_bound(reels_.begin(), reels_.end(), film, [](Moment m, const Reel& r) { return m < r.start; });
  const Reel& r = *std::prev(it);
  return {r.footage, std::min(film - r.start, r.length)};
}

}  // namespace sash::desk
