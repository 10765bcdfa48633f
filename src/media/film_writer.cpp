#include "media/film_writer.h"

#include <algorithm>
#include <cstring>
#include <deque>
#include <vector>

#include "media/inner/av.h"
#include "media/inner/sound_file.h"
#include "support/check.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/opt.h>
#include <libswscale/swscale.h>
}

namespace sash::media {
namespace {

using inner::av_words;
using inner::Owned;

struct OutputFreeing {
  void operator()(AVFormatContext* format) const noexcept {
    if (format->pb != nullptr) avio_closep(&format->pb);
    avformat_free_context(format);
  }
};

constexpr int sound_bits_per_second = 96'000;

}  // namespace

struct FilmWriter::State {
  std::string path;
  Size size;
  std::unique_ptr<AVFormatContext, OutputFreeing> format;
  Owned<AVCodecContext> picture_codec;
  AVStream* picture_stream = nullptr;
  Owned<AVCodecContext> sound_codec;
  AVStream* sound_stream = nullptr;
  std::vector<float> sound;     // mono
  std::size_t sound_given = 0;  // samples handed to the encoder
  Owned<SwsContext> scaler;
  std::int64_t pictures = 0;
  bool header_written = false;

  Fault refused(int error) const {
    return Fault::of(
        Code::unreadable,
        "The film '" + path + "' cannot be written (" + av_words(error) + "); check the folder and the free space.",
        path);
  }

  // Whatever the encoder has ready goes to the file.
  Done drain(AVCodecContext& codec, AVStream& stream) {
    const auto packet = inner::make_packet();
    for (;;) {
      const int got = avcodec_receive_packet(&codec, packet.get());
      if (got == AVERROR(EAGAIN) || got == AVERROR_EOF) return {};
      if (got < 0) return refused(got);
      av_packet_rescale_ts(packet.get(), codec.time_base, stream.time_base);
      packet->stream_index = stream.index;
      if (const int written = av_interleaved_write_frame(format.get(), packet.get()); written < 0)
        return refused(written);
    }
  }

  Done open_sound(int samples_per_second) {
    const AVCodec* codec = avcodec_find_encoder(AV_CODEC_ID_AAC);
    if (codec == nullptr)
      return Fault::of(Code::unsupported,
                       "This build of libav has no AAC encoder, so a film with sound cannot be made.");
    sound_codec.reset(avcodec_alloc_context3(codec));
    sound_codec->sample_fmt = AV_SAMPLE_FMT_FLTP;
    sound_codec->sample_rate = samples_per_second;
    sound_codec->bit_rate = sound_bits_per_second;
    sound_codec->time_base = {1, samples_per_second};
    av_channel_layout_default(&sound_codec->ch_layout, 1);
    sound_codec->flags |= AV_CODEC_FLAG_GLOBAL_HEADER | AV_CODEC_FLAG_BITEXACT;
    if (const int opened = avcodec_open2(sound_codec.get(), codec, nullptr); opened < 0) return refused(opened);
    sound_stream = avformat_new_stream(format.get(), nullptr);
    sound_stream->time_base = sound_codec->time_base;
    avcodec_parameters_from_context(sound_stream->codecpar, sound_codec.get());
    return {};
  }

  // Encodes the sound up to `seconds`, so that picture and sound lie beside each other in the file.
  Done sound_until(double seconds) {
    if (!sound_codec) return {};
    const auto wanted = std::min(sound.size(), static_cast<std::size_t>(seconds * sound_codec->sample_rate));
    while (sound_given < wanted) {
      const auto count =
          std::min<std::size_t>(static_cast<std::size_t>(sound_codec->frame_size), sound.size() - sound_given);
      const auto frame = inner::make_frame();
      frame->format = sound_codec->sample_fmt;
      frame->sample_rate = sound_codec->sample_rate;
      frame->nb_samples = static_cast<int>(count);
      av_channel_layout_copy(&frame->ch_layout, &sound_codec->ch_layout);
      if (const int got = av_frame_get_buffer(frame.get(), 0); got < 0) return refused(got);
      std::memcpy(frame->data[0], sound.data() + sound_given, count * sizeof(float));
      frame->pts = static_cast<std::int64_t>(sound_given);
      sound_given += count;
      if (const int sent = avcodec_send_frame(sound_codec.get(), frame.get()); sent < 0) return refused(sent);
      if (Done done = drain(*sound_codec, *sound_stream); !done) return done;
    }
    return {};
  }

  Done write_header() {
    if (header_written) return {};
    header_written = true;
    const int written = avformat_write_header(format.get(), nullptr);
    return written < 0 ? Done(refused(written)) : Done();
  }
};

FilmWriter::FilmWriter(std::unique_ptr<State> state) : state_(std::move(state)) {}
FilmWriter::FilmWriter(FilmWriter&&) noexcept = default;
FilmWriter& FilmWriter::operator=(FilmWriter&&) noexcept = default;
FilmWriter::~FilmWriter() = default;

Outcome<FilmWriter> FilmWriter::create(const std::string& path, Size size, Rate rate) {
  promise(!size.empty() && size.width % 2 == 0 && size.height % 2 == 0, "an even picture size");
  promise(rate.num > 0 && rate.den > 0, "a positive frame rate");
  inner::hush_libav();
  auto state = std::make_unique<State>();
  state->path = path;
  state->size = size;
  AVFormatContext* format = nullptr;
  if (const int made = avformat_alloc_output_context2(&format, nullptr, "mp4", path.c_str()); made < 0)
    return state->refused(made);
  state->format.reset(format);
  format->flags |= AVFMT_FLAG_BITEXACT;

  const AVCodec* codec = avcodec_find_encoder(AV_CODEC_ID_H264);
  if (codec == nullptr)
    return Fault::of(Code::unsupported, "This build of libav has no H.264 encoder, so a film cannot be made.");
  state->picture_codec.reset(avcodec_alloc_context3(codec));
  AVCodecContext& c = *state->picture_codec;
  c.width = size.width;
  c.height = size.height;
  c.pix_fmt = AV_PIX_FMT_YUV420P;
  c.time_base = {static_cast<int>(rate.den), static_cast<int>(rate.num)};
  c.framerate = {static_cast<int>(rate.num), static_cast<int>(rate.den)};
  c.color_range = AVCOL_RANGE_MPEG;
  c.colorspace = AVCOL_SPC_BT709;
  c.color_primaries = AVCOL_PRI_BT709;
  c.color_trc = AVCOL_TRC_BT709;
  c.gop_size = static_cast<int>(2 * rate.num / rate.den);
  c.flags |= AV_CODEC_FLAG_GLOBAL_HEADER | AV_CODEC_FLAG_BITEXACT;
  c.thread_count = 2;  // a fixed number: the same pictures give the same file on every machine
  av_opt_set(c.priv_data, "preset", "veryfast", 0);
  av_opt_set(c.priv_data, "crf", "21", 0);
  if (const int opened = avcodec_open2(&c, codec, nullptr); opened < 0) return state->refused(opened);
  state->picture_stream = avformat_new_stream(format, nullptr);
  state->picture_stream->time_base = c.time_base;
  state->picture_stream->avg_frame_rate = c.framerate;
  avcodec_parameters_from_context(state->picture_stream->codecpar, &c);
  if (const int opened = avio_open(&format->pb, path.c_str(), AVIO_FLAG_WRITE); opened < 0)
    return state->refused(opened);

  state->scaler.reset(sws_getContext(size.width, size.height, AV_PIX_FMT_BGR0, size.width, size.height,
                                     AV_PIX_FMT_YUV420P, SWS_BILINEAR | SWS_ACCURATE_RND, nullptr, nullptr, nullptr));
  const int* bt709 = sws_getCoefficients(SWS_CS_ITU709);
  sws_setColorspaceDetails(state->scaler.get(), bt709, 1, bt709, 0, 0, 1 << 16, 1 << 16);
  return FilmWriter(std::move(state));
}

Done FilmWriter::set_sound(std::string_view file_bytes) {
  promise(!state_->header_written && !state_->sound_codec, "the sound is set once, before the first picture");
  auto sound = inner::decode_sound(file_bytes);
  if (!sound) return sound.fault();
  state_->sound = std::move(sound->samples);
  return state_->open_sound(sound->samples_per_second);
}

Done FilmWriter::add_picture(const std::uint8_t* bgra, int stride) {
  State& s = *state_;
  if (Done done = s.write_header(); !done) return done;
  const auto frame = inner::make_frame();
  frame->format = AV_PIX_FMT_YUV420P;
  frame->width = s.size.width;
  frame->height = s.size.height;
  if (const int got = av_frame_get_buffer(frame.get(), 0); got < 0) return s.refused(got);
  const std::uint8_t* rows[] = {bgra};
  const int strides[] = {stride};
  sws_scale(s.scaler.get(), rows, strides, 0, s.size.height, frame->data, frame->linesize);
  frame->pts = s.pictures++;
  frame->color_range = AVCOL_RANGE_MPEG;
  frame->colorspace = AVCOL_SPC_BT709;
  if (const int sent = avcodec_send_frame(s.picture_codec.get(), frame.get()); sent < 0) return s.refused(sent);
  if (Done done = s.drain(*s.picture_codec, *s.picture_stream); !done) return done;
  return s.sound_until(static_cast<double>(s.pictures) * av_q2d(s.picture_codec->time_base));
}

Done FilmWriter::finish() {
  State& s = *state_;
  if (Done done = s.write_header(); !done) return done;
  if (const int sent = avcodec_send_frame(s.picture_codec.get(), nullptr); sent < 0) return s.refused(sent);
  if (Done done = s.drain(*s.picture_codec, *s.picture_stream); !done) return done;
  if (s.sound_codec) {
    const double length = static_cast<double>(s.pictures) * av_q2d(s.picture_codec->time_base);
    if (Done done = s.sound_until(length); !done) return done;
    if (const int sent = avcodec_send_frame(s.sound_codec.get(), nullptr); sent < 0) return s.refused(sent);
    if (Done done = s.drain(*s.sound_codec, *s.sound_stream); !done) return done;
  }
  if (const int written = av_write_trailer(s.format.get()); written < 0) return s.refused(written);
  if (const int closed = avio_closep(&s.format->pb); closed < 0) return s.refused(closed);
  return {};
}

}  // namespace sash::media
