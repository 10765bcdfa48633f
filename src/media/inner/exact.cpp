#include "media/inner/exact.h"

#include <fmt/format.h>

#include "media/inner/file_look.h"

namespace sash::media::inner {

namespace {

/// Where to enter when the key nearest before the target did not lead to it. A stream refreshed bit by bit shows whole
/// pictures only some frames behind the key, and what was stored right behind a key may be lost at the end; one key
/// further back helps with both. Without an index it is tried further and further back.
class EntryFurtherBack {
 public:
  EntryFurtherBack(const FrameIndex* index, Moment target) : index_(index), target_(target) {}

  /// False when there is no place left to try.
  Outcome<bool> place(VideoReader& reader, Moment whole_from) {
    constexpr std::size_t most_keys = 2;
    const bool exhausted = index_ != nullptr ? keys_ == most_keys : back_ > target_ + Moment::seconds(2);
    if (exhausted) return false;
    const Done placed =
        index_ != nullptr ? reader.seek(target_, whole_from, ++keys_) : reader.seek(target_ - back_, whole_from);
    if (!placed) return placed.fault();
    back_ = back_ + back_;
    return true;
  }

 private:
  const FrameIndex* index_;
  Moment target_;
  std::size_t keys_ = 0;
  Moment back_ = Moment::seconds(1);
};

}  // namespace

Outcome<PicturePtr> find_picture(VideoReader& reader, Moment target, Moment lead, const OnTheWay& on_the_way) {
  const FrameIndex* index = reader.index();
  if (index != nullptr) {
    // Known exactly: the search ends at the frame itself instead of at the one after it.
    if (const auto i = index->frame_at(target)) target = index->frame(*i).at;
  }
  if (const Done placed = reader.go(target, target - lead); !placed) return placed.fault();
  // Reading on: the picture given last may itself be the one still on screen at `target`.
  PicturePtr before = reader.last();
  PicturePtr after;
  EntryFurtherBack entry(index, target);
  for (;;) {
    auto next = reader.next();
    if (!next) return next.fault();
    const PicturePtr& picture = *next;
    if (picture != nullptr) {
      if (on_the_way && !on_the_way(picture)) return PicturePtr();
      if (index != nullptr && picture->at == target) return picture;
      if (picture->at <= target) {
        before = picture;
        continue;
      }
      if (after == nullptr || picture->at < after->at) after = picture;
    }
    // The index knows of a frame that did not come. Without one, only having passed the target unseen tells.
    const bool missed = index != nullptr || before == nullptr;
    if (!missed) break;
    const auto again = entry.place(reader, target - lead);
    if (!again) return again.fault();
    if (!*again) break;
  }
  if (before == nullptr) before = after;
  if (before != nullptr) return before;
  const std::string name = reader.container().path().string();
  return Fault::of(Code::damaged,
                   fmt::format("No picture of {} can be decoded at {:.3f} s; the file is damaged there.",
                               quoted(reader.container().path()), target.in_seconds()),
                   name);
}

}  // namespace sash::media::inner
