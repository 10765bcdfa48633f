#include "media/inner/sound_file.h"

#include <algorithm>
#include <cstring>

#include "media/inner/av.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libswresample/swresample.h>
}

namespace sash::media::inner {
namespace {

struct Memory {
  std::string_view bytes;
  std::size_t at = 0;

  static int read(void* self, std::uint8_t* to, int most) {
    auto& m = *static_cast<Memory*>(self);
    const auto count = std::min(static_cast<std::size_t>(most), m.bytes.size() - m.at);
    if (count == 0) return AVERROR_EOF;
    std::memcpy(to, m.bytes.data() + m.at, count);
    m.at += count;
    return static_cast<int>(count);
  }
};

struct IoFreeing {
  void operator()(AVIOContext* io) const noexcept {
    av_freep(&io->buffer);
    avio_context_free(&io);
  }
};

Fault damaged(int error) {
  return Fault::of(Code::damaged,
                   "The sound cannot be decoded (" + av_words(error) + "); the program's own file is damaged.");
}

}  // namespace

Outcome<MonoSound> decode_sound(std::string_view file_bytes) {
  hush_libav();
  Memory memory{file_bytes};
  constexpr int buffer_size = 1 << 15;
  const std::unique_ptr<AVIOContext, IoFreeing> io(avio_alloc_context(
      static_cast<unsigned char*>(av_malloc(buffer_size)), buffer_size, 0, &memory, &Memory::read, nullptr, nullptr));
  AVFormatContext* raw = avformat_alloc_context();
  raw->pb = io.get();
  if (const int opened = avformat_open_input(&raw, nullptr, nullptr, nullptr); opened < 0) return damaged(opened);
  const Owned<AVFormatContext> format(raw);
  if (const int found = avformat_find_stream_info(format.get(), nullptr); found < 0) return damaged(found);
  const AVCodec* decoder = nullptr;
  const int stream = av_find_best_stream(format.get(), AVMEDIA_TYPE_AUDIO, -1, -1, &decoder, 0);
  if (stream < 0) return damaged(stream);
  const Owned<AVCodecContext> codec(avcodec_alloc_context3(decoder));
  avcodec_parameters_to_context(codec.get(), format->streams[stream]->codecpar);
  if (const int opened = avcodec_open2(codec.get(), decoder, nullptr); opened < 0) return damaged(opened);

  MonoSound sound;
  sound.samples_per_second = codec->sample_rate;
  AVChannelLayout mono;
  av_channel_layout_default(&mono, 1);
  SwrContext* raw_mixer = nullptr;
  if (const int made = swr_alloc_set_opts2(&raw_mixer, &mono, AV_SAMPLE_FMT_FLT, codec->sample_rate, &codec->ch_layout,
                                           codec->sample_fmt, codec->sample_rate, 0, nullptr);
      made < 0) {
    return damaged(made);
  }
  const Owned<SwrContext> mixer(raw_mixer);
  if (const int begun = swr_init(mixer.get()); begun < 0) return damaged(begun);

  const auto packet = make_packet();
  const auto frame = make_frame();
  const auto take = [&] {
    while (avcodec_receive_frame(codec.get(), frame.get()) >= 0) {
      const std::size_t before = sound.samples.size();
      sound.samples.resize(before + static_cast<std::size_t>(frame->nb_samples));
      auto* out = reinterpret_cast<std::uint8_t*>(sound.samples.data() + before);
      swr_convert(mixer.get(), &out, frame->nb_samples, const_cast<const std::uint8_t**>(frame->extended_data),
                  frame->nb_samples);
    }
  };
  while (av_read_frame(format.get(), packet.get()) >= 0) {
    if (packet->stream_index == stream && avcodec_send_packet(codec.get(), packet.get()) >= 0) take();
    av_packet_unref(packet.get());
  }
  if (avcodec_send_packet(codec.get(), nullptr) >= 0) take();
  if (sound.samples.empty()) return damaged(AVERROR_INVALIDDATA);
  return sound;
}

}  // namespace sash::media::inner
