// Walks gnu_units.csv: sizes of our units against GNU Units (Debian package units), asked at test time.
#include <gtest/gtest.h>

#include <cmath>
#include <optional>
#include <string>

#include "quantity/unit.h"
#include "support/text.h"
#include "tools/gnu_units.h"
#include "tools/table.h"

namespace sash::quantity {
namespace {

TEST(GnuUnits, AgreesOnEveryUnit) {
  if (!test::has_gnu_units()) GTEST_SKIP() << "the package units is not installed";
  for (const test::Row& row : test::read_table("known/quantity/gnu_units.csv")) {
    const auto parts = split(row.at("ucum"), ':');
    const Unit unit = Unit::parse(parts[0]).value();
    const double number = parts.size() > 1 ? read_number(parts[1]).value() : 1;
    const auto theirs = test::ask_gnu_units(row.at("gnu"), row.at("into"));
    const auto target =
        test::ask_gnu_units("1 " + row.at("into"), row.at("si").empty() ? row.at("into") : row.at("si"));
    ASSERT_TRUE(theirs && target) << row.at("id");
    const double expected = *theirs * *target;
    EXPECT_NEAR(unit.to_si(number), expected, std::abs(expected) * row.number("relative"))
        << row.at("id") << " " << row.at("ucum");
  }
}

}  // namespace
}  // namespace sash::quantity
