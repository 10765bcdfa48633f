// Identities of units: whatever the code, the number, the prefix.
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "quantity/glassware.h"
#include "quantity/kind.h"
#include "quantity/show.h"
#include "quantity/trade_unit.h"
#include "quantity/unit.h"
#include "quantity/value.h"

namespace sash::quantity {
namespace {

const std::vector<double> numbers{0, 1, -1, 0.25, 4, 12.6, 250, 1e-9, 6.02214076e23, -273, 98.6};

/// Every known code, and every code that takes prefixes with some of them.
std::vector<Unit> many_units() {
  std::vector<Unit> out;
  for (const std::string_view code : known_unit_codes()) {
    out.push_back(Unit::known(code));
    for (const char* prefix : {"k", "m", "u", "n", "c", "da"}) {
      if (auto prefixed = Unit::parse(prefix + std::string(code)); prefixed.ok())
        out.push_back(std::move(prefixed).value());
    }
  }
  return out;
}

bool close(double a, double b, double scale) { return std::abs(a - b) <= 1e-12 * (std::abs(scale) + std::abs(b)); }

TEST(UnitLaws, ThereAndBackIsTheSameNumber) {
  for (const Unit& unit : many_units()) {
    for (const double number : numbers) {
      const double si = unit.to_si(number);
      if (!unit.is_linear() && !(si > 0)) continue;  // off the hydrometer's scale
      const double offset = unit.from_si(0);         // digits lost to 273.15 belong to the scale, not to the law
      EXPECT_TRUE(close(unit.from_si(si), number, offset)) << unit.code() << " " << number << " " << unit.from_si(si);
    }
  }
}

TEST(UnitLaws, OneUnitInAnotherAndBackIsTheSameNumber) {
  const auto units = many_units();
  for (const Unit& a : units) {
    for (const Unit& b : units) {
      if (!a.converts_to(b) || !a.is_linear() || !b.is_linear()) continue;
      const double si = a.to_si(12.6);
      const double back = a.to_si(a.from_si(b.to_si(b.from_si(si))));
      // Temperatures pass through kelvin, so some hundred kelvin set the digits that can be kept.
      const bool points = a.stance() == Stance::point || b.stance() == Stance::point;
      EXPECT_NEAR(back, si, 1e-12 * (std::abs(si) + (points ? 500 : 0))) << a.code() << " " << b.code();
    }
  }
}

TEST(UnitLaws, ProductsAndQuotientsOfCodesMultiplyAndDivideSizes) {
  for (const Unit& a : many_units()) {
    for (const Unit& b : {Unit::known("mL"), Unit::known("kg"), Unit::known("[in_i]"), Unit::known("h")}) {
      const auto product = Unit::parse(a.code() + "." + b.code());
      const auto quotient = Unit::parse(a.code() + "/" + b.code());
      if (a.stance() == Stance::point || !a.is_linear() || a.code() == "[pH]" || a.code() == "[SG]" ||
          a.code() == "[vol]") {
        EXPECT_FALSE(product.ok()) << a.code();
        continue;
      }
      ASSERT_TRUE(product.ok() && quotient.ok()) << a.code() << " " << b.code();
      EXPECT_EQ(product->dimension(), a.dimension() * b.dimension());
      EXPECT_EQ(quotient->dimension(), a.dimension() / b.dimension());
      EXPECT_TRUE(close(product->to_si(1), a.to_si(1) * b.to_si(1), 0)) << product->code();
      EXPECT_TRUE(close(quotient->to_si(1), a.to_si(1) / b.to_si(1), 0)) << quotient->code();
    }
  }
}

TEST(UnitLaws, AFactorAndItsInverseLeaveTheNumberAlone) {
  for (const Unit& a : many_units()) {
    const auto one = Unit::parse(a.code() + "/" + a.code());
    if (!one) continue;
    EXPECT_TRUE(one->dimension().is_plain());
    EXPECT_DOUBLE_EQ(one->to_si(1), 1) << a.code();
  }
}

TEST(UnitLaws, TheSlopeIsTheDerivative) {
  for (const Unit& unit : many_units()) {
    const double at = 20;
    const double step = 1e-3;
    const double measured = std::abs(unit.to_si(at + step) - unit.to_si(at - step)) / (2 * step);
    const double lost = 1e-15 * std::abs(unit.to_si(at)) / (unit.slope_at(at) * step);  // to rounding
    EXPECT_NEAR(unit.slope_at(at) / measured, 1, 1e-5 + lost) << unit.code();
  }
}

TEST(UnitLaws, TheUnitOfDisplayChangesNoValue) {
  for (const Kind kind : all_kinds()) {
    const Unit home = default_unit(kind);
    const Value value = Value::of(37.5, 0.4, home).value();
    const Unit shown = readable_unit(kind, value.si());
    const Value again = Value::of(value.in(shown).value(), value.spread_in(shown).value(), shown).value();
    EXPECT_TRUE(close(again.si(), value.si(), 0)) << kind_name(kind);
    EXPECT_TRUE(close(again.si_spread(), value.si_spread(), 0)) << kind_name(kind);
  }
}

TEST(UnitLaws, EveryUcumCodeMayBeTyped) {
  for (const Unit& unit : many_units()) {
    const auto read = read_trade_unit(unit.code());
    ASSERT_TRUE(read.ok()) << unit.code();
  }
}

TEST(UnitLaws, TheTradeSpellingReadsBackToTheSameUnit) {
  for (const char* code :
       {"g",     "mg",     "kg",     "ug",      "mL",   "L",     "uL",     "cm3",    "mol",   "mmol",
        "mol/L", "mmol/L", "mol/kg", "g/L",     "g/mL", "kg/m3", "Cel",    "[degF]", "K",     "min",
        "h",     "s",      "d",      "bar",     "mbar", "atm",   "mm[Hg]", "kPa",    "hPa",   "[psi]",
        "%",     "[ppm]",  "kJ",     "J/(g.K)", "A.h",  "mA",    "V",      "W",      "g/mol", "[pH]"}) {
    const Unit unit = Unit::known(code);
    const auto read = read_trade_unit(unit.symbol());
    ASSERT_TRUE(read.ok()) << unit.symbol();
    EXPECT_EQ(read->unit.dimension(), unit.dimension()) << unit.symbol();
    EXPECT_DOUBLE_EQ(read->unit.to_si(3), unit.to_si(3)) << unit.symbol();
  }
}

TEST(UnitLaws, NoTextBreaksAReader) {
  std::mt19937_64 draw(7);
  const std::string alphabet = "gmLlkKuµ°%[]{}().,/*^-+ 0123456789eqdFCelPaHw\xC3\xFF\t'\"";
  const auto sentence_of = [](const auto& outcome) {
    return outcome.ok() ? std::string(".") : outcome.fault().sentence;
  };
  for (int i = 0; i < 1500; ++i) {
    std::string text;
    for (std::size_t n = draw() % 14; n > 0; --n) text += alphabet[draw() % alphabet.size()];
    for (const std::string& sentence :
         {sentence_of(Unit::parse(text)), sentence_of(read_trade_unit(text)), sentence_of(find_instrument(text))}) {
      EXPECT_TRUE(sentence.ends_with('.') || sentence.ends_with('?')) << text << ": " << sentence;
    }
  }
}

}  // namespace
}  // namespace sash::quantity
