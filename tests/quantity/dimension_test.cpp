#include "quantity/dimension.h"

#include <gtest/gtest.h>

namespace sash::quantity {
namespace {

TEST(Dimension, MultipliesAndDividesByAddingPowers) {
  EXPECT_EQ(dimension::length * dimension::length * dimension::length, dimension::volume);
  EXPECT_EQ(dimension::mass / dimension::volume, dimension::density);
  EXPECT_TRUE((dimension::density / dimension::density).is_plain());
}

TEST(Dimension, HasAWordOrAProductOfBaseUnits) {
  EXPECT_EQ(name_of(dimension::volume), "volume");
  EXPECT_EQ(name_of(dimension::plain), "plain number");
  EXPECT_EQ(name_of(dimension::mass / dimension::length), "kg·m⁻¹");
}

}  // namespace
}  // namespace sash::quantity
