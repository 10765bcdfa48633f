#include "media/inner/codec.h"

#include <fmt/format.h>

#include <algorithm>
#include <thread>

#include "media/inner/file_look.h"
#include "support/check.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
}

namespace sash::media::inner {

namespace {

/// No camera writes larger pictures (16K by 9K); a head that claims more is damaged, and would take all memory.
constexpr std::int64_t most_pixels = 16384LL * 9216;

}  // namespace

Outcome<Owned<AVCodecContext>> open_codec(const Container& container, const AVStream& stream, int threads) {
  const std::string name = container.path().string();
  const AVCodec* codec = avcodec_find_decoder(stream.codecpar->codec_id);
  if (codec == nullptr) {
    return Fault::of(Code::unsupported,
                     fmt::format("{} is in {}, which cannot be decoded here; convert it and open that.",
                                 quoted(container.path()), avcodec_get_name(stream.codecpar->codec_id)),
                     name);
  }
  Owned<AVCodecContext> context(avcodec_alloc_context3(codec));
  promise(context != nullptr, "memory for a codec");
  const auto refuse = [&](int error) {
    return Fault::of(Code::damaged,
                     fmt::format("The {} decoder refuses {} ({}); copy the file from the camera again.", codec->name,
                                 quoted(container.path()), av_words(error)),
                     name);
  };
  if (const int r = avcodec_parameters_to_context(context.get(), stream.codecpar); r < 0) return refuse(r);
  context->pkt_timebase = stream.time_base;
  context->max_pixels = most_pixels;
  // More threads add delay to a single exact frame faster than they add speed.
  const int available = static_cast<int>(std::thread::hardware_concurrency());
  context->thread_count = threads > 0 ? threads : std::clamp(available, 1, 4);
  if (const int r = avcodec_open2(context.get(), codec, nullptr); r < 0) return refuse(r);
  return context;
}

}  // namespace sash::media::inner
