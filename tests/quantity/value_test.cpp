#include "quantity/value.h"

#include <gtest/gtest.h>

#include <limits>

namespace sash::quantity {
namespace {

TEST(Value, IsTheSameInEveryUnit) {
  const auto value = Value::of(250, 0.5, Unit::known("g"));
  ASSERT_TRUE(value.ok());
  EXPECT_DOUBLE_EQ(value->si(), 0.25);
  EXPECT_DOUBLE_EQ(value->in(Unit::known("kg")).value(), 0.25);
  EXPECT_DOUBLE_EQ(value->in(Unit::known("mg")).value(), 250000);
  EXPECT_DOUBLE_EQ(value->spread_in(Unit::known("mg")).value(), 500);
}

TEST(Value, KeepsTheSpreadOfATemperatureADifference) {
  const auto value = Value::of(77, 0.9, Unit::known("[degF]"));
  EXPECT_NEAR(value->si(), 298.15, 1e-12);
  EXPECT_NEAR(value->si_spread(), 0.5, 1e-15);
  EXPECT_NEAR(value->in(Unit::known("Cel")).value(), 25, 1e-12);
}

TEST(Value, RefusesAnotherDimensionNamingBoth) {
  const auto value = Value::of(1, 0, Unit::known("g"));
  const auto asked = value->in(Unit::known("mL"));
  ASSERT_FALSE(asked.ok());
  EXPECT_EQ(asked.fault().sentence, "This is a mass, but a volume (mL) was wanted.");
  const auto rise = Value::of(10, 0, Unit::known("Cel").as_difference());
  EXPECT_EQ(rise->in(Unit::known("Cel")).fault().sentence,
            "This is a temperature change, but a temperature (°C) was wanted.");
}

TEST(Value, RefusesWhatIsNoNumber) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  EXPECT_EQ(Value::of(nan, 0, Unit()).fault().code, Code::not_finite);
  EXPECT_EQ(Value::of(infinity, 0, Unit()).fault().code, Code::not_finite);
  EXPECT_EQ(Value::of(1, nan, Unit()).fault().code, Code::not_finite);
  EXPECT_EQ(Value::of(1, -1, Unit()).fault().code, Code::out_of_range);
  EXPECT_EQ(Value::of(-300, 0, Unit::known("Cel")).fault().code, Code::out_of_range);
  EXPECT_EQ(Value::of(150, 0, Unit::known("[degBe]")).fault().code, Code::out_of_range);
  EXPECT_EQ(Value::of(1e300, 0, Unit::known("Ym")).fault().code, Code::not_finite);
}

}  // namespace
}  // namespace sash::quantity
