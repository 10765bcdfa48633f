#pragma once
// Labels: where the words of a plot's marks go, so that they hide neither a curve nor each other. Knows sizes only;
// whoever draws has measured the words. Pure values, safe from any thread.

#include <span>
#include <vector>

#include "plot/plot.h"

namespace sash::plot {

/// A rectangle of the drawing, y running down.
struct Box {
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
  bool meets(const Box& other) const {
    return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
  }
};

struct WordsSize {
  double width = 0;
  double height = 0;
};

struct Label {
  Box at;
  bool away = false;  ///< so far from its mark that a line should lead there
};

/// One label for each mark of `plot`, which is drawn over `field`; `off` is how far words stand from their mark.
/// Requires: as many `words` as marks. Where the field is too small for them all, some hide something after all.
std::vector<Label> place_labels(const Plot& plot, const Box& field, std::span<const WordsSize> words, double off);

}  // namespace sash::plot
