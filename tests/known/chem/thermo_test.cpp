// Worked heat problems and tabulated enthalpies: every row of the table is computed by our code.

#include <gtest/gtest.h>

#include <array>
#include <functional>
#include <map>

#include "chem/heat.h"
#include "chem/thermochemistry.h"
#include "chem/vapour_pressure.h"
#include "known/chem/worked_row.h"

namespace sash::chem {
namespace {

constexpr double c_water = 4.184;  // what these problems use unless they say another

double solution_row(const test::Row& row) {
  std::string solute = text(row, "solute");
  std::optional<State> state;
  for (const auto& [mark, meant] : std::map<std::string, State>{{"(g)", State::gas}, {"(l)", State::liquid}}) {
    if (!solute.ends_with(mark)) continue;
    solute.erase(solute.size() - mark.size());
    state = meant;
  }
  const auto found = solution_enthalpy(*read_formula(solute), state);
  EXPECT_TRUE(found) << row.at("id");
  return found ? found->value : 0;
}

// Products less reactants of a dissolution, from the sums the row states.
double dissolution(double ions, double solid) {
  return reaction_enthalpy(std::array<HeatTerm, 2>{{{1, ions}, {-1, solid}}});
}

double copper_and_water(const test::Row& row) {
  const Body water{input(row, "m_w_g"), c_water, input(row, "T1w")};
  const double copper = input(row, "m_Cu_g") * input(row, "c_Cu");
  if (has(row, "Tf")) return *starting_temperature(copper, {&water, 1}, input(row, "Tf"));
  const std::array bodies{water, Body{input(row, "m_Cu_g"), input(row, "c_Cu"), input(row, "T1")}};
  return *final_temperature(bodies);
}

using Task = std::function<double(const test::Row&)>;

const std::map<std::string, Task>& tasks() {
  static const std::map<std::string, Task> by_id{
      {"THM-031", [](const auto&) { return dissolution(-407.30, -411.2); }},
      {"THM-032", [](const auto&) { return dissolution(-419.60, -436.5); }},
      {"THM-034", [](const auto&) { return dissolution(-339.90, -365.56); }},
      {"THM-035", [](const auto&) { return dissolution(-167.20, -92.307); }},
      {"THM-037", copper_and_water},
      {"THM-038", copper_and_water},
      {"THM-040",
       [](const auto& r) {
         const Body water{input(r, "m_w_g"), c_water, input(r, "T1w")};
         return *specific_heat(input(r, "m_metal_g"), input(r, "T1"), {&water, 1}, input(r, "Tf"));
       }},
      {"THM-041",
       [](const auto& r) {
         return heat_taken_up((input(r, "V_HCl_mL") + input(r, "V_NaOH_mL")) * input(r, "rho") * c_water,
                              input(r, "Tmax") - input(r, "T1"));
       }},
      {"THM-043",
       [](const auto& r) {
         return -heat_taken_up((input(r, "m_NH4NO3_g") + input(r, "m_water_g")) * c_water, 20.3 - 24.9) / 1e3;
       }},
      {"THM-044",
       [](const auto& r) {
         return -heat_taken_up((input(r, "m_KCl_g") + input(r, "m_water_g")) * c_water, input(r, "dT")) / 1e3;
       }},
      {"THM-046",
       [](const auto& r) {
         return heat_taken_up(input(r, "m_water_g") * c_water + input(r, "C_bomb"), input(r, "dT")) / 1e3;
       }},
      {"THM-047", [](const auto& r) { return input(r, "q_kJ") / input(r, "n_HCl"); }},
      {"THM-049", [](const auto& r) { return -input(r, "dHc") * input(r, "m_C2H2_g") / molar("C2H2"); }},
      {"THM-050",
       [](const auto& r) {
         return -heat_taken_up((input(r, "m_CaCl2_g") + input(r, "m_water_g")) * input(r, "c"), 25.8 - 22.4) / 1e3;
       }},
      {"THM-052",
       [](const auto& r) { return -heat_taken_up((3.15 + 1.52 + 100) * input(r, "c"), input(r, "dT")) / 1e3; }},
      {"THM-053", [](const auto& r) { return input(r, "q_kJ") / (input(r, "m_NH4NO3_g") / molar("NH4NO3")); }},
      {"THM-055", [](const auto& r) { return -input(r, "dHc") * input(r, "n_C2H2"); }},
      {"THM-056", [](const auto& r) { return input(r, "q_kJ") / 5465.5; }},
      {"THM-058", [](const auto& r) { return input(r, "m_C_g") / molar("C") * -input(r, "dHc") / (27.93 - 26.74); }},
      {"THM-059",
       [](const auto& r) {
         return reaction_enthalpy(std::array<HeatTerm, 2>{{{1, input(r, "dH1")}, {1, input(r, "dH2")}}});
       }},
      {"THM-061",
       [](const auto&) {
         return reaction_enthalpy(std::array<HeatTerm, 4>{{{-3, 33.2}, {-1, -285.83}, {2, -206.64}, {1, 90.25}}});
       }},
  };
  return by_id;
}

double row_value(const test::Row& row) {
  if (const auto task = tasks().find(row.at("id")); task != tasks().end()) return task->second(row);
  const std::string wanted = row.pairs("inputs").at("wanted");
  if (wanted == "enthalpy of solution") return solution_row(row);
  if (wanted == "dew point") return *dew_point(input(row, "t_C"), input(row, "RH_percent") / 100);
  if (wanted == "saturation vapour pressure") return *magnus_pressure(input(row, "t_C")) / 100;
  if (wanted == "cp") return heat_capacity("water", input(row, "t_C"))->value;
  ADD_FAILURE() << row.at("id") << " asks for " << wanted;
  return 0;
}

TEST(KnownHeat, EveryRowIsComputed) {
  const auto rows = test::read_table("known/chem/thermo.csv");
  ASSERT_EQ(rows.size(), 53u);
  for (const auto& row : rows) expect_row(row, row_value(row));
}

}  // namespace
}  // namespace sash::chem
