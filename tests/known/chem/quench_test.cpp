// Bleach titrations, doses and neutralisers: every row of the table is computed by our code.

#include "chem/quench.h"

#include <gtest/gtest.h>

#include <functional>
#include <map>

#include "chem/commercial.h"
#include "chem/stoichiometry.h"
#include "chem/titration.h"
#include "known/chem/worked_row.h"

namespace sash::chem {
namespace {

Formula formula(std::string_view name) { return *read_formula(name); }
constexpr double millilitre = 1e-3;

/// "0.399 M" and plain numbers.
double leading(const test::Row& row, const std::string& key) {
  const std::string cell = text(row, key);
  return *read_number(cell.substr(0, cell.find(' ')));
}

/// g of NaOCl in the sample; iodine freed by hypochlorite takes two thiosulfate.
double hypochlorite_grams(const test::Row& row, double aliquot = 1, double made_up = 1) {
  Titration t;
  t.titrant_molarity = leading(row, "c_thio");
  t.titrant_litres = input(row, "V_thio_mL") * millilitre;
  t.titrant_per_analyte = 2;
  t.aliquot_litres = aliquot;
  t.made_up_litres = made_up;
  return *titrated_amount(t) * molar("NaOCl");
}

double grams(const char* target, double mol, const char* agent, std::string_view target_way = {},
             std::string_view agent_way = {}) {
  const auto need = quench(formula(target), mol, formula(agent), target_way, agent_way);
  EXPECT_TRUE(need) << (need ? "" : need.fault().sentence);
  return need ? need->needed_grams : 0;
}

double dose(const test::Row& row) {
  const std::string agent = text(row, "formula");
  const std::string named = text(row, "agent");
  const std::string_view way = named.find("sulfate)") != std::string::npos ? "sulfate" : "";
  return grams("Cl2", 1 / molar("Cl2"), agent.c_str(), {}, way);
}

using Task = std::function<double(const test::Row&)>;

const std::map<std::string, Task>& tasks() {
  static const std::map<std::string, Task> by_id{
      {"QUE-001", [](const auto& r) { return hypochlorite_grams(r, 50, 250) / 20 * 100; }},
      {"QUE-002",
       [](const auto&) {
         return *titrated_amount({.titrant_molarity = 0.1, .titrant_litres = millilitre, .titrant_per_analyte = 2}) *
                molar("NaOCl") * 1e3;
       }},
      {"QUE-004", [](const auto&) { return available_chlorine(0.06) * 100; }},
      {"QUE-005", [](const auto&) { return trade_percent(0.057, 1.1); }},
      {"QUE-007", [](const auto& r) { return hypochlorite_grams(r) / (3.0 * 1.084) * 100; }},
      {"QUE-008", [](const auto& r) { return hypochlorite_grams(r) / (5.00 * 1.00) * 100; }},
      {"QUE-010", [](const auto& r) { return hypochlorite_grams(r) / 48.0 * 100; }},
      {"QUE-011", [](const auto& r) { return hypochlorite_grams(r, 25, 1000) / 25 * 100; }},
      {"QUE-020",
       [](const auto&) { return grams("Cl2", 1e-3 / molar("Cl2"), "Na2S2O3") / molar("Na2S2O3") / 0.0250 * 1e3; }},
      {"QUE-022",
       [](const auto&) {
         return *titrated_amount({.titrant_molarity = 0.0500, .titrant_litres = 16.7 * millilitre}) /
                (25.0 * millilitre);
       }},
      {"QUE-023", [](const auto&) { return grams("HNO3", 2500 / molar("HNO3"), "Na2CO3") / 1000; }},
      {"QUE-025", [](const auto&) { return grams("HCl", 0.050 * 6.0, "Na2CO3"); }},
      {"QUE-026", [](const auto&) { return grams("NaOH", 0.025 * 2.0, "C6H8O7·H2O"); }},
      {"QUE-028", [](const auto&) { return grams("KMnO4", 0.020 * 0.020, "NaHSO3", "neutral"); }},
      {"QUE-029", [](const auto&) { return grams("I2", 1.00 / molar("I2"), "Na2S2O3·5H2O"); }},
      {"QUE-031", [](const auto&) { return peroxide_molarity(20); }},
      {"QUE-032", [](const auto&) { return grams("K2Cr2O7", 1.00 / molar("K2Cr2O7"), "NaHSO3"); }},
  };
  return by_id;
}

TEST(KnownQuench, EveryRowIsComputed) {
  const auto rows = test::read_table("known/chem/quench.csv");
  ASSERT_EQ(rows.size(), 22u);
  for (const auto& row : rows) {
    const auto task = tasks().find(row.at("id"));
    expect_row(row, task != tasks().end() ? task->second(row) : dose(row));
  }
}

// OpenStax Chemistry 2e, Ch. 4 exercise 54: 2.0 kg of sodium carbonate on 2.5 kg of nitric acid is not enough.
TEST(KnownQuench, TheSpillIsNotNeutralised) {
  const double mol = 2500 / molar("HNO3");
  const auto margin = margin_of(*quench(formula("HNO3"), mol, formula("Na2CO3")), mol, 2000);
  ASSERT_TRUE(margin);
  EXPECT_FALSE(margin->enough);
  EXPECT_NEAR(margin->missing_grams, 103, 5);
}

}  // namespace
}  // namespace sash::chem
