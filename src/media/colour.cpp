#include "media/colour.h"

#include "support/check.h"

namespace sash::media {

std::string_view name_of(Matrix m) {
  switch (m) {
    case Matrix::rgb:
      return "RGB";
    case Matrix::bt601:
      return "BT.601";
    case Matrix::bt709:
      return "BT.709";
    case Matrix::bt2020:
      return "BT.2020";
    case Matrix::smpte240:
      return "SMPTE 240M";
    case Matrix::ycgco:
      return "YCgCo";
  }
  return "";
}

std::string_view name_of(Primaries p) {
  switch (p) {
    case Primaries::bt709:
      return "BT.709";
    case Primaries::bt601_525:
      return "BT.601 (525 lines)";
    case Primaries::bt601_625:
      return "BT.601 (625 lines)";
    case Primaries::bt2020:
      return "BT.2020";
    case Primaries::p3_d65:
      return "P3-D65";
    case Primaries::other:
      return "other";
  }
  return "";
}

std::string_view name_of(Transfer t) {
  switch (t) {
    case Transfer::bt709:
      return "BT.709";
    case Transfer::srgb:
      return "sRGB";
    case Transfer::linear:
      return "linear";
    case Transfer::pq:
      return "PQ";
    case Transfer::hlg:
      return "HLG";
    case Transfer::other:
      return "other";
  }
  return "";
}

std::string_view name_of(Range r) { return r == Range::full ? "full" : "limited"; }

Colour resolve(const ColourTags& tags, Size size) {
  const bool large = size.width > 1024 || size.height > 576;
  Colour c;
  c.matrix = tags.matrix.value_or(large ? Matrix::bt709 : Matrix::bt601);
  c.primaries = tags.primaries.value_or(large                ? Primaries::bt709
                                        : size.height == 576 ? Primaries::bt601_625
                                                             : Primaries::bt601_525);
  c.transfer = tags.transfer.value_or(Transfer::bt709);
  c.range = tags.range.value_or(Range::limited);
  return c;
}

namespace {

struct Weights {
  double red;
  double blue;
};

Weights weights_of(Matrix m) {
  switch (m) {
    case Matrix::bt601:
      return {0.299, 0.114};
    case Matrix::bt2020:
      return {0.2627, 0.0593};
    case Matrix::smpte240:
      return {0.212, 0.087};
    default:
      return {0.2126, 0.0722};
  }
}

}  // namespace

RgbFromYuv rgb_from_yuv(Matrix matrix, Range range, int bits) {
  promise(matrix != Matrix::ycgco && bits >= 8 && bits <= 16, "a luma-chroma matrix and 8 to 16 bits");
  const double top = static_cast<double>((1 << bits) - 1);
  const double unit = static_cast<double>(1 << (bits - 8));
  const bool full = range == Range::full;
  if (matrix == Matrix::rgb) return {{1, 0, 0, 0, 1, 0, 0, 0, 1}, {0, 0, 0}};

  // Limited range: luma 16..235, chroma 16..240 about 128, times 2^(bits-8) (BT.709-6, 3.4; BT.2020-2, table 5).
  const double luma = full ? 1.0 : top / (219.0 * unit);
  const double chroma = full ? 1.0 : top / (224.0 * unit);
  const auto [kr, kb] = weights_of(matrix);
  const double kg = 1.0 - kr - kb;
  const auto f = [](double v) { return static_cast<float>(v); };
  RgbFromYuv out;
  out.m = {f(luma),
           0,
           f(chroma * 2 * (1 - kr)),
           f(luma),
           f(-chroma * 2 * (1 - kb) * kb / kg),
           f(-chroma * 2 * (1 - kr) * kr / kg),
           f(luma),
           f(chroma * 2 * (1 - kb)),
           0};
  const float middle = f(128.0 * unit / top);
  out.offset = {full ? 0.0F : f(16.0 * unit / top), middle, middle};
  return out;
}

}  // namespace sash::media
