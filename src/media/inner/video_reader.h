#pragma once
// VideoReader: decodes one footage's pictures in the order they are shown, from wherever it was placed, each with its
// exact Moment. Knows which key to enter at and checks that it landed there. Keeps nothing and decides nothing about
// what to show. Private to media; one thread.

#include <deque>
#include <filesystem>
#include <memory>
#include <optional>

#include "media/frame_index.h"
#include "media/inner/container.h"
#include "media/inner/deinterlacer.h"
#include "media/inner/picture_from.h"
#include "media/picture.h"
#include "support/outcome.h"

namespace sash::media::inner {

class VideoReader {
 public:
  struct Options {
    int threads = 0;
    bool deinterlace = true;
  };
  /// Fails: as probe(); unsupported (no picture).
  static Outcome<VideoReader> open(const std::filesystem::path& path, Options options, Stop stop);

  void use_index(std::shared_ptr<const FrameIndex> index);
  const FrameIndex* index() const { return index_.get(); }

  /// Places the reader at the last key from which the frame on screen at `target` can be decoded.
  /// Frames before `whole_from` may be left out where nothing depends on them. `keys_back` enters that many keys
  /// earlier, where the nearest one did not lead to the frame; only with an index.
  Done seek(Moment target, Moment whole_from, std::size_t keys_back = 0);

  /// As seek(), or simply reads on where that reaches `target` sooner.
  Done go(Moment target, Moment whole_from);

  /// Whether go() would read on.
  bool reading_on_is_nearer(Moment target, Moment whole_from) const;

  /// Only the picture of the key just landed on, at once; reading goes on from there afterwards. Null when the codec
  /// needs more. Requires: directly after seek(); then next() starts with the key again.
  PicturePtr key_picture();

  /// The next picture; null at the end. Fails: cancelled.
  Outcome<PicturePtr> next();

  /// Places the reader at the key numbered `k` and gives only that key's picture. Requires: an index.
  PicturePtr key_picture_of(std::size_t k);

  /// For playing faster than every frame can be shown: frames nothing depends on are not decoded from here on.
  void leave_out_unreferenced(bool yes) { sparse_ = yes; }
  /// Whether that happened since the last seek: pictures given do not all follow each other.
  bool has_gaps() const { return gaps_; }

  /// The picture next() gave last since it was placed; null when none.
  const PicturePtr& last() const { return last_; }

  bool stopped() const { return container_.stopped(); }
  const Container& container() const { return container_; }

 private:
  VideoReader(Container container, Owned<AVCodecContext> codec, Options options);
  bool land(const KeyPlace& key);
  bool has_time_of_index() const;
  bool land_without_index(Moment target);
  bool first_key_packet();
  bool is_ours(const AVPacket& packet) const;
  std::optional<Moment> packet_time(const AVPacket& packet) const;
  void reset();
  int send_next_packet();
  std::optional<Moment> time_of(const AVFrame& frame) const;
  std::optional<Decoded> timed(Owned<AVFrame> frame);
  PicturePtr to_picture(Decoded d) const;

  Container container_;
  Owned<AVCodecContext> codec_;
  Options options_;
  StreamLook look_;
  std::shared_ptr<const FrameIndex> index_;
  Owned<AVPacket> packet_ = make_packet();
  bool held_ = false;  // packet_ was read and not yet sent
  bool flushed_ = false;
  bool ended_ = false;
  bool chained_ = false;         // some frames have no position to be known by: they follow the one before
  bool may_skip_ = false;        // non-reference frames may be left out before whole_from_
  std::optional<Moment> floor_;  // frames before the landing key are not whole
  std::optional<Moment> until_;  // end of the frame timed last
  bool from_start_ = false;      // reading began at the first key because the start was asked for
  Moment whole_from_;
  PicturePtr last_;      // the last one given since the seek
  bool sparse_ = false;  // non-reference frames are not wanted
  bool gaps_ = false;    // and some were left out since the seek
  bool weaving_ = false;
  Deinterlacer weaver_;
  std::deque<Decoded> ready_;
};

}  // namespace sash::media::inner
