#pragma once
// What the walks over tables of worked examples share: numbers of a row, what is near enough, how many rows were
// walked.

#include <gtest/gtest.h>

#include <string>

#include "chem/molar_mass.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::chem {

/// The number after "key=" in the inputs; a test failure and 0 when there is none.
inline double input(const test::Row& row, const std::string& key) {
  const auto pairs = row.pairs("inputs");
  const auto it = pairs.find(key);
  if (it == pairs.end()) {
    ADD_FAILURE() << row.at("id") << " has no " << key;
    return 0;
  }
  const auto number = read_number(it->second);
  EXPECT_TRUE(number.has_value()) << row.at("id") << ": " << key << "=" << it->second;
  return number.value_or(0);
}

inline bool has(const test::Row& row, const std::string& key) { return row.pairs("inputs").contains(key); }
inline std::string text(const test::Row& row, const std::string& key) { return row.pairs("inputs").at(key); }

/// "exact" rows are transcribed figures: only the rounding of binary fractions is let through.
inline void expect_row(const test::Row& row, double computed) {
  const double expected = row.number("expected");
  const std::string tolerance = row.at("tolerance");
  const double allowed = tolerance == "exact" ? 1e-9 * std::abs(expected) : *read_number(tolerance);
  EXPECT_NEAR(computed, expected, allowed * (1 + 1e-9)) << row.at("id") << " " << row.at("inputs");
}

/// g/mol.
inline double molar(std::string_view formula) { return molar_mass(*read_formula(formula))->value; }

}  // namespace sash::chem
