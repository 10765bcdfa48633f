// Worked gas problems of textbooks: every row of the table is computed by our code.

#include "chem/gas.h"

#include <gtest/gtest.h>

#include <functional>
#include <map>

#include "chem/stoichiometry.h"
#include "chem/vapour_pressure.h"
#include "known/chem/worked_row.h"

namespace sash::chem {
namespace {

constexpr double torr = atmosphere / 760;
constexpr double litre = 1e-3;
double kelvin(double celsius) { return celsius + zero_celsius; }

/// "742.1 mmHg", "99.6 C", "0.494 g" in SI (g stays g); a bare number as it is.
double measured(const test::Row& row, const std::string& key) {
  const std::map<std::string, std::pair<double, double>> units{
      {"K", {1, 0}},       {"C", {1, zero_celsius}}, {"kPa", {1e3, 0}}, {"atm", {atmosphere, 0}},
      {"torr", {torr, 0}}, {"mmHg", {torr, 0}},      {"L", {litre, 0}}, {"mL", {1e-6, 0}},
      {"g", {1, 0}},       {"kg", {1e3, 0}}};
  const std::string cell = text(row, key);
  const auto gap = cell.find(' ');
  const double number = read_number(cell.substr(0, gap)).value();
  if (gap == std::string::npos) return number;
  const auto& [scale, offset] = units.at(cell.substr(gap + 1));
  return number * scale + offset;
}
double temperature(const test::Row& row) { return measured(row, has(row, "T") ? "T" : "t"); }

double molar_volume_row(const test::Row& row) {
  const double r = has(row, "R") ? *read_number(text(row, "R").substr(0, text(row, "R").find(' '))) : gas_constant;
  return molar_volume(temperature(row), measured(row, "p"), r) / litre;
}
double density_row(const test::Row& row) {
  return gas_density(molar(text(row, "gas")), temperature(row), measured(row, "p"));
}
double molar_mass_row(const test::Row& row) {
  return gas_molar_mass(measured(row, "m"), measured(row, "V"), temperature(row), measured(row, "p"));
}
double mass_row(const test::Row& row) {
  const double mol = *solve_gas({measured(row, "p"), measured(row, "V"), temperature(row), std::nullopt});
  return *mass_of(*read_formula(text(row, "gas")), mol);
}
double antoine_row(const test::Row& row) {
  const auto found = antoine_of(text(row, "substance"));
  EXPECT_TRUE(found) << row.at("id") << (found ? "" : found.fault().sentence);
  if (!found) return 0;
  EXPECT_EQ(found->a, input(row, "A"));
  EXPECT_EQ(found->b, input(row, "B"));
  EXPECT_EQ(found->c, input(row, "C"));
  return *found->pressure(input(row, "T"));
}
double water_row(const test::Row& row) { return *vapour_pressure("water", input(row, "t_C")) / torr; }

/// The volume ratio of two gases in an equation, from the volume of the first.
double gas_volume_with(const char* equation, std::size_t known, double volume, std::size_t wanted) {
  return amount_with(*read_equation(equation), known, volume, wanted);
}
/// L of product `wanted` from grams of the first reactant.
double volume_from_mass(const char* equation, double grams, std::size_t wanted, double t, double p) {
  const Equation eq = *read_equation(equation);
  const double mol = amount_with(eq, 0, *amount_of(eq.all()[0].formula, grams), wanted);
  return *solve_gas({p, std::nullopt, t, mol}) / litre;
}

using Task = std::function<double(const test::Row&)>;

const std::map<std::string, Task>& tasks() {
  static const std::map<std::string, Task> by_id{
      {"GAS-009",
       [](const auto& r) {
         return *solve_gas_change({input(r, "P1_torr"), {}, kelvin(input(r, "t1_C")), {}},
                                  {{}, {}, kelvin(input(r, "t2_C")), {}});
       }},
      {"GAS-010",
       [](const auto& r) {
         return *solve_gas_change({{}, input(r, "V1_L"), kelvin(input(r, "t1_C")), {}},
                                  {{}, {}, kelvin(input(r, "t2_C")), {}});
       }},
      {"GAS-012",
       [](const auto&) {
         return *solve_gas_change({{}, 150.0, 273.15, {}}, {{}, 131.7, {}, {}});
       }},
      {"GAS-013",
       [](const auto&) {
         return *solve_gas_change({{}, 405.0, 298.0, {}}, {{}, {}, 467.0, {}});
       }},
      {"GAS-015",
       [](const auto& r) {
         return *solve_gas({{}, input(r, "V_L") * litre, kelvin(input(r, "t_C")), input(r, "n_H2")}) / bar;
       }},
      {"GAS-016",
       [](const auto&) {
         return *solve_gas_change({153.0, 13.2, 300.0, {}}, {3.13, {}, 310.0, {}});
       }},
      {"GAS-024",
       [](const auto& r) {
         return *solve_gas({{}, measured(r, "V"), measured(r, "t"), 0.0388 + 0.147 + 0.0803}) / atmosphere;
       }},
      {"GAS-025",
       [](const auto& r) { return partial_pressure(input(r, "n_O2"), input(r, "n_O2") + input(r, "n_N2O"), 192.0); }},
      {"GAS-027", [](const auto& r) { return over_water(measured(r, "p_total"), litre, 26, 25.2 * torr)->dry / torr; }},
      {"GAS-028",
       [](const auto& r) {
         return over_water(measured(r, "p"), measured(r, "V"), 29, 30.0 * torr)->dry_volume / litre;
       }},
      {"GAS-030", [](const auto&) { return gas_volume_with("2 C2H2 + 5 O2 = 4 CO2 + 2 H2O", 0, 9340, 1) / 7.00e3; }},
      {"GAS-031",
       [](const auto& r) { return gas_volume_with("C2H4 + 3 O2 = 2 CO2 + 2 H2O", 0, measured(r, "V") / litre, 1); }},
      {"GAS-033",
       [](const auto& r) {
         return volume_from_mass("S + O2 = SO2", measured(r, "m_S"), 2, measured(r, "t"), measured(r, "p"));
       }},
      {"GAS-034",
       [](const auto& r) {
         return *solve_gas_change({measured(r, "p1"), {}, measured(r, "t1"), {}}, {{}, {}, measured(r, "t2"), {}}) /
                torr;
       }},
      {"GAS-036",
       [](const auto& r) {
         return *solve_gas({measured(r, "p"), {}, measured(r, "t"), input(r, "n_He")}) / litre;
       }},
      {"GAS-042", [](const auto&) { return gas_volume_with("2 C2H6 + 7 O2 = 4 CO2 + 6 H2O", 0, 12.00, 1); }},
      {"GAS-043",
       [](const auto& r) {
         return volume_from_mass("2 BaO2 = 2 BaO + O2", measured(r, "m"), 2, measured(r, "T"), measured(r, "p"));
       }},
  };
  return by_id;
}

double row_value(const test::Row& row) {
  if (const auto task = tasks().find(row.at("id")); task != tasks().end()) return task->second(row);
  const auto wanted = row.pairs("inputs").at("wanted");
  if (wanted == "molar volume") return molar_volume_row(row);
  if (wanted == "density") return density_row(row);
  if (wanted == "molar mass") return molar_mass_row(row);
  if (wanted == "mass") return mass_row(row);
  if (wanted == "vapour pressure") return water_row(row);
  if (wanted == "p") return antoine_row(row);
  ADD_FAILURE() << row.at("id") << " asks for " << wanted;
  return 0;
}

TEST(KnownGas, EveryRowIsComputed) {
  const auto rows = test::read_table("known/chem/gas.csv");
  ASSERT_EQ(rows.size(), 43u);
  for (const auto& row : rows) expect_row(row, row_value(row));
}

}  // namespace
}  // namespace sash::chem
