#pragma once
// Picture: one decoded frame, immutable and shared. Planes stay as the decoder made them (no copy); formats the desk
// does not draw arrive converted to 8-bit RGBA. Not yet turned, mirrored or scaled: those are said beside the planes.
// Immutable; safe from any thread.

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "media/colour.h"
#include "media/rate.h"
#include "support/moment.h"

namespace sash::media {

/// How samples lie. Planar kinds have planes Y, Cb, Cr; nv12 has Y and interleaved CbCr; rgba is one packed plane.
enum class PlaneKind { yuv420, yuv422, yuv444, nv12, grey, rgba };

struct Plane {
  const std::uint8_t* bytes = nullptr;  ///< top row first
  std::ptrdiff_t stride = 0;            ///< bytes from row to row; may be negative
  int width = 0;                        ///< samples (pairs for the second plane of nv12, pixels for rgba)
  int height = 0;
};

/// The brightest and darkest light the master was graded for, in cd/m2, where the file says.
struct Mastering {
  std::optional<double> brightest;
  std::optional<double> darkest;
  bool operator==(const Mastering&) const = default;
};

struct Picture {
  PlaneKind kind = PlaneKind::yuv420;
  int bits = 8;  ///< per sample; above 8, samples are 16-bit little-endian in the low bits
  Size size;     ///< stored pixels
  std::vector<Plane> planes;
  Colour colour;
  Mastering mastering;
  Rate pixel_aspect{1, 1};
  int turn = 0;             ///< degrees clockwise to show it upright
  bool mirrored = false;    ///< swap left and right before the turn
  bool interlaced = false;  ///< two fields woven; pictures for showing have been deinterlaced
  bool key = false;
  Moment at;
  Moment lasts;                        ///< 0 when not known yet
  std::size_t weight = 0;              ///< bytes held
  std::shared_ptr<const void> keeper;  ///< owns the planes
};

using PicturePtr = std::shared_ptr<const Picture>;

/// Square pixels, upright.
Size shown_size(Size stored, Rate pixel_aspect, int turn);
Size shown_size(const Picture& p);
/// The largest size of `of`'s shape inside `box`, never enlarged and at least 1x1; an empty box means no limit.
Size fit(Size of, Size box);

}  // namespace sash::media
