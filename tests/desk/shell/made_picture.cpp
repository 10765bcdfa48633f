#include "desk/shell/made_picture.h"

#include <cmath>
#include <cstring>
#include <stdexcept>
#include <string>

extern "C" {
#include <libavutil/opt.h>
#include <libavutil/pixdesc.h>
#include <libswscale/swscale.h>
}

namespace sash::testing {
namespace {

using media::PlaneKind;

struct Bytes {
  std::vector<std::vector<std::uint8_t>> planes;
};

/// Channel 0 runs along x and y together, the chroma channels across each other, all over the whole code range.
double ramp(int channel, double x, double y) {
  switch (channel) {
    case 0:
      return 0.75 * x + 0.25 * y;
    case 1:
      return 0.1 + 0.8 * y;
    default:
      return 0.9 - 0.8 * x * (0.5 + 0.5 * y);
  }
}

void put(std::vector<std::uint8_t>& row, std::size_t at, double share, int bits) {
  const auto v = static_cast<unsigned>(std::lround(share * ((1 << bits) - 1)));
  if (bits == 8) {
    row[at] = static_cast<std::uint8_t>(v);
  } else {
    row[2 * at] = static_cast<std::uint8_t>(v & 255);
    row[2 * at + 1] = static_cast<std::uint8_t>(v >> 8);
  }
}

std::string format_of(PlaneKind kind, int bits) {
  const std::string deep = bits > 8 ? std::to_string(bits) + "le" : "";
  switch (kind) {
    case PlaneKind::yuv420:
      return "yuv420p" + deep;
    case PlaneKind::yuv422:
      return "yuv422p" + deep;
    case PlaneKind::yuv444:
      return "yuv444p" + deep;
    case PlaneKind::nv12:
      return "nv12";
    case PlaneKind::grey:
      return "gray" + deep;
    case PlaneKind::rgba:
      return "rgba";
  }
  return "";
}

int sws_space(media::Matrix m) {
  switch (m) {
    case media::Matrix::bt709:
      return SWS_CS_ITU709;
    case media::Matrix::bt2020:
      return SWS_CS_BT2020;
    case media::Matrix::smpte240:
      return SWS_CS_SMPTE240M;
    default:
      return SWS_CS_ITU601;
  }
}

}  // namespace

media::PicturePtr made_picture(const Make& make) {
  auto bytes = std::make_shared<Bytes>();
  auto p = std::make_shared<media::Picture>();
  p->kind = make.kind;
  p->bits = make.bits;
  p->size = make.size;
  p->colour = make.colour;
  p->turn = make.turn;
  p->mirrored = make.mirrored;
  const int deep = make.bits > 8 ? 2 : 1;
  struct Layout {
    int channels;  // samples a place
    int first;     // ramp of the first
    int across;    // pixels a place covers
    int down;
  };
  std::vector<Layout> layout = {{1, 0, 1, 1}};
  if (make.kind == PlaneKind::rgba) layout = {{4, 0, 1, 1}};
  if (make.kind == PlaneKind::nv12) layout.push_back({2, 1, 2, 2});
  const int across = make.kind == PlaneKind::yuv444 ? 1 : 2;
  const int down = make.kind == PlaneKind::yuv420 ? 2 : 1;
  if (make.kind == PlaneKind::yuv420 || make.kind == PlaneKind::yuv422 || make.kind == PlaneKind::yuv444) {
    layout.push_back({1, 1, across, down});
    layout.push_back({1, 2, across, down});
  }
  for (const Layout& l : layout) {
    const int w = make.size.width / l.across;
    const int h = make.size.height / l.down;
    const int stride = w * l.channels * deep + 32;  // decoders pad their rows
    auto& plane = bytes->planes.emplace_back(static_cast<std::size_t>(stride * h));
    for (int y = 0; y < h; ++y) {
      std::vector<std::uint8_t> row(static_cast<std::size_t>(stride));
      for (int x = 0; x < w; ++x) {
        for (int c = 0; c < l.channels; ++c) {
          const double share = c == 3 ? 1.0 : ramp(l.first + c, (x + 0.5) / w, (y + 0.5) / h);
          put(row, static_cast<std::size_t>(x * l.channels + c), share, make.bits);
        }
      }
      std::memcpy(plane.data() + y * stride, row.data(), row.size());
    }
    p->planes.push_back({plane.data(), stride, w, h});
  }
  p->keeper = bytes;
  return p;
}

std::vector<std::uint8_t> by_swscale(const media::Picture& p) {
  SwsContext* scaler = sws_alloc_context();
  const auto set = [&](const char* name, std::int64_t value) {
    if (av_opt_set_int(scaler, name, value, 0) < 0) throw std::runtime_error(name);
  };
  set("srcw", p.size.width);
  set("srch", p.size.height);
  set("dstw", p.size.width);
  set("dsth", p.size.height);
  set("src_format", av_get_pix_fmt(format_of(p.kind, p.bits).c_str()));
  set("dst_format", AV_PIX_FMT_RGB48LE);
  set("sws_flags", SWS_BILINEAR | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT | SWS_FULL_CHR_H_INP);
  set("src_h_chr_pos", 0);
  if (p.kind == PlaneKind::yuv420 || p.kind == PlaneKind::nv12) set("src_v_chr_pos", 128);
  if (sws_init_context(scaler, nullptr, nullptr) < 0) throw std::runtime_error("swscale refused the format");
  const int* table = sws_getCoefficients(sws_space(p.colour.matrix));
  sws_setColorspaceDetails(scaler, table, p.colour.range == media::Range::full ? 1 : 0, table, 1, 0, 1 << 16, 1 << 16);
  const std::uint8_t* planes[4] = {};
  int strides[4] = {};
  for (std::size_t i = 0; i < p.planes.size(); ++i) {
    planes[i] = p.planes[i].bytes;
    strides[i] = static_cast<int>(p.planes[i].stride);
  }
  const int row = (p.size.width * 6 + 63) / 64 * 64;
  std::vector<std::uint8_t> deep(static_cast<std::size_t>(row * p.size.height) + 64);
  std::uint8_t* to[4] = {deep.data()};
  const int to_stride[4] = {row};
  sws_scale(scaler, planes, strides, 0, p.size.height, to, to_stride);
  sws_freeContext(scaler);
  std::vector<std::uint8_t> out;
  for (int y = 0; y < p.size.height; ++y) {
    for (int i = 0; i < p.size.width * 3; ++i) {
      const std::uint8_t* at = deep.data() + y * row + i * 2;
      out.push_back(static_cast<std::uint8_t>(std::lround((at[0] + 256 * at[1]) / 257.0)));
    }
  }
  return out;
}

}  // namespace sash::testing
