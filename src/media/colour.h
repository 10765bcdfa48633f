#pragma once
// How the numbers in a picture become colours: which matrix, primaries, transfer and range they were made with, and the
// 3x3 that takes luma and chroma to R'G'B'. The shader and the tests take their constants from here.
// Not for HDR brightness, which is tone_map.h. Pure values.
// Sources: ITU-R BT.601-7, BT.709-6, BT.2020-2, SMPTE ST 240:1999 (matrices); ITU-T H.273 (names).

#include <array>
#include <optional>
#include <string_view>

#include "media/rate.h"

namespace sash::media {

enum class Matrix { rgb, bt601, bt709, bt2020, smpte240, ycgco };
enum class Primaries { bt709, bt601_525, bt601_625, bt2020, p3_d65, other };
enum class Transfer { bt709, srgb, linear, pq, hlg, other };
enum class Range { limited, full };

std::string_view name_of(Matrix m);
std::string_view name_of(Primaries p);
std::string_view name_of(Transfer t);
std::string_view name_of(Range r);

/// What a file says about its colours; what it leaves unsaid is nothing.
struct ColourTags {
  std::optional<Matrix> matrix;
  std::optional<Primaries> primaries;
  std::optional<Transfer> transfer;
  std::optional<Range> range;
  bool operator==(const ColourTags&) const = default;
};

/// What is used to show a picture.
struct Colour {
  Matrix matrix = Matrix::bt709;
  Primaries primaries = Primaries::bt709;
  Transfer transfer = Transfer::bt709;
  Range range = Range::limited;
  bool operator==(const Colour&) const = default;
};

/// Fills what the file left unsaid: more than 576 lines or 1024 columns means BT.709, less means BT.601, limited range.
/// Source: common practice, no single document.
Colour resolve(const ColourTags& tags, Size size);

/// R'G'B' = m * (sample / max_sample - offset), all in 0..1, for `bits`-deep samples; m is row-major, columns Y, Cb,
/// Cr.
struct RgbFromYuv {
  std::array<float, 9> m{};
  std::array<float, 3> offset{};
};

/// Requires: matrix is not ycgco (pictures of that kind arrive as rgb) and 8 <= bits <= 16.
RgbFromYuv rgb_from_yuv(Matrix matrix, Range range, int bits);

}  // namespace sash::media
