// Names of compounds and ions and the charges of elements against tables others made: every row that a reference gives
// is read here by our own rules.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "chem/names.h"
#include "known/chem/worked_row.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::chem {
namespace {

std::string hill_of(const Formula& formula) { return hill_text(formula.composition(), formula.charge()); }

// Columns of a table of the program, without its first line.
std::vector<std::vector<std::string>> table_rows(const std::string& path) {
  std::vector<std::vector<std::string>> rows;
  const std::string table = test::read_source_file(path);
  for (const std::string_view line : split_lines(table)) {
    std::vector<std::string> row;
    for (const std::string_view cell : split(line, '\t')) row.emplace_back(cell);
    rows.push_back(std::move(row));
  }
  rows.erase(rows.begin());
  return rows;
}

// Formulas by OPSIN, a reader of chemical names, and where it knows none the molar mass in the CRC Handbook.
TEST(KnownNames, MeanTheCompoundsTheyMeanElsewhere) {
  const auto rows = test::read_table("known/chem/names.csv");
  ASSERT_EQ(rows.size(), 2518U);
  for (const test::Row& row : rows) {
    const auto read = formula_of(text(row, "name"));
    ASSERT_TRUE(read.ok()) << row.at("id") << ": " << read.fault().sentence;
    if (row.at("unit") == "g/mol") {
      const auto mass = molar_mass(*read);
      ASSERT_TRUE(mass.ok()) << row.at("id");
      expect_row(row, mass->value);
    } else {
      EXPECT_EQ(hill_of(*read), hill_of(*read_formula(row.at("expected")))) << row.at("id") << " " << row.at("inputs");
    }
  }
}

TEST(KnownIons, HaveTheFormulasAndChargesTheyHaveElsewhere) {
  const auto rows = test::read_table("known/chem/ions.csv");
  ASSERT_EQ(rows.size(), 337U);
  std::set<std::string> attested;
  for (const test::Row& row : rows) {
    const auto read = formula_of(text(row, "name") + " ion");
    ASSERT_TRUE(read.ok()) << row.at("id") << ": " << read.fault().sentence;
    const auto expected = read_formula(row.at("expected"));
    EXPECT_NE(expected->charge(), 0) << row.at("id");
    EXPECT_EQ(hill_of(*read), hill_of(*expected)) << row.at("id") << " " << row.at("inputs");
    attested.insert(hill_of(*expected));
  }
  // Each ion of our own table was met, or says that nobody else's table was seen for it.
  int from_memory = 0;
  for (const auto& row : table_rows("assets/tables/ions.tsv")) {
    const bool memory = row[5].starts_with("from memory");
    from_memory += memory ? 1 : 0;
    EXPECT_NE(attested.contains(hill_of(*read_formula(row[1]))), memory) << row[0];
  }
  EXPECT_EQ(from_memory, 90);
}

TEST(KnownCharges, AreStatesOthersTabulate) {
  std::map<std::string, std::set<int>> states;
  for (const test::Row& row : test::read_table("known/chem/oxidation_states.csv")) {
    const std::string& listed = row.at("expected");
    for (const std::string_view state : split(listed, ';')) {
      states[text(row, "symbol")].insert(static_cast<int>(*read_number(trim(state))));
    }
  }
  int checked = 0;
  for (const auto& row : table_rows("assets/tables/cation_charges.tsv")) {
    ASSERT_TRUE(states.contains(row[0])) << row[0];
    const auto charges = split(row[1], ';');
    for (const std::string_view charge : charges) {
      ++checked;
      EXPECT_TRUE(states[row[0]].contains(static_cast<int>(*read_number(charge)))) << row[0] << " " << charge;
    }
    EXPECT_TRUE(row[2].empty() || std::ranges::find(charges, row[2]) != charges.end()) << row[0];
  }
  EXPECT_EQ(checked, 104);
}

}  // namespace
}  // namespace sash::chem
