#include "media/inner/av.h"

#include <array>
#include <mutex>

#include "support/check.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavfilter/avfilter.h>
#include <libavformat/avformat.h>
#include <libavutil/frame.h>
#include <libswresample/swresample.h>
#include <libswscale/swscale.h>
}

namespace sash::media::inner {

void Freeing::operator()(AVCodecContext* p) const noexcept { avcodec_free_context(&p); }
void Freeing::operator()(AVCodecParserContext* p) const noexcept { av_parser_close(p); }
void Freeing::operator()(AVFilterGraph* p) const noexcept { avfilter_graph_free(&p); }
void Freeing::operator()(AVFormatContext* p) const noexcept { avformat_close_input(&p); }
void Freeing::operator()(AVFrame* p) const noexcept { av_frame_free(&p); }
void Freeing::operator()(AVPacket* p) const noexcept { av_packet_free(&p); }
void Freeing::operator()(SwrContext* p) const noexcept { swr_free(&p); }
void Freeing::operator()(SwsContext* p) const noexcept { sws_freeContext(p); }

Owned<AVFrame> make_frame() {
  Owned<AVFrame> f(av_frame_alloc());
  promise(f != nullptr, "memory for a frame");
  return f;
}

Owned<AVPacket> make_packet() {
  Owned<AVPacket> p(av_packet_alloc());
  promise(p != nullptr, "memory for a packet");
  return p;
}

std::string av_words(int error) {
  std::array<char, AV_ERROR_MAX_STRING_SIZE> text{};
  av_strerror(error, text.data(), text.size());
  return text.data();
}

void hush_libav() {
  static std::once_flag once;
  std::call_once(once, [] { av_log_set_callback([](void*, int, const char*, va_list) {}); });
}

}  // namespace sash::media::inner
