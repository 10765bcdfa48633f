#include "chem/molar_mass.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sash::chem {
namespace {

MolarMass mass_of(std::string_view text) { return molar_mass(*read_formula(text)).value(); }

// Published plus-minus: H 0.0002, O 0.001, S 0.02, Cu 0.003 (IUPAC 2021); rectangular: divided by the root of 3 (JCGM
// 100, 4.3.7).
TEST(MolarMass, AddsUncertaintyWithinAnElementAndCombinesAcrossElements) {
  EXPECT_NEAR(mass_of("H2O").bound, 0.0014, 1e-12);
  EXPECT_NEAR(mass_of("H2O").spread, std::hypot(0.0004, 0.001) / std::sqrt(3.0), 1e-12);
  // The O of sulfate and of water is one element: 9 * 0.001, not the root of sum of squares of 4 and 5.
  EXPECT_NEAR(mass_of("CuSO4·5H2O").spread,
              std::sqrt(0.003 * 0.003 + 0.02 * 0.02 + 0.009 * 0.009 + 0.002 * 0.002) / std::sqrt(3.0), 1e-12);
}

TEST(MolarMass, LeavesOutTheMassOfElectrons) { EXPECT_DOUBLE_EQ(mass_of("SO4^2-").value, mass_of("SO4").value); }

TEST(MolarMass, WeighsHalfAWaterExactly) {
  EXPECT_NEAR(mass_of("CaSO4·0.5H2O").value, mass_of("CaSO4").value + 0.5 * mass_of("H2O").value, 1e-9);
}

TEST(MolarMass, SaysWhichElementHasNoWeight) {
  const auto technetium = molar_mass(*read_formula("NaTcO4"));
  ASSERT_FALSE(technetium.ok());
  EXPECT_EQ(technetium.fault().code, Code::out_of_range);
  EXPECT_EQ(
      technetium.fault().sentence,
      "The element technetium has no standard atomic weight; write the isotope you mean, as in [99Tc] or [222Rn].");
  EXPECT_TRUE(molar_mass(*read_formula("Na[99Tc]O4")).ok());
  EXPECT_FALSE(molar_mass(*read_formula("e^-")).ok());
}

TEST(MassShares, AddUpToOne) {
  const auto shares = mass_shares(*read_formula("K4[Fe(CN)6]·3H2O"));
  ASSERT_TRUE(shares.ok());
  double sum = 0;
  for (const MassShare& s : *shares) sum += s.fraction;
  EXPECT_NEAR(sum, 1.0, 1e-12);
}

// w = m/M with m and M sharing their own element: for two elements, u(w) = w(1-w) sqrt((u1/m1)^2 + (u2/m2)^2).
TEST(MassShares, CarryTheUncertaintyOfARatio) {
  const auto shares = mass_shares(*read_formula("PbO")).value();
  const double w = shares[0].fraction;
  const double lead = 1.1 / std::sqrt(3.0) / 207.2;
  const double oxygen = 0.001 / std::sqrt(3.0) / 15.999;
  EXPECT_NEAR(shares[0].spread, w * (1 - w) * std::hypot(lead, oxygen), 1e-12);
}

TEST(MassShares, OfASingleElementAreCertain) {
  const auto shares = mass_shares(*read_formula("Pb")).value();
  EXPECT_DOUBLE_EQ(shares[0].fraction, 1.0);
  EXPECT_DOUBLE_EQ(shares[0].spread, 0.0);
}

}  // namespace
}  // namespace sash::chem
