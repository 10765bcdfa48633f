#include "media/rgba.h"

#include <fmt/format.h>

#include <cstring>
#include <optional>

#include "media/inner/av.h"
#include "media/inner/tags.h"
#include "media/tone_map.h"
#include "support/check.h"

extern "C" {
#include <libavutil/frame.h>
#include <libavutil/pixdesc.h>
#include <libswscale/swscale.h>
}

namespace sash::media {
namespace {

using inner::Owned;

std::string format_name(PlaneKind kind, int bits) {
  const std::string deep = bits > 8 ? fmt::format("{}le", bits) : "";
  switch (kind) {
    case PlaneKind::yuv420:
      return "yuv420p" + deep;
    case PlaneKind::yuv422:
      return "yuv422p" + deep;
    case PlaneKind::yuv444:
      return "yuv444p" + deep;
    case PlaneKind::grey:
      return "yuv420p" + deep;  // with neutral chroma: the scaler takes grey for full range always
    case PlaneKind::nv12:
      return "nv12";
    case PlaneKind::rgba:
      return "rgba";
  }
  return "";
}

/// What a scaler was made for; any difference needs a new one.
struct Job {
  Size from;
  Size to;
  PlaneKind kind = PlaneKind::yuv420;
  int bits = 0;
  Quality quality = Quality::fast;
  bool deep = false;  // 16 bits out, for tone mapping
  Matrix matrix = Matrix::bt709;
  Range range = Range::limited;
  bool operator==(const Job&) const = default;
};

Owned<SwsContext> make_scaler(const Job& job) {
  const AVPixelFormat from = av_get_pix_fmt(format_name(job.kind, job.bits).c_str());
  const AVPixelFormat to = job.deep ? AV_PIX_FMT_RGB48 : AV_PIX_FMT_RGBA;
  const int flags = job.quality == Quality::accurate
                        ? SWS_BICUBIC | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT | SWS_FULL_CHR_H_INP
                        : SWS_BILINEAR;
  Owned<SwsContext> scaler(sws_getContext(job.from.width, job.from.height, from, job.to.width, job.to.height, to, flags,
                                          nullptr, nullptr, nullptr));
  promise(scaler != nullptr, "a scaler for every kind of plane");
  // Left to itself swscale assumes BT.601.
  const int* coefficients = sws_getCoefficients(inner::sws_matrix(job.matrix));
  sws_setColorspaceDetails(scaler.get(), coefficients, job.range == Range::full ? 1 : 0, coefficients, 1, 0, 1 << 16,
                           1 << 16);
  return scaler;
}

/// Turned and mirrored as shown: mirrored first, then clockwise.
RgbaImage upright(const RgbaImage& in, int turn, bool mirrored) {
  const int w = in.size.width;
  const int h = in.size.height;
  RgbaImage out{turn % 180 == 0 ? in.size : Size{h, w}, std::vector<std::uint8_t>(in.pixels.size())};
  for (int y = 0; y < h; ++y) {
    for (int x = 0; x < w; ++x) {
      const int mx = mirrored ? w - 1 - x : x;
      int to_x = mx;
      int to_y = y;
      if (turn == 90) {
        to_x = h - 1 - y;
        to_y = mx;
      } else if (turn == 180) {
        to_x = w - 1 - mx;
        to_y = h - 1 - y;
      } else if (turn == 270) {
        to_x = y;
        to_y = w - 1 - mx;
      }
      const std::size_t to = (static_cast<std::size_t>(to_y) * static_cast<std::size_t>(out.size.width) + to_x) * 4;
      const std::size_t from = (static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + x) * 4;
      std::memcpy(&out.pixels[to], &in.pixels[from], 4);
    }
  }
  return out;
}

}  // namespace

struct RgbaMaker::State {
  std::optional<Job> job;
  Owned<SwsContext> scaler;
  std::vector<std::uint16_t> neutral;  // the chroma of grey pictures
  Owned<AVFrame> target;               // rows padded as the scaler's vector code wants them
  struct Tone {
    Transfer transfer;
    double peak;
    Primaries primaries;
    bool operator==(const Tone&) const = default;
  };
  std::optional<Tone> tone_of;
  std::optional<ToneMap> tone;

  void prepare(const Job& wanted) {
    if (job == wanted) return;
    scaler = make_scaler(wanted);
    target = inner::make_frame();
    target->format = wanted.deep ? AV_PIX_FMT_RGB48 : AV_PIX_FMT_RGBA;
    target->width = wanted.to.width;
    target->height = wanted.to.height;
    promise(av_frame_get_buffer(target.get(), 64) >= 0, "memory for a picture");
    if (wanted.kind == PlaneKind::grey) {
      const auto samples = static_cast<std::size_t>((wanted.from.width + 1) / 2) * ((wanted.from.height + 1) / 2);
      const int middle = 1 << (wanted.bits - 1);
      neutral.assign(samples, static_cast<std::uint16_t>(wanted.bits > 8 ? middle : middle * 0x101));
    }
    job = wanted;
  }

  const ToneMap& tone_map(const Picture& p) {
    const Tone wanted{p.colour.transfer, p.mastering.brightest.value_or(usual_peak), p.colour.primaries};
    if (tone_of != wanted) {
      tone.emplace(wanted.transfer, wanted.peak, wanted.primaries);
      tone_of = wanted;
    }
    return *tone;
  }
};

RgbaMaker::RgbaMaker() : state_(std::make_unique<State>()) {}
RgbaMaker::~RgbaMaker() = default;
RgbaMaker::RgbaMaker(RgbaMaker&&) noexcept = default;
RgbaMaker& RgbaMaker::operator=(RgbaMaker&&) noexcept = default;

RgbaImage RgbaMaker::make(const Picture& p, Size box, Quality quality) {
  const bool hdr = p.colour.transfer == Transfer::pq || p.colour.transfer == Transfer::hlg;
  const Size shown = fit(shown_size(p), box);
  const Size flat = p.turn % 180 == 0 ? shown : Size{shown.height, shown.width};
  state_->prepare({p.size, flat, p.kind, p.bits, quality, hdr, p.colour.matrix, p.colour.range});

  const std::uint8_t* planes[4] = {};
  int strides[4] = {};
  for (std::size_t i = 0; i < p.planes.size(); ++i) {
    planes[i] = p.planes[i].bytes;
    strides[i] = static_cast<int>(p.planes[i].stride);
  }
  if (p.kind == PlaneKind::grey) {
    planes[1] = planes[2] = reinterpret_cast<const std::uint8_t*>(state_->neutral.data());
    strides[1] = strides[2] = (p.size.width + 1) / 2 * (p.bits > 8 ? 2 : 1);
  }
  AVFrame& target = *state_->target;
  sws_scale(state_->scaler.get(), planes, strides, 0, p.size.height, target.data, target.linesize);

  RgbaImage image{flat, {}};
  const std::size_t row_bytes = static_cast<std::size_t>(flat.width) * 4;
  image.pixels.resize(row_bytes * static_cast<std::size_t>(flat.height));
  for (int y = 0; y < flat.height; ++y) {
    const std::uint8_t* from = target.data[0] + static_cast<std::ptrdiff_t>(y) * target.linesize[0];
    std::uint8_t* to = image.pixels.data() + row_bytes * static_cast<std::size_t>(y);
    if (!hdr) {
      std::memcpy(to, from, row_bytes);
      continue;
    }
    const ToneMap& tone = state_->tone_map(p);
    for (int x = 0; x < flat.width; ++x) {
      std::uint16_t rgb[3];
      std::memcpy(rgb, from + static_cast<std::ptrdiff_t>(x) * 6, 6);
      const auto mapped = tone.map(rgb[0], rgb[1], rgb[2]);
      std::memcpy(to + static_cast<std::ptrdiff_t>(x) * 4, mapped.data(), 3);
      to[static_cast<std::ptrdiff_t>(x) * 4 + 3] = 255;
    }
  }
  // Alpha the file carries is not shown: footage is opaque.
  if (p.kind == PlaneKind::rgba && !hdr) {
    for (std::size_t i = 3; i < image.pixels.size(); i += 4) image.pixels[i] = 255;
  }
  return p.turn == 0 && !p.mirrored ? image : upright(image, p.turn, p.mirrored);
}

RgbaImage to_rgba(const Picture& picture, Size box, Quality quality) { return RgbaMaker().make(picture, box, quality); }

}  // namespace sash::media
