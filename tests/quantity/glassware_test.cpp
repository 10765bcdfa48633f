#include "quantity/glassware.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sash::quantity {
namespace {

TEST(Glassware, EveryRowIsFoundByItsOwnName) {
  ASSERT_GT(instruments().size(), 100U);
  for (const Instrument& one : instruments()) {
    const auto found = find_instrument(one.name());
    ASSERT_TRUE(found.ok()) << one.name() << ": " << found.fault().sentence;
    EXPECT_EQ(found->name(), one.name());
    EXPECT_EQ(found->limit, one.limit) << one.name();
    EXPECT_FALSE(one.source.empty()) << one.name();
  }
}

TEST(Glassware, ReadsNamesAsPeopleWriteThem) {
  const auto name = [](const char* text) {
    const auto found = find_instrument(text);
    return found.ok() ? found->name() : found.fault().sentence;
  };
  EXPECT_EQ(name("ISO 4788 cylinder 25 mL A"), "ISO 4788 cylinder 25 mL A");
  EXPECT_EQ(name("a 25ml measuring cylinder, class A, ISO 4788"), "ISO 4788 cylinder 25 mL A");
  EXPECT_EQ(name("250 mL Volumetric Flask (class AS) ISO 1042"), "ISO 1042 flask 250 mL A");
  EXPECT_EQ(name("1 L flask class A"), "ISO 1042 flask 1000 mL A");
  EXPECT_EQ(name("graduated pipette 5 mL B"), "ISO 835 graduated pipette 5 mL B");
  EXPECT_EQ(name("250 mL beaker"), "beaker 250 mL");
  EXPECT_EQ(name("balance 0.01 g"), "balance 0.01 g");
  EXPECT_EQ(name("0.1 mg balance"), "balance 0.0001 g");
  EXPECT_EQ(name("thermocouple class 2"), "IEC 60584 thermocouple 2");
}

TEST(Glassware, TakesWhatIsLeftOpenAtItsWidest) {
  EXPECT_EQ(find_instrument("50 mL cylinder")->grade, "B");
  EXPECT_EQ(find_instrument("50 mL cylinder class A")->standard, "ISO 4788");  // ±0.5 mL against ±0.25 mL of ASTM E1272
}

TEST(Glassware, SaysWhatItDoesNotKnow) {
  EXPECT_EQ(find_instrument("ladle").fault().code, Code::unknown_name);
  EXPECT_EQ(find_instrument("").fault().code, Code::malformed);
  const auto odd = find_instrument("37 mL cylinder");
  EXPECT_EQ(odd.fault().code, Code::not_found);
  EXPECT_EQ(odd.fault().sentence,
            "The tables hold no \"37 mL cylinder\"; they hold for example \"ISO 4788 cylinder 5 mL A\". State the "
            "plus-minus instead.");
}

TEST(Glassware, FindsTheSmallestThatHolds) {
  const Unit millilitre = Unit::known("mL");
  EXPECT_EQ(instrument_for("cylinder", 20, millilitre)->capacity, 25);
  EXPECT_EQ(instrument_for("cylinder", 25, millilitre)->capacity, 25);
  EXPECT_EQ(instrument_for("cylinder", 0.02, Unit::known("L"), "A")->grade, "A");
  EXPECT_FALSE(instrument_for("cylinder", 1, Unit::known("m3")).has_value());
}

// EURACHEM/CITAC QUAM:2012 A1: a 100 mL class A flask, triangular: 0.1/√6 = 0.04 mL.
TEST(Glassware, TurnsALimitIntoAStandardUncertainty) {
  const Instrument flask = find_instrument("100 mL flask class A ISO 1042").value();
  const Spread spread = spread_of(flask, 100, Unit::known("mL")).value();
  EXPECT_NEAR(spread.standard, 0.1 / std::sqrt(6.0), 1e-12);
  EXPECT_EQ(spread.reason,
            "Read on ISO 1042 flask 100 mL A: ±0.1 mL, triangular (ISO 1042:1998; confirmed by EURACHEM/CITAC "
            "QUAM:2012 A1).");
  EXPECT_NEAR(spread_of(flask, 0.1, Unit::known("L"))->standard, 1e-4 / std::sqrt(6.0), 1e-15);
}

TEST(Glassware, SaysWhenALimitIsFromMemory) {
  const Instrument cylinder = find_instrument("ISO 4788 cylinder 25 mL A").value();
  const Spread spread = spread_of(cylinder, 20, Unit::known("mL")).value();
  EXPECT_NE(spread.reason.find("from memory, check it against the standard"), std::string::npos) << spread.reason;
}

TEST(Glassware, MeasuresTemperaturesAndTheirDifferences) {
  const Instrument sensor = find_instrument("resistance thermometer class A").value();
  EXPECT_NEAR(spread_of(sensor, 100, Unit::known("Cel"))->half_width, 0.35, 1e-9);  // IEC 60751: 0.15 + 0.002·100
  EXPECT_NEAR(spread_of(sensor, 212, Unit::known("[degF]"))->half_width, 0.35 * 1.8, 1e-9);
  const Instrument glass = find_instrument("thermometer 1 °C").value();
  const double single = spread_of(glass, 20, Unit::known("Cel"))->standard;
  EXPECT_NEAR(spread_of(glass, 20, Unit::known("Cel").as_difference())->standard, single * std::sqrt(2.0), 1e-12);
}

TEST(Glassware, RefusesAnotherDimension) {
  EXPECT_EQ(spread_of(find_instrument("balance 0.01 g").value(), 1, Unit::known("mL")).fault().code,
            Code::wrong_dimension);
}

}  // namespace
}  // namespace sash::quantity
