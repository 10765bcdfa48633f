#include "media/inner/video_reader.h"

#include <fmt/format.h>

#include <algorithm>

#include "media/inner/codec.h"
#include "media/inner/file_look.h"
#include "support/check.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
}

namespace sash::media::inner {
namespace {

StreamLook look_of(const Container& c) {
  AVStream& s = *c.picture();
  const AVCodecParameters& p = *s.codecpar;
  StreamLook look;
  look.tags = tags_of(p.color_space, p.color_primaries, p.color_trc, p.color_range);
  const AVRational aspect = av_guess_sample_aspect_ratio(&c.av(), &s, nullptr);
  if (aspect.num > 0 && aspect.den > 0) look.pixel_aspect = {aspect.num, aspect.den};
  if (const std::uint8_t* matrix = av_stream_get_side_data(&s, AV_PKT_DATA_DISPLAYMATRIX, nullptr)) {
    look.orientation = orientation_of(reinterpret_cast<const std::int32_t*>(matrix));
  }
  return look;
}

bool is_field_coded(AVFieldOrder order) { return order != AV_FIELD_UNKNOWN && order != AV_FIELD_PROGRESSIVE; }

}  // namespace

VideoReader::VideoReader(Container container, Owned<AVCodecContext> codec, Options options)
    : container_(std::move(container)), codec_(std::move(codec)), options_(options), look_(look_of(container_)) {
  const AVCodecParameters& p = *container_.picture()->codecpar;
  weaving_ = options_.deinterlace && is_field_coded(p.field_order);
  // Leaving out frames nobody refers to was checked frame by frame for these two; fields refer to each other.
  may_skip_ = (p.codec_id == AV_CODEC_ID_H264 || p.codec_id == AV_CODEC_ID_HEVC) && !is_field_coded(p.field_order);
}

Outcome<VideoReader> VideoReader::open(const std::filesystem::path& path, Options options, Stop stop) {
  auto container = Container::open(path, std::move(stop));
  if (!container) return container.fault();
  if (container->picture() == nullptr) {
    return Fault::of(Code::unsupported, fmt::format("{} has sound only: there is no picture to show.", quoted(path)),
                     path.string());
  }
  container->only(*container->picture());
  auto codec = open_codec(*container, *container->picture(), options.threads);
  if (!codec) return codec.fault();
  return VideoReader(std::move(*container), std::move(*codec), options);
}

void VideoReader::use_index(std::shared_ptr<const FrameIndex> index) {
  index_ = std::move(index);
  chained_ =
      index_ != nullptr && index_->by_position() &&
      std::any_of(index_->frames().begin(), index_->frames().end(), [](const Frame& f) { return f.position < 0; });
}

bool VideoReader::is_ours(const AVPacket& p) const {
  return p.stream_index == container_.picture()->index && (p.flags & AV_PKT_FLAG_CORRUPT) == 0;
}

std::optional<Moment> VideoReader::packet_time(const AVPacket& p) const {
  if (index_ != nullptr && index_->by_position()) {
    const auto i = index_->frame_from(p.pos);
    return i ? std::optional(index_->frame(*i).at) : std::nullopt;
  }
  if (p.pts == AV_NOPTS_VALUE) return std::nullopt;
  return container_.moment(*container_.picture(), p.pts);
}

void VideoReader::reset() {
  avcodec_flush_buffers(codec_.get());
  weaver_.restart();
  ready_.clear();
  av_packet_unref(packet_.get());
  held_ = false;
  flushed_ = false;
  ended_ = false;
  last_.reset();
  gaps_ = false;
  floor_.reset();
  until_.reset();
  from_start_ = false;
}

bool VideoReader::first_key_packet() {
  av_packet_unref(packet_.get());
  held_ = false;
  while (!container_.stopped() && av_read_frame(&container_.av(), packet_.get()) >= 0) {
    if (is_ours(*packet_) && (packet_->flags & AV_PKT_FLAG_KEY) != 0) {
      held_ = true;
      return true;
    }
    av_packet_unref(packet_.get());
  }
  return false;
}

/// Some demuxers guess the time after a jump (MXF without its index tables): then the packet has another time than the
/// index has for its place. Decoding times are compared only where there is nothing better: some demuxers work them out
/// from the packets before.
bool VideoReader::has_time_of_index() const {
  if (index_ == nullptr || container_.by_byte() || packet_->pos < 0) return true;
  const auto keys = index_->keys();
  const auto here =
      std::find_if(keys.begin(), keys.end(), [&](const KeyPlace& k) { return k.position == packet_->pos; });
  if (const auto at = packet_time(*packet_)) return here == keys.end() || here->at == *at;
  if (here == keys.end() || !here->decode_at || packet_->dts == AV_NOPTS_VALUE) return true;
  return *here->decode_at == container_.moment(*container_.picture(), packet_->dts);
}

bool VideoReader::land(const KeyPlace& key) {
  const AVStream& stream = *container_.picture();
  const auto at_or_before = [&] {
    if (!first_key_packet()) return false;
    if (const auto landed = packet_time(*packet_)) return *landed <= key.at && has_time_of_index();
    return key.position >= 0 && packet_->pos <= key.position && has_time_of_index();
  };
  const auto by_time = [&](Moment m) {
    return av_seek_frame(&container_.av(), stream.index, container_.stamp(stream, m), AVSEEK_FLAG_BACKWARD) >= 0 &&
           at_or_before();
  };
  if (container_.by_byte() && key.position >= 0) {
    return av_seek_frame(&container_.av(), -1, key.position, AVSEEK_FLAG_BYTE) >= 0 && at_or_before();
  }
  // Containers file keys under their presentation or their decoding time: whichever lands on the key or before it is
  // right.
  const bool has_times = index_ != nullptr && !index_->by_position();
  if (has_times && by_time(key.at)) return true;
  return key.decode_at && by_time(*key.decode_at);
}

bool VideoReader::land_without_index(Moment target) {
  const AVStream& stream = *container_.picture();
  for (Moment back; back < Moment::seconds(64); back = back + std::max(back, Moment::seconds(1))) {
    const Moment to = target - back;
    if (av_seek_frame(&container_.av(), stream.index, container_.stamp(stream, to), AVSEEK_FLAG_BACKWARD) >= 0 &&
        first_key_packet()) {
      const auto landed = packet_time(*packet_);
      if (landed && *landed <= target) return true;
    }
    if (container_.stopped() || to < Moment()) return false;
  }
  return false;
}

Done VideoReader::seek(Moment target, Moment whole_from, std::size_t keys_back) {
  reset();
  whole_from_ = whole_from;
  bool landed = false;
  if (index_ != nullptr) {
    const auto key = index_->key_for(target);
    // A container that will not land on the key is given a few earlier ones before all is read from the start.
    for (std::size_t back = keys_back; key && back <= *key && back <= keys_back + 2 && !landed; ++back) {
      landed = land(index_->keys()[*key - back]);
    }
  } else if (target > Moment()) {
    landed = land_without_index(target);
  }
  if (container_.stopped()) return container_.cancelled();
  if (!landed) {
    container_.rewind();
    if (!first_key_packet()) {
      if (container_.stopped()) return container_.cancelled();
      ended_ = true;
      return {};
    }
    from_start_ = target <= Moment();
  }
  // Frames shown before the landing key lean on what was not read. At the very first key the index knows which are
  // whole.
  const auto at = packet_time(*packet_);
  const bool first = index_ != nullptr && !index_->keys().empty() && at && *at <= index_->keys().front().at;
  if (!first) floor_ = at;
  return {};
}

int VideoReader::send_next_packet() {
  if (!held_) {
    for (;;) {
      if (container_.stopped()) return AVERROR_EXIT;
      const int read = av_read_frame(&container_.av(), packet_.get());
      if (read < 0) {
        if (container_.stopped()) return AVERROR_EXIT;
        flushed_ = true;
        avcodec_send_packet(codec_.get(), nullptr);
        return 0;
      }
      if (is_ours(*packet_)) break;
      av_packet_unref(packet_.get());
    }
  }
  held_ = false;
  const auto at = packet_time(*packet_);
  const bool unwanted = index_ != nullptr && at && *at < whole_from_;
  const bool skip = may_skip_ && !chained_ && (index_ == nullptr || !index_->field_pictures()) && (unwanted || sparse_);
  if (skip && !unwanted) gaps_ = true;
  codec_->skip_frame = skip ? AVDISCARD_NONREF : AVDISCARD_DEFAULT;
  // A packet the codec refuses is a damaged frame: the next one may be whole.
  avcodec_send_packet(codec_.get(), packet_.get());
  av_packet_unref(packet_.get());
  return 0;
}

std::optional<Moment> VideoReader::time_of(const AVFrame& frame) const {
  if (index_ != nullptr && index_->by_position()) {
    if (frame.pkt_pos < 0) return chained_ ? until_ : std::nullopt;
    const auto i = index_->frame_from(frame.pkt_pos);
    return i ? std::optional(index_->frame(*i).at) : std::nullopt;
  }
  if (frame.best_effort_timestamp != AV_NOPTS_VALUE) {
    return container_.moment(*container_.picture(), frame.best_effort_timestamp);
  }
  // Bare streams carry no times; until their index is there, the first frame at least is known to stand at the start.
  if (index_ == nullptr && from_start_ && last_ == nullptr && ready_.empty()) return Moment();
  // The very last frames may come without a time: they follow the one before, as in the index.
  return flushed_ ? until_ : std::nullopt;
}

std::optional<Decoded> VideoReader::timed(Owned<AVFrame> frame) {
  const auto at = time_of(*frame);
  if (!at) return std::nullopt;
  Decoded d{std::move(frame), *at, {}};
  until_.reset();
  if (floor_ && d.at < *floor_) return std::nullopt;
  if (index_ != nullptr) {
    const auto i = index_->frame_at(d.at);
    if (!i || index_->frame(*i).at != d.at) return std::nullopt;  // broken or hidden: not a frame of this footage
    d.lasts = index_->frame(*i).lasts;
  } else {
    d.lasts = container_.length(*container_.picture(), d.frame->pkt_duration);
  }
  if (d.lasts > Moment()) until_ = d.at + d.lasts;
  return d;
}

PicturePtr VideoReader::to_picture(Decoded d) const { return picture_from(std::move(d.frame), look_, d.at, d.lasts); }

Outcome<PicturePtr> VideoReader::next() {
  for (;;) {
    while (!ready_.empty()) {
      Decoded d = std::move(ready_.front());
      ready_.pop_front();
      if (PicturePtr p = to_picture(std::move(d))) {
        last_ = p;
        return p;
      }
    }
    if (ended_) return PicturePtr();
    auto frame = make_frame();
    const int got = avcodec_receive_frame(codec_.get(), frame.get());
    if (got == AVERROR(EAGAIN) && !flushed_) {
      if (send_next_packet() == AVERROR_EXIT) return container_.cancelled();
      continue;
    }
    if (got == AVERROR_EOF || (got == AVERROR(EAGAIN) && flushed_)) {
      ended_ = true;
      for (Decoded& d : weaver_.finish()) ready_.push_back(std::move(d));
      continue;
    }
    if (got < 0) continue;  // one damaged frame
    if (options_.deinterlace && frame->interlaced_frame != 0) weaving_ = true;
    auto d = timed(std::move(frame));
    if (!d) continue;
    if (weaving_ && d->at >= whole_from_) {
      for (Decoded& woven : weaver_.push(std::move(*d))) ready_.push_back(std::move(woven));
    } else {
      ready_.push_back(std::move(*d));
    }
  }
}

PicturePtr VideoReader::key_picture() {
  if (!held_ || (index_ != nullptr && index_->field_pictures())) return nullptr;
  codec_->skip_frame = AVDISCARD_DEFAULT;
  PicturePtr picture;
  if (avcodec_send_packet(codec_.get(), packet_.get()) >= 0) {
    avcodec_send_packet(codec_.get(), nullptr);
    auto frame = make_frame();
    if (avcodec_receive_frame(codec_.get(), frame.get()) >= 0) {
      if (auto d = timed(std::move(frame))) picture = to_picture(std::move(*d));
    }
  }
  avcodec_flush_buffers(codec_.get());
  return picture;
}

PicturePtr VideoReader::key_picture_of(std::size_t k) {
  promise(index_ != nullptr && k < index_->keys().size(), "a key of the index");
  if (!seek(index_->keys()[k].at, Moment())) return nullptr;
  return key_picture();
}

bool VideoReader::reading_on_is_nearer(Moment target, Moment whole_from) const {
  if (last_ == nullptr || ended_ || gaps_ || target <= last_->at) return false;
  // Frames not yet given may already have been left out.
  if (last_->at < whole_from_ && whole_from < whole_from_) return false;
  if (index_ == nullptr) return target - last_->at < Moment::seconds(1);
  // Reading on passes every frame between; a seek starts at the target's key.
  const auto key = index_->key_for(target);
  return key && index_->keys()[*key].at <= last_->at;
}

Done VideoReader::go(Moment target, Moment whole_from) {
  if (!reading_on_is_nearer(target, whole_from)) return seek(target, whole_from);
  whole_from_ = std::max(whole_from, whole_from_);
  return {};
}

}  // namespace sash::media::inner
