#include "media/inner/sound_reader.h"

#include <fmt/format.h>

#include <algorithm>

#include "media/inner/codec.h"
#include "media/inner/file_look.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/opt.h>
#include <libswresample/swresample.h>
}

namespace sash::media::inner {

SoundReader::SoundReader(Container container, Owned<AVCodecContext> codec, int rate, int channels)
    : container_(std::move(container)), codec_(std::move(codec)), rate_(rate), channels_(channels) {}

Outcome<SoundReader> SoundReader::open(const std::filesystem::path& path, int rate, int channels, Stop stop) {
  auto container = Container::open(path, std::move(stop));
  if (!container) return container.fault();
  const AVStream* sound = container->sound();
  if (sound == nullptr) {
    return Fault::of(Code::unsupported, fmt::format("{} has no sound.", quoted(path)), path.string());
  }
  container->only(*sound);
  auto codec = open_codec(*container, *sound, 1);
  if (!codec) return codec.fault();
  if (rate == 0) rate = (*codec)->sample_rate;
  if (rate <= 0) {
    return Fault::of(Code::damaged, fmt::format("The sound of {} names no sample rate; it is damaged.", quoted(path)),
                     path.string());
  }
  return SoundReader(std::move(*container), std::move(*codec), rate, channels);
}

void SoundReader::seek(Moment at) {
  const AVStream& sound = *container_.sound();
  avcodec_flush_buffers(codec_.get());
  resampler_.reset();
  expected_.reset();
  flushed_ = false;
  ended_ = false;
  cut_before_ = at;
  shift_ = Moment();
  joins_passed_ = 0;
  join_at_.reset();
  if (enter_by_index(at)) return;
  // A little early: the first frames after a jump may sound of what went before.
  const Moment early = at - Moment::millis(200);
  if (early <= Moment() || joined_ ||
      av_seek_frame(&container_.av(), sound.index, container_.stamp(sound, early), AVSEEK_FLAG_BACKWARD) < 0) {
    container_.rewind();
  }
}

bool SoundReader::enter_by_index(Moment at) {
  if (index_ == nullptr || !container_.by_byte()) return false;
  // Sound is stored up to about a second from the picture that is shown with it.
  const auto key = index_->key_for(at - Moment::seconds(1));
  if (!key) {
    container_.rewind();
    return true;
  }
  const std::int64_t position = index_->keys()[*key].position;
  if (position < 0 || av_seek_frame(&container_.av(), -1, position, AVSEEK_FLAG_BYTE) < 0) return false;
  for (const Join& join : index_->joins()) {
    if (join.position > position) break;
    shift_ = join.shift;
    ++joins_passed_;
  }
  return true;
}

Moment SoundReader::behind_joins(Moment stamped, std::int64_t position) {
  constexpr Moment tolerated = Moment::seconds(1);  // as for pictures, index_builder.cpp
  if (!container_.by_byte()) return stamped;
  const bool fell_back = expected_ && stamped + shift_ < *expected_ - tolerated;
  const auto joins = index_ != nullptr ? index_->joins() : std::span<const Join>();
  if (joins_passed_ < joins.size()) {
    // The first sound behind a join may be stored before the first picture there.
    if (fell_back || position >= joins[joins_passed_].position) {
      shift_ = joins[joins_passed_++].shift;
      join_at_ = expected_;
    }
  } else if (fell_back) {
    shift_ = *expected_ - stamped;
    joined_ = true;
  }
  return stamped + shift_;
}

/// Behind a join the sound begins a little before the one before it ended, or a little after: it is cut, or silence is
/// put before it, so that it plays on without a gap and in its place.
void SoundReader::fit_to_what_came_before(SoundBlock& block) {
  if (!join_at_) return;
  constexpr Moment longest = Moment::seconds(1);  // more is for the listener to fill
  const auto frames_in = [&](Moment length) {
    return static_cast<std::int64_t>(static_cast<WideInteger>(length.count()) * rate_ / Moment::per_second);
  };
  const Moment ended = *join_at_;
  const auto frames = static_cast<std::int64_t>(block.samples.size()) / channels_;
  if (block.at < ended) {
    const std::int64_t over = std::min(frames, frames_in(ended - block.at));
    block.samples.erase(block.samples.begin(), block.samples.begin() + over * channels_);
    block.at = block.at + Moment::rational(over, 1, rate_);
    if (over == frames) return;
  } else if (block.at - ended < longest) {
    const std::int64_t missing = frames_in(block.at - ended);
    block.samples.insert(block.samples.begin(), static_cast<std::size_t>(missing * channels_), 0.0F);
    block.at = block.at - Moment::rational(missing, 1, rate_);
  }
  join_at_.reset();
}

Outcome<bool> SoundReader::decode_one(AVFrame& into) {
  for (;;) {
    const int got = avcodec_receive_frame(codec_.get(), &into);
    if (got >= 0) return true;
    if (got == AVERROR_EOF || (got == AVERROR(EAGAIN) && flushed_)) return false;
    if (got != AVERROR(EAGAIN)) continue;
    if (container_.stopped()) return container_.cancelled();
    if (av_read_frame(&container_.av(), packet_.get()) < 0) {
      if (container_.stopped()) return container_.cancelled();
      flushed_ = true;
      avcodec_send_packet(codec_.get(), nullptr);
      continue;
    }
    // A packet the codec refuses is a gap, heard as silence.
    if (packet_->stream_index == container_.sound()->index) avcodec_send_packet(codec_.get(), packet_.get());
    av_packet_unref(packet_.get());
  }
}

std::optional<SoundBlock> SoundReader::convert(const AVFrame& f) {
  if (f.format != from_format_ || f.sample_rate != from_rate_ || f.ch_layout.nb_channels != from_channels_)
    resampler_.reset();
  if (resampler_ == nullptr) {
    AVChannelLayout from{};
    if (f.ch_layout.order == AV_CHANNEL_ORDER_UNSPEC) {
      av_channel_layout_default(&from, f.ch_layout.nb_channels);
    } else if (av_channel_layout_copy(&from, &f.ch_layout) < 0) {
      return std::nullopt;
    }
    AVChannelLayout to{};
    av_channel_layout_default(&to, channels_);
    SwrContext* made = nullptr;
    const int set = swr_alloc_set_opts2(&made, &to, AV_SAMPLE_FMT_FLT, rate_, &from,
                                        static_cast<AVSampleFormat>(f.format), f.sample_rate, 0, nullptr);
    av_channel_layout_uninit(&from);
    resampler_.reset(made);
    if (set < 0 || swr_init(made) < 0) {
      resampler_.reset();
      return std::nullopt;
    }
    from_format_ = f.format;
    from_rate_ = f.sample_rate;
    from_channels_ = f.ch_layout.nb_channels;
  }
  const AVStream& sound = *container_.sound();
  const Moment held = Moment::rational(swr_get_delay(resampler_.get(), f.sample_rate), 1, f.sample_rate);
  SoundBlock block;
  block.at = f.best_effort_timestamp != AV_NOPTS_VALUE
                 ? behind_joins(container_.moment(sound, f.best_effort_timestamp) - held, f.pkt_pos)
                 : expected_.value_or(Moment());
  const int most = swr_get_out_samples(resampler_.get(), f.nb_samples);
  block.samples.resize(static_cast<std::size_t>(std::max(most, 0)) * static_cast<std::size_t>(channels_));
  auto* out = reinterpret_cast<std::uint8_t*>(block.samples.data());
  const int made =
      swr_convert(resampler_.get(), &out, most, const_cast<const std::uint8_t**>(f.extended_data), f.nb_samples);
  block.samples.resize(static_cast<std::size_t>(std::max(made, 0)) * static_cast<std::size_t>(channels_));
  expected_ = block.at + Moment::rational(std::max(made, 0), 1, rate_);
  fit_to_what_came_before(block);
  return block;
}

Outcome<std::optional<SoundBlock>> SoundReader::next() {
  while (!ended_) {
    const auto got = decode_one(*frame_);
    if (!got) return got.fault();
    if (!*got) {
      ended_ = true;
      break;
    }
    auto block = convert(*frame_);
    av_frame_unref(frame_.get());
    if (!block || block->samples.empty()) continue;
    if (cut_before_) {
      const auto frames = static_cast<std::int64_t>(block->samples.size()) / channels_;
      if (block->at + Moment::rational(frames, 1, rate_) <= *cut_before_) continue;
      if (block->at < *cut_before_) {
        const WideInteger ticks = (*cut_before_ - block->at).count();
        const auto skip = std::min(frames, static_cast<std::int64_t>(ticks * rate_ / Moment::per_second));
        block->samples.erase(block->samples.begin(), block->samples.begin() + skip * channels_);
        block->at = block->at + Moment::rational(skip, 1, rate_);
      }
      cut_before_.reset();
    }
    return std::optional(std::move(*block));
  }
  return std::optional<SoundBlock>();
}

}  // namespace sash::media::inner
