#include "media/image_file.h"

#include <algorithm>
#include <cmath>

#include "media/inner/av.h"
#include "support/check.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libswscale/swscale.h>
}

namespace sash::media {
namespace {

using inner::Owned;

Outcome<std::vector<std::uint8_t>> encode(const RgbaImage& image, AVCodecID id, AVPixelFormat format, int jpeg_scale) {
  if (image.size.empty() || image.size.width > 65500 || image.size.height > 65500) {
    return Fault::of(Code::out_of_range, "A picture file needs a picture of 1 to 65500 pixels each way.");
  }
  promise(image.pixels.size() ==
              static_cast<std::size_t>(image.size.width) * static_cast<std::size_t>(image.size.height) * 4,
          "four bytes for each pixel");
  inner::hush_libav();
  const AVCodec* codec = avcodec_find_encoder(id);
  promise(codec != nullptr, "libavcodec with its PNG and JPEG encoders");
  const Owned<AVCodecContext> context(avcodec_alloc_context3(codec));
  context->width = image.size.width;
  context->height = image.size.height;
  context->pix_fmt = format;
  context->time_base = {1, 25};
  context->thread_count = 1;
  context->flags |= AV_CODEC_FLAG_BITEXACT;  // no program name inside
  context->color_range = AVCOL_RANGE_JPEG;
  if (jpeg_scale > 0) {
    context->flags |= AV_CODEC_FLAG_QSCALE;
    context->global_quality = FF_QP2LAMBDA * jpeg_scale;
    context->qmin = 1;
    context->qmax = 31;
  }

  const Owned<AVFrame> frame = inner::make_frame();
  frame->format = format;
  frame->width = image.size.width;
  frame->height = image.size.height;
  frame->color_range = AVCOL_RANGE_JPEG;
  frame->quality = context->global_quality;
  frame->pts = 0;
  promise(av_frame_get_buffer(frame.get(), 64) >= 0, "memory for a picture");
  const Owned<SwsContext> scaler(
      sws_getContext(image.size.width, image.size.height, AV_PIX_FMT_RGBA, image.size.width, image.size.height, format,
                     SWS_POINT | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INP, nullptr, nullptr, nullptr));
  promise(scaler != nullptr, "a scaler from RGBA");
  const int* coefficients = sws_getCoefficients(SWS_CS_ITU601);
  sws_setColorspaceDetails(scaler.get(), coefficients, 1, coefficients, 1, 0, 1 << 16, 1 << 16);
  const std::uint8_t* planes[4] = {image.pixels.data()};
  const int strides[4] = {image.size.width * 4};
  sws_scale(scaler.get(), planes, strides, 0, image.size.height, frame->data, frame->linesize);

  const Owned<AVPacket> packet = inner::make_packet();
  const bool done = avcodec_open2(context.get(), codec, nullptr) >= 0 &&
                    avcodec_send_frame(context.get(), frame.get()) >= 0 &&
                    avcodec_receive_packet(context.get(), packet.get()) >= 0;
  promise(done, "a picture file made in memory");
  return std::vector<std::uint8_t>(packet->data, packet->data + packet->size);
}

}  // namespace

Outcome<std::vector<std::uint8_t>> png_bytes(const RgbaImage& image) {
  return encode(image, AV_CODEC_ID_PNG, AV_PIX_FMT_RGB24, 0);
}

Outcome<std::vector<std::uint8_t>> jpeg_bytes(const RgbaImage& image, int quality) {
  if (quality < 1 || quality > 100) {
    return Fault::of(Code::out_of_range, "The quality of a JPEG file goes from 1 to 100.", std::to_string(quality));
  }
  // The encoder counts 1 (best) to 31 (smallest).
  const int scale = std::clamp(static_cast<int>(std::lround(1 + (100 - quality) * 30.0 / 99.0)), 1, 31);
  return encode(image, AV_CODEC_ID_MJPEG, AV_PIX_FMT_YUVJ444P, scale);
}

}  // namespace sash::media
