#include "media/inner/picture_from.h"

#include <cstdlib>
#include <utility>

extern "C" {
#include <libavutil/frame.h>
#include <libavutil/mastering_display_metadata.h>
#include <libavutil/pixdesc.h>
#include <libswscale/swscale.h>
}

namespace sash::media::inner {
namespace {

bool is_full_range_kind(AVPixelFormat f) {
  return f == AV_PIX_FMT_YUVJ420P || f == AV_PIX_FMT_YUVJ422P || f == AV_PIX_FMT_YUVJ444P || f == AV_PIX_FMT_YUVJ440P ||
         f == AV_PIX_FMT_YUVJ411P;
}

/// The kind the planes can be drawn as without converting.
std::optional<PlaneKind> kind_of(const AVPixFmtDescriptor& d, AVPixelFormat f) {
  if (f == AV_PIX_FMT_NV12) return PlaneKind::nv12;
  constexpr std::uint64_t odd = AV_PIX_FMT_FLAG_BE | AV_PIX_FMT_FLAG_PAL | AV_PIX_FMT_FLAG_BITSTREAM |
                                AV_PIX_FMT_FLAG_HWACCEL | AV_PIX_FMT_FLAG_RGB | AV_PIX_FMT_FLAG_BAYER |
                                AV_PIX_FMT_FLAG_FLOAT;
  if ((d.flags & odd) != 0 || d.comp[0].depth < 8) return std::nullopt;
  const int step = d.comp[0].depth > 8 ? 2 : 1;
  for (int i = 0; i < d.nb_components; ++i) {
    if (d.comp[i].shift != 0 || d.comp[i].step != step || d.comp[i].plane != i) return std::nullopt;
  }
  if (d.nb_components == 1) return PlaneKind::grey;
  if (d.nb_components < 3 || (d.flags & AV_PIX_FMT_FLAG_PLANAR) == 0) return std::nullopt;
  if (d.log2_chroma_w == 1 && d.log2_chroma_h == 1) return PlaneKind::yuv420;
  if (d.log2_chroma_w == 1 && d.log2_chroma_h == 0) return PlaneKind::yuv422;
  if (d.log2_chroma_w == 0 && d.log2_chroma_h == 0) return PlaneKind::yuv444;
  return std::nullopt;
}

ColourTags tags_from(const AVFrame& f, const ColourTags& stream) {
  ColourTags tags = tags_of(f.colorspace, f.color_primaries, f.color_trc, f.color_range);
  if (!tags.matrix) tags.matrix = stream.matrix;
  if (!tags.primaries) tags.primaries = stream.primaries;
  if (!tags.transfer) tags.transfer = stream.transfer;
  if (!tags.range) tags.range = stream.range;
  if (is_full_range_kind(static_cast<AVPixelFormat>(f.format))) tags.range = Range::full;
  return tags;
}

Mastering mastering_of(const AVFrame& f) {
  Mastering m;
  if (const AVFrameSideData* side = av_frame_get_side_data(&f, AV_FRAME_DATA_MASTERING_DISPLAY_METADATA)) {
    const auto& d = *reinterpret_cast<const AVMasteringDisplayMetadata*>(side->data);
    if (d.has_luminance != 0 && d.max_luminance.num > 0 && d.max_luminance.den > 0) {
      m.brightest = av_q2d(d.max_luminance);
      if (d.min_luminance.den > 0) m.darkest = av_q2d(d.min_luminance);
    }
  }
  if (const AVFrameSideData* side = av_frame_get_side_data(&f, AV_FRAME_DATA_CONTENT_LIGHT_LEVEL);
      side && !m.brightest) {
    const auto& d = *reinterpret_cast<const AVContentLightMetadata*>(side->data);
    if (d.MaxCLL > 0) m.brightest = d.MaxCLL;
  }
  return m;
}

/// Everything the desk does not draw (palettes, planar RGB, 4:1:1, big-endian) becomes 8-bit RGBA with the right
/// matrix.
Owned<AVFrame> as_rgba(const AVFrame& from, const Colour& colour) {
  Owned<AVFrame> to = make_frame();
  to->format = AV_PIX_FMT_RGBA;
  to->width = from.width;
  to->height = from.height;
  if (av_frame_get_buffer(to.get(), 0) < 0) return nullptr;
  const Owned<SwsContext> scaler(sws_getContext(from.width, from.height, static_cast<AVPixelFormat>(from.format),
                                                to->width, to->height, AV_PIX_FMT_RGBA, SWS_BICUBIC | SWS_ACCURATE_RND,
                                                nullptr, nullptr, nullptr));
  if (scaler == nullptr) return nullptr;
  const int* coefficients = sws_getCoefficients(sws_matrix(colour.matrix));
  const bool full = colour.range == Range::full || colour.matrix == Matrix::rgb;
  sws_setColorspaceDetails(scaler.get(), coefficients, full ? 1 : 0, coefficients, 1, 0, 1 << 16, 1 << 16);
  if (sws_scale(scaler.get(), from.data, from.linesize, 0, from.height, to->data, to->linesize) < 0) return nullptr;
  return to;
}

/// The only matrix swscale does not know, undone by hand on 4:4:4 samples. Source: ITU-T H.273, 8.3,
/// MatrixCoefficients 8.
bool is_reversible_green_orange(const AVFrame& f, const Colour& c) {
  return c.matrix == Matrix::ycgco && f.format == AV_PIX_FMT_YUV444P;
}

Owned<AVFrame> from_ycgco(const AVFrame& from, Range range) {
  Owned<AVFrame> to = make_frame();
  to->format = AV_PIX_FMT_RGBA;
  to->width = from.width;
  to->height = from.height;
  if (av_frame_get_buffer(to.get(), 0) < 0) return nullptr;
  const bool full = range == Range::full;
  for (int row = 0; row < from.height; ++row) {
    const auto at = [&](int plane, int x) {
      return static_cast<int>(from.data[plane][row * from.linesize[plane] + x]);
    };
    std::uint8_t* out = to->data[0] + static_cast<std::ptrdiff_t>(row) * to->linesize[0];
    for (int x = 0; x < from.width; ++x) {
      const double y = full ? at(0, x) : (at(0, x) - 16) * 255.0 / 219.0;
      const double cg = (at(1, x) - 128) * (full ? 1.0 : 255.0 / 224.0);
      const double co = (at(2, x) - 128) * (full ? 1.0 : 255.0 / 224.0);
      const auto clip = [](double v) { return static_cast<std::uint8_t>(v < 0 ? 0 : v > 255 ? 255 : v + 0.5); };
      *out++ = clip(y - cg + co);
      *out++ = clip(y + cg);
      *out++ = clip(y - cg - co);
      *out++ = 255;
    }
  }
  return to;
}

}  // namespace

PicturePtr picture_from(Owned<AVFrame> frame, const StreamLook& look, Moment at, Moment lasts) {
  auto picture = std::make_shared<Picture>();
  picture->size = {frame->width, frame->height};
  picture->colour = resolve(tags_from(*frame, look.tags), picture->size);
  picture->mastering = mastering_of(*frame);
  picture->pixel_aspect = frame->sample_aspect_ratio.num > 0 && frame->sample_aspect_ratio.den > 0
                              ? Rate{frame->sample_aspect_ratio.num, frame->sample_aspect_ratio.den}
                              : look.pixel_aspect;
  picture->turn = look.orientation.turn;
  picture->mirrored = look.orientation.mirrored;
  picture->interlaced = frame->interlaced_frame != 0;
  picture->key = frame->key_frame != 0;
  picture->at = at;
  picture->lasts = lasts;

  auto format = static_cast<AVPixelFormat>(frame->format);
  const AVPixFmtDescriptor* d = av_pix_fmt_desc_get(format);
  if (d == nullptr) return nullptr;
  std::optional<PlaneKind> kind = kind_of(*d, format);
  if (picture->colour.matrix == Matrix::rgb || picture->colour.matrix == Matrix::ycgco) kind = std::nullopt;
  if (!kind) {
    frame = is_reversible_green_orange(*frame, picture->colour) ? from_ycgco(*frame, picture->colour.range)
                                                                : as_rgba(*frame, picture->colour);
    if (frame == nullptr) return nullptr;
    format = AV_PIX_FMT_RGBA;
    d = av_pix_fmt_desc_get(format);
    kind = PlaneKind::rgba;
    picture->colour.matrix = Matrix::rgb;
    picture->colour.range = Range::full;
  }
  picture->kind = *kind;
  picture->bits = d->comp[0].depth;
  const int planes = *kind == PlaneKind::grey || *kind == PlaneKind::rgba ? 1 : *kind == PlaneKind::nv12 ? 2 : 3;
  for (int i = 0; i < planes; ++i) {
    const int width = i == 0 ? frame->width : AV_CEIL_RSHIFT(frame->width, d->log2_chroma_w);
    const int height = i == 0 ? frame->height : AV_CEIL_RSHIFT(frame->height, d->log2_chroma_h);
    picture->planes.push_back({frame->data[i], frame->linesize[i], width, height});
    picture->weight += static_cast<std::size_t>(std::abs(frame->linesize[i])) * static_cast<std::size_t>(height);
  }
  picture->keeper = std::shared_ptr<const AVFrame>(frame.release(), Freeing());
  return picture;
}

}  // namespace sash::media::inner
