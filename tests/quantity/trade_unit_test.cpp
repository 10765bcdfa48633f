#include "quantity/trade_unit.h"

#include <gtest/gtest.h>

#include <optional>
#include <string>

namespace sash::quantity {
namespace {

struct Case {
  const char* text;
  const char* same_as;  // UCUM
  std::optional<Kind> kind;
};

class TradeUnitCases : public testing::TestWithParam<Case> {};

TEST_P(TradeUnitCases, ReadsWhatPeopleWrite) {
  const Case& want = GetParam();
  const auto read = read_trade_unit(want.text);
  ASSERT_TRUE(read.ok()) << want.text << ": " << read.fault().sentence;
  EXPECT_EQ(read->kind, want.kind) << want.text;
  const auto unit = want.kind ? unit_for(*want.kind, want.same_as) : Unit::parse(want.same_as);
  ASSERT_TRUE(unit.ok()) << want.same_as;
  EXPECT_TRUE(read->unit.converts_to(*unit)) << want.text;
  EXPECT_DOUBLE_EQ(read->unit.to_si(3), unit->to_si(3)) << want.text;
}

INSTANTIATE_TEST_SUITE_P(
    Spellings, TradeUnitCases,
    testing::Values(Case{"ml", "mL", Kind::volume}, Case{"mL", "mL", Kind::volume}, Case{"ML", "mL", Kind::volume},
                    Case{"millilitres", "mL", Kind::volume}, Case{"Milliliter", "mL", Kind::volume},
                    Case{"mils", "mL", Kind::volume}, Case{"µL", "uL", Kind::volume}, Case{"μl", "uL", Kind::volume},
                    Case{"microlitres", "uL", Kind::volume}, Case{"cc", "cm3", Kind::volume},
                    Case{"cm³", "cm3", Kind::volume}, Case{"cm^3", "cm3", Kind::volume},
                    Case{"cubic centimetres", "cm3", Kind::volume}, Case{"fl oz", "[foz_us]", Kind::volume},
                    Case{"tablespoons", "[tbs_us]", Kind::volume}, Case{"drops", "[drp]", Kind::volume},
                    Case{"g", "g", Kind::mass}, Case{"grams", "g", Kind::mass}, Case{"kilos", "kg", Kind::mass},
                    Case{"ounces", "[oz_av]", Kind::mass}, Case{"lbs", "[lb_av]", Kind::mass},
                    Case{"tonnes", "t", Kind::mass}, Case{"°C", "Cel", Kind::temperature},
                    Case{"deg C", "Cel", Kind::temperature}, Case{"degrees C", "Cel", Kind::temperature},
                    Case{"degrees Celsius", "Cel", Kind::temperature}, Case{"C", "Cel", Kind::temperature},
                    Case{"℃", "Cel", Kind::temperature}, Case{"degrees", "Cel", Kind::temperature},
                    Case{"° F", "[degF]", Kind::temperature}, Case{"degrees Fahrenheit", "[degF]", Kind::temperature},
                    Case{"K", "K", Kind::temperature}, Case{"kelvin", "K", Kind::temperature}));

INSTANTIATE_TEST_SUITE_P(
    Strengths, TradeUnitCases,
    testing::Values(
        Case{"mol/l", "mol/L", Kind::molar_concentration}, Case{"M", "mol/L", Kind::molar_concentration},
        Case{"mM", "mmol/L", Kind::molar_concentration}, Case{"molar", "mol/L", Kind::molar_concentration},
        Case{"millimolar", "mmol/L", Kind::molar_concentration}, Case{"µM", "umol/L", Kind::molar_concentration},
        Case{"mol·L⁻¹", "mol/L", Kind::molar_concentration}, Case{"mol L-1", "mol/L", Kind::molar_concentration},
        Case{"moles per litre", "mol/L", Kind::molar_concentration},
        Case{"mol dm-3", "mol/L", Kind::molar_concentration}, Case{"N", "eq/L", Kind::molar_concentration},
        Case{"molal", "mol/kg", Kind::molality}, Case{"grams per litre", "g/L", Kind::mass_concentration},
        Case{"mg/mL", "mg/mL", Kind::mass_concentration}, Case{"g/100 mL", "g/(100.mL)", Kind::mass_concentration},
        Case{"g/cm³", "g/cm3", Kind::density}, Case{"g / mL", "g/mL", Kind::density},
        Case{"kg m⁻³", "kg/m3", Kind::density}, Case{"g/cc", "g/cm3", Kind::density},
        Case{"% w/w", "%", Kind::mass_percent}, Case{"%w/w", "%", Kind::mass_percent},
        Case{"% (w/v)", "%", Kind::mass_volume_percent}, Case{"wt.%", "%", Kind::mass_percent},
        Case{"percent by volume", "%", Kind::volume_percent}, Case{"% v/v", "%", Kind::volume_percent},
        Case{"% w/v", "%", Kind::mass_volume_percent}, Case{"%", "%", std::nullopt},
        Case{"per cent", "%", std::nullopt}, Case{"ppm", "[ppm]", std::nullopt}, Case{"°Bé", "[degBe]", Kind::density},
        Case{"specific gravity", "[SG]", Kind::density}, Case{"pH", "[pH]", Kind::pH},
        Case{"equiv.", "1", Kind::equivalents}, Case{"eq", "1", Kind::equivalents}));

INSTANTIATE_TEST_SUITE_P(
    Others, TradeUnitCases,
    testing::Values(Case{"psi", "[psi]", Kind::pressure}, Case{"pounds per square inch", "[psi]", Kind::pressure},
                    Case{"mmHg", "mm[Hg]", Kind::pressure}, Case{"mm Hg", "mm[Hg]", Kind::pressure},
                    Case{"torr", "mm[Hg]", Kind::pressure}, Case{"Torr", "mm[Hg]", Kind::pressure},
                    Case{"mbar", "mbar", Kind::pressure}, Case{"kilopascals", "kPa", Kind::pressure},
                    Case{"hours", "h", Kind::duration}, Case{"hrs", "h", Kind::duration},
                    Case{"min.", "min", Kind::duration}, Case{"secs", "s", Kind::duration},
                    Case{"days", "d", Kind::duration}, Case{"amp hours", "A.h", Kind::charge},
                    Case{"mAh", "mA.h", Kind::charge}, Case{"volts", "V", Kind::voltage},
                    Case{"milliamps", "mA", Kind::current}, Case{"kilojoules", "kJ", Kind::energy},
                    Case{"g/mol", "g/mol", Kind::molar_mass}, Case{"inches", "[in_i]", Kind::length},
                    Case{"kJ/mol", "kJ/mol", Kind::other}, Case{"J/(g °C)", "J/(g.K)", Kind::other},
                    Case{"°C/min", "K/min", Kind::other}, Case{"mEq/L", "meq/L", Kind::molar_concentration},
                    Case{"deg. C", "Cel", Kind::temperature}, Case{"hrs.", "h", Kind::duration},
                    Case{"L/min", "L/min", Kind::other}, Case{"mol%", "%", Kind::percent_other},
                    Case{"[lb_av]", "[lb_av]", Kind::mass}, Case{"millimoles", "mmol", Kind::amount}));

TEST(TradeUnit, OffersTheNearestSpelling) {
  const auto read = read_trade_unit("milliltres");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.fault().code, Code::unknown_name);
  EXPECT_EQ(read_trade_unit("gallns").fault().sentence, "There is no unit \"gallns\"; did you mean \"gallon\"?");
  EXPECT_EQ(read_trade_unit("  ").fault().code, Code::malformed);
}

}  // namespace
}  // namespace sash::quantity
