#pragma once
// Owners for libav's objects, without libav's headers: the types are only named here, freed in av.cpp.
// Private to media. The owners follow libav: one object, one thread at a time.

#include <memory>
#include <string>

extern "C" {
struct AVCodecContext;
struct AVCodecParserContext;
struct AVFilterGraph;
struct AVFormatContext;
struct AVFrame;
struct AVPacket;
struct AVStream;
struct SwrContext;
struct SwsContext;
}

namespace sash::media::inner {

struct Freeing {
  void operator()(AVCodecContext* p) const noexcept;
  void operator()(AVCodecParserContext* p) const noexcept;
  void operator()(AVFilterGraph* p) const noexcept;
  void operator()(AVFormatContext* p) const noexcept;
  void operator()(AVFrame* p) const noexcept;
  void operator()(AVPacket* p) const noexcept;
  void operator()(SwrContext* p) const noexcept;
  void operator()(SwsContext* p) const noexcept;
};

template <class T>
using Owned = std::unique_ptr<T, Freeing>;

Owned<AVFrame> make_frame();
Owned<AVPacket> make_packet();

/// libav's words for an error number, without its full stop.
std::string av_words(int error);

/// libav is silent from the first call on: the engine never prints.
void hush_libav();

}  // namespace sash::media::inner
