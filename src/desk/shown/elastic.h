#pragma once
// Elastic: where each moment lies on the running sheet. Time runs down; silence shrinks, dense talk grows, and what
// stands in one column never overlaps. The map from time to height is continuous, strictly rising and so invertible. It
// knows times and heights only, not what the blocks are. Immutable once made; const calls are safe from any thread.
//
// How: the ends of every block and the moments between are breakpoints. Each block asks that the next one in its column
// start at least its height further down; each gap asks for a least height that grows with its length. Both are bounds
// on differences, so the placement that takes everything as early as possible and the one that takes it as late as
// possible both keep them, and so does their mean, which spreads the slack to both sides.

#include <cstdint>
#include <span>
#include <vector>

#include "support/moment.h"

namespace sash::desk {

/// Something that stands in a column from its moment on and takes `height` there.
struct ElasticBlock {
  Moment at;
  float height = 0;          ///< pixels, with the space that keeps it from the next
  std::uint32_t column = 0;  ///< small numbers
};

/// How the sheet stretches where nothing asks for room.
struct ElasticScale {
  double pixels_per_second = 6;    ///< for the first `shrink_after` seconds of a gap
  double shrink_after = 6;         ///< seconds of a gap that keep the full scale
  double shrunk_per_second = 0.6;  ///< pixels for each further second
};

class Elastic {
 public:
  Elastic() = default;
  /// Lays out `blocks` (any order) over `extent`; blocks outside are taken in at its ends. Blocks of one column at one
  /// moment stack in the order given. Costs n log n once; lookups are logarithmic.
  /// Requires: heights finite and not negative; all three scales positive.
  Elastic(Stretch extent, std::span<const ElasticBlock> blocks, ElasticScale scale);

  double height() const { return ys_.empty() ? 0 : ys_.back(); }  ///< pixels, whole sheet
  double y(Moment at) const;                                      ///< clamped to the extent
  Moment at(double y) const;                                      ///< the inverse, to the nearest tick; clamped
  /// Top of block `i` of those given.
  double top(std::size_t i) const { return tops_[i]; }
  Stretch extent() const { return extent_; }

  /// Blocks whose box meets [from, until) in `column`, as a range of block_order(column).
  struct Range {
    std::size_t first = 0;
    std::size_t last = 0;  ///< one past
  };
  Range visible(std::uint32_t column, double from, double until) const;
  /// Numbers of the blocks of a column, by top.
  std::span<const std::uint32_t> block_order(std::uint32_t column) const;

 private:
  Stretch extent_;
  std::vector<Moment> times_;  // breakpoints, rising
  std::vector<double> ys_;     // their heights, rising
  std::vector<double> tops_;   // per block
  std::vector<float> heights_;
  std::vector<std::vector<std::uint32_t>> columns_;
};

/// The labelled moments of true time over the whole sheet, at least `gap` pixels apart, each the roundest of its
/// stretch of sheet: multiples of five seconds before others where talk is dense, whole minutes where silence is long.
/// Sorted.
std::vector<Moment> time_marks(const Elastic& sheet, double gap);

}  // namespace sash::desk
