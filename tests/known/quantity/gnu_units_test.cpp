// Walks gnu_units.csv: sizes of our units against GNU Units (Debian package units), asked at test time.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <optional>
#include <string>

#include "quantity/unit.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::quantity {
namespace {

constexpr const char* program = "/usr/bin/units";

/// What GNU Units makes of `from`, in `to`; nothing when it cannot.
std::optional<double> ask(const std::string& from, const std::string& to) {
  const std::string command = std::string(program) + " -t -d 15 -- '" + from + "' '" + to + "' 2>&1";
  FILE* pipe = popen(command.c_str(), "r");  // NOLINT(cert-env33-c): a fixed program and rows of our own
  if (pipe == nullptr) return std::nullopt;
  std::string text;
  for (char buffer[200]; std::fgets(buffer, sizeof buffer, pipe) != nullptr;) text += buffer;
  pclose(pipe);
  return read_number(trim(text));
}

TEST(GnuUnits, AgreesOnEveryUnit) {
  if (access(program, X_OK) != 0) GTEST_SKIP() << "the package units is not installed";
  for (const test::Row& row : test::read_table("known/quantity/gnu_units.csv")) {
    const auto parts = split(row.at("ucum"), ':');
    const Unit unit = Unit::parse(parts[0]).value();
    const double number = parts.size() > 1 ? read_number(parts[1]).value() : 1;
    const auto theirs = ask(row.at("gnu"), row.at("into"));
    const auto target = ask("1 " + row.at("into"), row.at("si").empty() ? row.at("into") : row.at("si"));
    ASSERT_TRUE(theirs && target) << row.at("id");
    const double expected = *theirs * *target;
    EXPECT_NEAR(unit.to_si(number), expected, std::abs(expected) * row.number("relative"))
        << row.at("id") << " " << row.at("ucum");
  }
}

}  // namespace
}  // namespace sash::quantity
