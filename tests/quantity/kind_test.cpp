#include "quantity/kind.h"

#include <gtest/gtest.h>

namespace sash::quantity {
namespace {

TEST(Kind, NamesReadBackToTheirKind) {
  EXPECT_EQ(all_kinds().size(), 29U);
  for (const Kind kind : all_kinds()) EXPECT_EQ(kind_from_name(kind_name(kind)), kind) << kind_name(kind);
  EXPECT_EQ(kind_name(Kind::mass_volume_percent), "mass_volume_percent");
  EXPECT_FALSE(kind_from_name("weight").has_value());
}

TEST(Kind, EveryDefaultUnitMeasuresItsKind) {
  for (const Kind kind : all_kinds()) {
    if (const auto wanted = dimension_of(kind)) {
      EXPECT_EQ(default_unit(kind).dimension(), *wanted) << kind_name(kind);
    }
  }
}

TEST(Kind, DecidesHowTheUnitIsRead) {
  EXPECT_DOUBLE_EQ(unit_for(Kind::temperature, "Cel")->to_si(20), 293.15);
  EXPECT_DOUBLE_EQ(unit_for(Kind::temperature_change, "Cel")->to_si(20), 20);
  EXPECT_DOUBLE_EQ(unit_for(Kind::mass_percent, "%")->to_si(68), 0.68);
  EXPECT_DOUBLE_EQ(unit_for(Kind::mass_volume_percent, "%")->to_si(1), 10);  // 1 g in 100 mL is 10 kg/m³
  EXPECT_EQ(unit_for(Kind::mass_volume_percent, "%")->symbol(), "% w/v");
  EXPECT_EQ(unit_for(Kind::mass_volume_percent, "%")->code(), "%");
}

TEST(Kind, RefusesAUnitThatCannotMeasureIt) {
  const auto unit = unit_for(Kind::mass, "mL");
  ASSERT_FALSE(unit.ok());
  EXPECT_EQ(unit.fault().code, Code::wrong_dimension);
  EXPECT_EQ(unit.fault().sentence, "\"mL\" measures a volume and cannot be the unit of a mass; use for example g.");
}

TEST(Kind, OffersTheNearestName) {
  EXPECT_EQ(read_kind("volume").value(), Kind::volume);
  EXPECT_EQ(read_kind("molarity_").fault().code, Code::unknown_name);
  EXPECT_EQ(read_kind("volum").fault().others.front(), "volume");
}

TEST(Kind, IsImpliedByMostUnits) {
  EXPECT_EQ(kind_implied_by(Unit::known("mg")), Kind::mass);
  EXPECT_EQ(kind_implied_by(Unit::known("g/L")), Kind::mass_concentration);
  EXPECT_EQ(kind_implied_by(Unit::known("g/mL")), Kind::density);
  EXPECT_EQ(kind_implied_by(Unit::known("mmol/L")), Kind::molar_concentration);
  EXPECT_EQ(kind_implied_by(Unit::known("Cel")), Kind::temperature);
  EXPECT_EQ(kind_implied_by(Unit::known("[pH]")), Kind::pH);
  EXPECT_FALSE(kind_implied_by(Unit::known("%")).has_value());
}

}  // namespace
}  // namespace sash::quantity
