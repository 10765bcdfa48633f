#pragma once
// SoundReader: decodes one footage's sound to interleaved float frames at one rate and channel count, each block with
// the Moment of its first sample. Private to media; one thread.

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "media/frame_index.h"
#include "media/inner/container.h"
#include "support/outcome.h"

namespace sash::media::inner {

struct SoundBlock {
  Moment at;                   ///< of the first sample
  std::vector<float> samples;  ///< interleaved
};

class SoundReader {
 public:
  /// `rate` 0 keeps the file's. `channels` is 1 (all averaged) or 2.
  /// Fails: as probe(); unsupported (no sound).
  static Outcome<SoundReader> open(const std::filesystem::path& path, int rate, int channels, Stop stop);

  int rate() const { return rate_; }
  int channels() const { return channels_; }

  /// From the next seek on MPEG streams are entered where the index says, and the sound behind a join keeps its place
  /// beside the picture. Without it the sound goes on where it ended.
  void use_index(std::shared_ptr<const FrameIndex> index) { index_ = std::move(index); }

  /// The next block will be the one that holds `at`, or the first after it; earlier samples are cut off.
  void seek(Moment at);
  /// Nothing at the end. Fails: cancelled.
  Outcome<std::optional<SoundBlock>> next();

  const Container& container() const { return container_; }

 private:
  SoundReader(Container container, Owned<AVCodecContext> codec, int rate, int channels);
  Outcome<bool> decode_one(AVFrame& into);
  std::optional<SoundBlock> convert(const AVFrame& frame);
  bool enter_by_index(Moment at);
  /// Streams put end to end begin their times anew.
  Moment behind_joins(Moment stamped, std::int64_t position);
  void fit_to_what_came_before(SoundBlock& block);

  Container container_;
  Owned<AVCodecContext> codec_;
  Owned<SwrContext> resampler_;
  Owned<AVPacket> packet_ = make_packet();
  Owned<AVFrame> frame_ = make_frame();
  int rate_;
  int channels_;
  // What the resampler was made for.
  int from_format_ = -1;
  int from_rate_ = 0;
  int from_channels_ = 0;
  std::optional<Moment> expected_;  // end of the block before: where a frame without a time stamp goes
  std::optional<Moment> cut_before_;
  std::shared_ptr<const FrameIndex> index_;
  std::size_t joins_passed_ = 0;   // of the index
  std::optional<Moment> join_at_;  // a join was just passed: the sound before it ended here
  Moment shift_;                   // of the times stamped, behind a join
  bool joined_ = false;            // a join was passed: only reading from the start leads to a time behind it
  bool flushed_ = false;
  bool ended_ = false;
};

}  // namespace sash::media::inner
