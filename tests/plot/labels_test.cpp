#include "plot/labels.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace sash::plot {
namespace {

const Box field{0, 0, 400, 200};

Plot rising(std::vector<Mark> marks) {
  Plot plot;
  plot.x = axis_over("x", "", {0, 10}, true);
  plot.y = axis_over("y", "", {0, 10}, true);
  plot.series.push_back({"rises", Shape::circle, {{0, 0}, {10, 10}}});
  plot.marks = std::move(marks);
  return plot;
}

// The one curve runs from the lower left to the upper right corner of the field.
bool on_the_curve(const Box& box) { return box.left <= (200 - box.top) * 2 && box.right >= (200 - box.bottom) * 2; }

TEST(Labels, StandBesideTheirMarkAndOffTheCurve) {
  const std::vector<WordsSize> words{{60, 14}};
  const auto labels = place_labels(rising({{5, 5, "here"}}), field, words, 8);
  ASSERT_EQ(labels.size(), 1U);
  EXPECT_FALSE(on_the_curve(labels[0].at));
  EXPECT_FALSE(labels[0].away);
  EXPECT_LT(std::abs((labels[0].at.top + labels[0].at.bottom) / 2 - 100), 40) << "near";
}

TEST(Labels, HideNeitherEachOtherNorAnotherMark) {
  const Plot plot = rising({{5, 5, "a"}, {5.2, 5.2, "b"}, {5.4, 5.4, "c"}, {4.8, 4.8, "d"}});
  const std::vector<WordsSize> words(4, WordsSize{90, 14});
  const auto labels = place_labels(plot, field, words, 8);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    EXPECT_FALSE(on_the_curve(labels[i].at)) << i;
    for (std::size_t k = 0; k < i; ++k) EXPECT_FALSE(labels[i].at.meets(labels[k].at)) << i << " and " << k;
  }
}

TEST(Labels, StayInTheFieldAtItsCorners) {
  const Plot plot = rising({{0, 0, "a"}, {10, 10, "b"}, {0, 10, "c"}, {10, 0, "d"}});
  const std::vector<WordsSize> words(4, WordsSize{120, 14});
  for (const Label& label : place_labels(plot, field, words, 8)) {
    EXPECT_GE(label.at.left, 0);
    EXPECT_GE(label.at.top, 0);
    EXPECT_LE(label.at.right, 400);
    EXPECT_LE(label.at.bottom, 200);
  }
}

TEST(Labels, FarFromTheirMarkTheySaySo) {
  const Plot plot = rising({{5, 5, "a"}, {5, 5, "b"}, {5, 5, "c"}, {5, 5, "d"}, {5, 5, "e"}, {5, 5, "f"}});
  const std::vector<WordsSize> words(6, WordsSize{150, 14});
  const auto labels = place_labels(plot, field, words, 8);
  EXPECT_TRUE(std::ranges::any_of(labels, &Label::away));
}

}  // namespace
}  // namespace sash::plot
