#pragma once
// Container: one opened media file, with the streams that matter chosen and the border between libav's time stamps and
// Moments kept in one place. Opening is the same each time, so two openings give equal Moments for equal frames.
// Private to media; one thread at a time. Reading ends early when `stop` says so.

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "media/inner/av.h"
#include "support/moment.h"
#include "support/outcome.h"

namespace sash::media::inner {

/// True when the work should end; asked often, from the reading thread.
using Stop = std::function<bool()>;

class Container {
 public:
  /// Fails: as probe().
  static Outcome<Container> open(const std::filesystem::path& path, Stop stop);

  AVFormatContext& av() const { return *format_; }
  const std::filesystem::path& path() const { return path_; }
  std::int64_t bytes() const { return bytes_; }

  AVStream* picture() const { return picture_; }  ///< null when there is none; cover art does not count
  AVStream* sound() const { return sound_; }      ///< null when there is none

  /// When a time stamp of `stream` is, from the container's start. Requires: `stamp` is one (not AV_NOPTS_VALUE).
  Moment moment(const AVStream& stream, std::int64_t stamp) const;
  Moment length(const AVStream& stream, std::int64_t units) const;
  /// The stamp nearest to `m`: the inverse of moment().
  std::int64_t stamp(const AVStream& stream, Moment m) const;

  Moment start_of(const AVStream& stream) const;                  ///< the container's start when not said
  std::optional<Moment> length_of(const AVStream& stream) const;  ///< as claimed
  std::optional<Moment> claimed_duration() const;                 ///< picture and sound; a cut file claims too much

  bool stopped() const { return *stop_ && (*stop_)(); }
  /// MPEG streams have no index: they are entered at a byte, and rewound to byte 0.
  bool by_byte() const { return by_byte_; }
  /// Back to the first packet.
  void rewind();
  /// Packets of all other streams are not even handed out.
  void only(const AVStream& stream);

  Fault cancelled() const;

 private:
  Container() = default;
  std::filesystem::path path_;
  std::int64_t bytes_ = 0;
  std::unique_ptr<Stop> stop_;  // before format_: its interrupt callback points here
  Owned<AVFormatContext> format_;
  AVStream* picture_ = nullptr;
  AVStream* sound_ = nullptr;
  Moment origin_;
  bool by_byte_ = false;
};

}  // namespace sash::media::inner
