#pragma once
// FrameIndex: the exact presentation time of every frame of one footage, and where decoding may begin for each. Made by
// one pass over the file's packets (index_builder.h), kept as bytes under the file's fingerprint, shared read-only.
// Knows nothing of the file itself. Immutable; safe from any thread.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "support/moment.h"
#include "support/outcome.h"

namespace sash::media {

/// One frame as it is shown.
struct Frame {
  Moment at;
  Moment lasts;                ///< until the next frame; for the last one, what its packet says
  std::int64_t position = -1;  ///< byte where its packet begins, -1 when the container does not say
  bool key = false;            ///< decoding may begin here
  bool operator==(const Frame&) const = default;
};

/// A place where decoding may begin. Frames shown before it are not decodable from here even when they come later in
/// the file.
struct KeyPlace {
  Moment at;                        ///< when its frame is shown
  std::optional<Moment> decode_at;  ///< its decoding time stamp, never later than `at`
  std::int64_t position = -1;
  bool operator==(const KeyPlace&) const = default;
};

/// A place where another recording was put behind the one before: its times begin anew there.
struct Join {
  std::int64_t position = -1;  ///< byte where its first picture packet begins
  Moment shift;                ///< to be added to its times as stamped
  bool operator==(const Join&) const = default;
};

/// Index 0 is the first frame shown.
class FrameIndex {
 public:
  /// Requires: frames sorted by `at`, all different; keys sorted by `at`; joins sorted by position.
  FrameIndex(std::vector<Frame> frames, std::vector<KeyPlace> keys, bool by_position, bool interlaced_fields,
             std::vector<Join> joins = {});

  std::size_t count() const { return frames_.size(); }
  bool empty() const { return frames_.empty(); }
  std::span<const Frame> frames() const { return frames_; }
  std::span<const KeyPlace> keys() const { return keys_; }
  std::span<const Join> joins() const { return joins_; }  ///< the sound joins where the picture does
  const Frame& frame(std::size_t i) const;                ///< Requires: i < count().

  /// From the first frame to the end of the last.
  Stretch extent() const;

  /// The frame on screen at `m`: the last that began at or before it; the first frame for times before it.
  /// Nothing when the index is empty.
  std::optional<std::size_t> frame_at(Moment m) const;
  std::optional<std::size_t> next(Moment m) const;      ///< the frame after the one on screen at `m`
  std::optional<std::size_t> previous(Moment m) const;  ///< the frame before the one on screen at `m`
  /// The frame whose packet begins at this byte; for containers without presentation times.
  std::optional<std::size_t> frame_from(std::int64_t position) const;
  /// Number of the key from which the frame shown at `m` is decoded: the last key shown at or before it.
  std::optional<std::size_t> key_for(Moment m) const;

  bool by_position() const { return by_position_; }  ///< frames are told apart by packet position, not by time stamps
  bool field_pictures() const { return fields_; }    ///< some frames were stored as two separate fields
  bool variable_rate() const;  ///< steps differ by more than the rounding of millisecond time stamps

  std::vector<std::uint8_t> to_bytes() const;
  /// Fails: newer_version; damaged (bytes that to_bytes did not write).
  static Outcome<FrameIndex> from_bytes(std::span<const std::uint8_t> bytes);

  bool operator==(const FrameIndex&) const = default;

 private:
  std::vector<Frame> frames_;
  std::vector<KeyPlace> keys_;
  std::vector<Join> joins_;
  std::vector<std::uint32_t> by_place_;  // frame numbers sorted by position; only where by_position_
  bool by_position_ = false;
  bool fields_ = false;
};

}  // namespace sash::media
