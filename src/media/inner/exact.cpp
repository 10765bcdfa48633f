#include "media/inner/exact.h"

#include <fmt/format.h>

#include "media/inner/file_look.h"

namespace sash::media::inner {

Outcome<PicturePtr> find_picture(VideoReader& reader, Moment target, Moment lead, const OnTheWay& on_the_way) {
  const FrameIndex* index = reader.index();
  if (index != nullptr) {
    // Known exactly: the search ends at the frame itself instead of at the one after it.
    if (const auto i = index->frame_at(target)) target = index->frame(*i).at;
  }
  if (const Done placed = reader.go(target, target - lead); !placed) return placed.fault();
  // Reading on: the picture given last may itself be the one still on screen at `target`.
  PicturePtr before = reader.last();
  Moment back = Moment::seconds(1);
  for (;;) {
    auto next = reader.next();
    if (!next) return next.fault();
    const PicturePtr& picture = *next;
    if (picture == nullptr) break;
    if (on_the_way && !on_the_way(picture)) return PicturePtr();
    if (index != nullptr && picture->at == target) return picture;
    if (picture->at > target && before == nullptr && index == nullptr && back <= target + Moment::seconds(2)) {
      // Landed between the two fields of the frame wanted, or on a key that shows later: enter further back.
      if (const Done placed = reader.seek(target - back, target - lead); !placed) return placed.fault();
      back = back + back;
      continue;
    }
    if (picture->at > target) {
      if (before == nullptr) before = picture;
      break;
    }
    before = picture;
  }
  if (before != nullptr) return before;
  const std::string name = reader.container().path().string();
  return Fault::of(Code::damaged,
                   fmt::format("No picture of {} can be decoded at {:.3f} s; the file is damaged there.",
                               quoted(reader.container().path()), target.in_seconds()),
                   name);
}

}  // namespace sash::media::inner
