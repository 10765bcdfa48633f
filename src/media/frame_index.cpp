#include "media/frame_index.h"

#include <algorithm>

#include "media/inner/bytes.h"
#include "support/check.h"

namespace sash::media {
namespace {

constexpr std::string_view magic = "SashFrames";
constexpr std::uint64_t version = 5;

constexpr std::uint64_t flag_by_position = 1;
constexpr std::uint64_t flag_fields = 2;

}  // namespace

FrameIndex::FrameIndex(std::vector<Frame> frames, std::vector<KeyPlace> keys, bool by_position, bool interlaced_fields,
                       std::vector<Join> joins)
    : frames_(std::move(frames)),
      keys_(std::move(keys)),
      joins_(std::move(joins)),
      by_position_(by_position),
      fields_(interlaced_fields) {
  for (std::size_t i = 1; i < frames_.size(); ++i) {
    promise(frames_[i - 1].at < frames_[i].at, "frames sorted by time, all different");
    frames_[i - 1].lasts = frames_[i].at - frames_[i - 1].at;
  }
  promise(std::is_sorted(keys_.begin(), keys_.end(), [](const auto& a, const auto& b) { return a.at < b.at; }),
          "keys sorted by time");
  if (!by_position_) return;
  by_place_.reserve(frames_.size());
  for (std::uint32_t i = 0; i < frames_.size(); ++i) by_place_.push_back(i);
  std::stable_sort(by_place_.begin(), by_place_.end(),
                   [this](auto a, auto b) { return frames_[a].position < frames_[b].position; });
}

const Frame& FrameIndex::frame(std::size_t i) const {
  promise(i < frames_.size(), "a frame number inside the index");
  return frames_[i];
}

Stretch FrameIndex::extent() const {
  if (empty()) return {};
  return {frames_.front().at, frames_.back().at + frames_.back().lasts};
}

std::optional<std::size_t> FrameIndex::frame_at(Moment m) const {
  if (empty()) return std::nullopt;
  const auto after =
      std::upper_bound(frames_.begin(), frames_.end(), m, [](Moment t, const Frame& f) { return t < f.at; });
  return after == frames_.begin() ? 0 : static_cast<std::size_t>(after - frames_.begin()) - 1;
}

std::optional<std::size_t> FrameIndex::next(Moment m) const {
  const auto here = frame_at(m);
  if (!here || *here + 1 >= count()) return std::nullopt;
  return *here + 1;
}

std::optional<std::size_t> FrameIndex::previous(Moment m) const {
  const auto here = frame_at(m);
  if (!here || *here == 0) return std::nullopt;
  return *here - 1;
}

std::optional<std::size_t> FrameIndex::frame_from(std::int64_t position) const {
  const auto found = std::lower_bound(by_place_.begin(), by_place_.end(), position,
                                      [this](auto i, std::int64_t p) { return frames_[i].position < p; });
  if (found == by_place_.end() || frames_[*found].position != position) return std::nullopt;
  return *found;
}

std::optional<std::size_t> FrameIndex::key_for(Moment m) const {
  const auto after =
      std::upper_bound(keys_.begin(), keys_.end(), m, [](Moment t, const KeyPlace& k) { return t < k.at; });
  if (after == keys_.begin()) return std::nullopt;
  return static_cast<std::size_t>(after - keys_.begin()) - 1;
}

bool FrameIndex::variable_rate() const {
  if (count() < 3) return false;
  Moment shortest = frames_[0].lasts;
  Moment longest = shortest;
  for (std::size_t i = 1; i + 1 < count(); ++i) {
    shortest = std::min(shortest, frames_[i].lasts);
    longest = std::max(longest, frames_[i].lasts);
  }
  // Containers that count milliseconds make a steady 29.97 alternate between 33 and 34 ms.
  return longest - shortest > Moment::ticks(Moment::per_second * 3 / 2000);
}

std::vector<std::uint8_t> FrameIndex::to_bytes() const {
  inner::ByteWriter out(magic);
  out.whole(version);
  out.whole((by_position_ ? flag_by_position : 0) | (fields_ ? flag_fields : 0));
  out.whole(frames_.size());
  Frame before;
  for (const Frame& f : frames_) {
    out.signed_whole((f.at - before.at).count());
    out.signed_whole(f.position - before.position);
    out.whole(f.key ? 1 : 0);
    before = f;
  }
  out.signed_whole(before.lasts.count());
  out.whole(keys_.size());
  KeyPlace last;
  for (const KeyPlace& k : keys_) {
    out.signed_whole((k.at - last.at).count());
    out.signed_whole(k.position - last.position);
    out.whole(k.decode_at ? 1 : 0);
    if (k.decode_at) out.signed_whole((k.at - *k.decode_at).count());
    last = k;
  }
  out.whole(joins_.size());
  for (const Join& j : joins_) {
    out.signed_whole(j.position);
    out.signed_whole(j.shift.count());
  }
  return std::move(out).finish();
}

Outcome<FrameIndex> FrameIndex::from_bytes(std::span<const std::uint8_t> bytes) {
  const Fault damaged = Fault::of(Code::damaged, "The kept frame index is damaged; it will be made again.");
  auto in = inner::ByteReader::of(bytes, magic);
  if (!in) return damaged;
  const auto made_by = in->whole();
  if (!made_by) return damaged;
  if (*made_by != version) {
    return Fault::of(Code::newer_version,
                     "The kept frame index was written by another version; it will be made again.");
  }
  const auto flags = in->whole();
  const auto frame_count = in->whole();
  // Each frame takes at least three bytes: a count beyond that is a lie, found before memory is asked for.
  if (!flags || !frame_count || *frame_count > in->left() / 3) return damaged;

  std::vector<Frame> frames(*frame_count);
  Frame before;
  for (Frame& f : frames) {
    const auto step = in->signed_whole();
    const auto hop = in->signed_whole();
    const auto key = in->whole();
    if (!step || !hop || !key) return damaged;
    f.at = before.at + Moment::ticks(*step);
    f.position = before.position + *hop;
    f.key = *key == 1;
    if (&f != &frames.front() && f.at <= before.at) return damaged;
    before = f;
  }
  const auto lasts = in->signed_whole();
  const auto key_count = in->whole();
  if (!lasts || !key_count || *key_count > in->left() / 3) return damaged;
  if (!frames.empty()) frames.back().lasts = Moment::ticks(*lasts);

  std::vector<KeyPlace> keys(*key_count);
  KeyPlace last;
  for (KeyPlace& k : keys) {
    const auto step = in->signed_whole();
    const auto hop = in->signed_whole();
    const auto has = in->whole();
    if (!step || !hop || !has) return damaged;
    k.at = last.at + Moment::ticks(*step);
    k.position = last.position + *hop;
    if (*has == 1) {
      const auto earlier = in->signed_whole();
      if (!earlier) return damaged;
      k.decode_at = k.at - Moment::ticks(*earlier);
    }
    if (&k != &keys.front() && k.at < last.at) return damaged;
    last = k;
  }
  const auto join_count = in->whole();
  if (!join_count || *join_count > in->left() / 2) return damaged;
  std::vector<Join> joins(*join_count);
  for (Join& j : joins) {
    const auto position = in->signed_whole();
    const auto shift = in->signed_whole();
    if (!position || !shift) return damaged;
    j = {*position, Moment::ticks(*shift)};
  }
  if (in->left() != 0) return damaged;
  return FrameIndex(std::move(frames), std::move(keys), (*flags & flag_by_position) != 0, (*flags & flag_fields) != 0,
                    std::move(joins));
}

}  // namespace sash::media
