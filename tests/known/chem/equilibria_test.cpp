// Tabulated constants and worked equilibria: every row of the table is looked up or solved by our code, the worked ones
// given only the species they name.

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <map>

#include "chem/equilibrium_constants.h"
#include "chem/mass_action.h"
#include "chem/stoichiometry.h"
#include "known/chem/worked_row.h"

namespace sash::chem {
namespace {

Formula f(std::string_view text) { return *read_formula(text); }

/// "Ag(NH3)2+" and "AgCl4-3", as the databases write charges, in our grammar; "AgCl(s)" stays.
std::string our_species(std::string text) {
  const auto sign = text.find_last_of("+-");
  if (sign == std::string::npos || text.find('^') != std::string::npos || text.ends_with("(s)")) return text;
  const std::string size = text.substr(sign + 1);
  return text.substr(0, sign) + "^" + size + text[sign];
}

std::string our_equation(const std::string& text) {
  static const std::map<std::string, std::string> minerals{{"CaCO3 calcite", "CaCO3(s)"},
                                                           {"Ca(OH)2 portlandite", "Ca(OH)2(s)"},
                                                           {"Zn(OH)2(am)", "Zn(OH)2(s)"},
                                                           {"CaSO4:2H2O(s)", "CaSO4·2H2O(s)"}};
  std::string done;
  std::string rest = text;
  for (const auto& [mineral, solid] : minerals) rest = replace_all(std::move(rest), mineral, solid);
  for (const auto part : split(rest, ' ')) {
    if (!done.empty()) done += ' ';
    done += part == "+" || part == "=" ? std::string(part) : our_species(std::string(part));
  }
  // "Ni^2+ + 2 NH3" names the complex by what it is made of.
  if (done.find('=') == std::string::npos) {
    const auto pieces = split(done, ' ');
    const std::string metal(pieces[0].substr(0, pieces[0].find('^'))), ligand(pieces.back());
    const std::string count(pieces.size() == 4 ? pieces[2] : "");
    const bool thiocyanate = ligand.starts_with("SCN");
    const int charge = 2 - (thiocyanate ? (count.empty() ? 1 : std::stoi(count)) : 0);
    done += " = [" + metal + "(" + std::string(thiocyanate ? "SCN" : ligand) + ")" + count + "]" +
            (charge == 0 ? "" : "^" + std::to_string(charge) + "+");
  }
  return done;
}

/// log10 K of the row's equation: from the set its source names, or else from the solver's set put together.
double tabulated(const test::Row& row) {
  const bool solid = has(row, "solid");
  Equation equation = *read_equation("H2O = H2O");
  std::string source = row.at("source") + " " + row.at("note");
  if (solid) {
    for (const EquilibriumConstant& c : equilibrium_constants()) {
      if (c.set == "OpenStax J" && c.equation.all()[0].formula.same_composition(f(text(row, "solid")))) return c.log_k;
    }
    ADD_FAILURE() << row.at("id") << " is not tabulated";
    return 0;
  }
  // The cell holds '=' signs itself: take what stands between "reaction=" and the next ';'.
  const std::string& cell = row.at("inputs");
  const auto start = cell.find("reaction=") + 9;
  const std::string written = our_equation(cell.substr(start, cell.find(';', start) - start));
  const auto read = read_equation(written);
  EXPECT_TRUE(read) << row.at("id") << " " << written;
  if (!read) return 0;
  for (const EquilibriumConstant* c : constants_of(*read)) {
    const bool openstax = source.find("OpenStax Chemistry 2e,") != std::string::npos;
    if (openstax == c->set.starts_with("OpenStax") &&
        std::abs(c->log_k - (openstax ? std::log10(row.number("expected")) : row.number("expected"))) < 1e-9)
      return c->log_k;
  }
  std::vector<Formula> components;
  for (const Formula& component : known_components()) components.push_back(component);
  static const ChemicalSystem all = *system_of(components);
  const auto k = all.log_k(*read);
  EXPECT_TRUE(k) << row.at("id") << " " << (k ? "" : k.fault().sentence);
  return k.value_or(0);
}

// ---- worked examples: a small system with the constants the row states ----

struct Worked {
  ChemicalSystem system;
  Amounts amounts;
  Equilibrium state;
  double of(std::string_view species) const { return state.molarity[*system.find(f(species))]; }
  double solid() const { return state.solid.at(0); }
};

Worked solve(std::vector<std::string> components, std::vector<std::pair<std::string, double>> constants,
             std::vector<double> totals, std::vector<std::optional<double>> fixed = {}) {
  std::vector<Formula> formulas;
  for (const std::string& c : components) formulas.push_back(f(c));
  auto system = *ChemicalSystem::of(formulas);
  for (const auto& [equation, k] : constants) {
    const auto added = system.add(equation, std::log10(k));
    EXPECT_TRUE(added) << equation << (added ? "" : added.fault().sentence);
  }
  Amounts amounts{std::move(totals), std::move(fixed)};
  auto state = equilibrium(system, amounts);
  EXPECT_TRUE(state) << (state ? "" : state.fault().sentence);
  return {std::move(system), std::move(amounts), std::move(state).value()};
}

constexpr double plenty = 1;  // mol/L of a solid: more than dissolves

/// A sparingly soluble salt of M and X alone in water: mol/L that dissolves.
double solubility_alone(const char* metal, const char* anion, const char* dissolving, double ksp, double ratio) {
  return solve({metal, anion}, {{dissolving, ksp}}, {plenty, plenty * ratio}).of(metal);
}

/// The concentration of `wanted` beside a held concentration of the other ion of a salt.
double beside(const char* held, double concentration, const char* wanted, const char* dissolving, double ksp) {
  return solve({held, wanted}, {{dissolving, ksp}}, {0, plenty}, {concentration, std::nullopt}).of(wanted);
}

double silver_chloride_in_ammonia(double ammonia) {
  // The ammonia is all there is; free Ag+ is neglected in the row's closed form and hardly matters.
  const Worked w =
      solve({"Ag^+", "Cl^-", "NH3"}, {{"AgCl(s) = Ag^+ + Cl^-", 1.6e-10}, {"Ag^+ + 2 NH3 = [Ag(NH3)2]^+", 1.7e7}},
            {plenty, plenty, ammonia});
  return w.of("Cl^-");
}

double aluminium_at_ph(double ph) {
  const Worked w =
      solve({"Al^3+", "OH^-"}, {{"Al(OH)3(s) = Al^3+ + 3 OH^-", 2e-32}, {"Al^3+ + 4 OH^- = [Al(OH)4]^-", 1.1e33}},
            {10, 0}, {std::nullopt, std::pow(10, ph - 14)});
  return w.of("Al^3+") + w.of("[Al(OH)4]^-");
}

double silver_at_chloride(double chloride) {
  const Worked w = solve({"Ag^+", "Cl^-"}, {{"AgCl(s) = Ag^+ + Cl^-", 1.6e-10}, {"Ag^+ + 2 Cl^- = [AgCl2]^-", 1.8e5}},
                         {plenty, 0}, {std::nullopt, chloride});
  return w.of("Ag^+") + w.of("[AgCl2]^-");
}

/// g of a ligand in a litre that just dissolves `mol` of AgX as AgL2, counted as the example does.
double ligand_to_dissolve(double mol, const char* halide, double ksp, const char* ligand, const char* complex_made,
                          double kf, const char* reagent) {
  const std::string salt = std::string("Ag") + std::string(halide, 2);
  const std::vector<std::pair<std::string, double>> constants{
      {salt + "(s) = Ag^+ + " + halide, ksp}, {std::string("Ag^+ + 2 ") + ligand + " = " + complex_made, kf}};
  // The least ligand that leaves no solid: halve.
  double low = 0, high = 1;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    const Worked w = solve({"Ag^+", halide, ligand}, constants, {mol, mol, middle});
    (w.solid() > 0 ? low : high) = middle;
  }
  return *mass_of(f(reagent), high);
}

using Task = std::function<double()>;

const std::map<std::string, Task>& tasks() {
  static const std::map<std::string, Task> by_id{
      {"EQU-089",
       [] {
         const double ca = 2.15e-4;
         return ca * 4 * ca * ca;
       }},
      {"EQU-091", [] { return solubility_alone("Cu^+", "Br^-", "CuBr(s) = Cu^+ + Br^-", 6.3e-9, 1); }},
      {"EQU-092", [] { return solubility_alone("Ag^+", "I^-", "AgI(s) = Ag^+ + I^-", 1.5e-16, 1); }},
      {"EQU-094", [] { return solubility_alone("Pb^2+", "I^-", "PbI2(s) = Pb^2+ + 2 I^-", 1.4e-8, 2); }},
      {"EQU-095",
       [] {
         const double s = 4.6e-6 / molar("PbCrO4");
         return s * s;
       }},
      {"EQU-097", [] { return solubility_alone("Mg^2+", "F^-", "MgF2(s) = Mg^2+ + 2 F^-", 6.4e-9, 2); }},
      {"EQU-098", [] { return 0.0537 * 0.0010 * 0.0010; }},
      {"EQU-100", [] { return beside("Ca^2+", 2.2e-3, "C2O4^2-", "CaC2O4(s) = Ca^2+ + C2O4^2-", 1.96e-9); }},
      {"EQU-101", [] { return beside("CrO4^2-", 0.0020, "Ag^+", "Ag2CrO4(s) = 2 Ag^+ + CrO4^2-", 9.0e-12); }},
      {"EQU-103",
       [] { return 14 + std::log10(beside("Mg^2+", 1.0e-5, "OH^-", "Mg(OH)2(s) = Mg^2+ + 2 OH^-", 8.9e-12)); }},
      {"EQU-104", [] { return beside("Br^-", 0.00010, "Ag^+", "AgBr(s) = Ag^+ + Br^-", 5.0e-13); }},
      {"EQU-106",
       [] {
         return solve({"Ag^+", "NH3"}, {{"Ag^+ + 2 NH3 = [Ag(NH3)2]^+", 1.7e7}}, {0.10, 0.20}).of("Ag^+");
       }},
      {"EQU-107", [] { return solubility_alone("Al^3+", "OH^-", "Al(OH)3(s) = Al^3+ + 3 OH^-", 2e-32, 3); }},
      {"EQU-109",
       [] {
         return ligand_to_dissolve(1.00 / molar("AgBr"), "Br^-", 5.0e-13, "S2O3^2-", "[Ag(S2O3)2]^3-", 4.7e13,
                                   "Na2S2O3");
       }},
      {"EQU-110",
       [] { return ligand_to_dissolve(2.00 / molar("AgCl"), "Cl^-", 1.6e-10, "NH3", "[Ag(NH3)2]^+", 1.7e7, "NH3"); }},
      {"EQU-112",
       [] {
         return solve({"Tl^+", "Cl^-"}, {{"TlCl(s) = Tl^+ + Cl^-", 1.7e-4}}, {plenty + 0.025, plenty}).of("Cl^-");
       }},
      {"EQU-113", [] { return beside("Ba^2+", 0.0758, "SO4^2-", "BaSO4(s) = Ba^2+ + SO4^2-", 1.08e-10); }},
      {"EQU-115", [] { return beside("Ca^2+", 1.0e-4, "F^-", "CaF2(s) = Ca^2+ + 2 F^-", 4.0e-11); }},
      {"EQU-116",
       [] {
         return beside("Pb^2+", 0.050, "OH^-", "Pb(OH)2(s) = Pb^2+ + 2 OH^-", 1.2e-15) / 2 * 0.500 * molar("Pb(OH)2");
       }},
      {"EQU-118",
       [] {
         return solve({"Cu^2+", "NH3"}, {{"Cu^2+ + 4 NH3 = [Cu(NH3)4]^2+", 1.7e13}}, {0.050, 1.00}).of("Cu^2+");
       }},
      {"EQU-119", [] { return beside("F^-", 0.100, "Mg^2+", "MgF2(s) = Mg^2+ + 2 F^-", 7.09e-9); }},
      {"EQU-121",
       [] {
         return solve({"Cd^2+", "NH3"}, {{"Cd^2+ + 4 NH3 = [Cd(NH3)4]^2+", 1.3e7}}, {0.0040, 0.0600}).of("Cd^2+");
       }},
      {"EQU-122", [] { return silver_chloride_in_ammonia(0.1); }},
      {"EQU-124", [] { return silver_chloride_in_ammonia(1.0); }},
      {"EQU-125", [] { return silver_chloride_in_ammonia(2.0); }},
      {"EQU-127", [] { return silver_at_chloride(0.1); }},
      {"EQU-128", [] { return silver_at_chloride(1.0); }},
      {"EQU-130", [] { return aluminium_at_ph(10); }},
      {"EQU-131", [] { return aluminium_at_ph(11); }},
      {"EQU-133", [] { return aluminium_at_ph(13); }},
  };
  return by_id;
}

TEST(KnownEquilibria, EveryRowIsComputed) {
  const auto rows = test::read_table("known/chem/equilibria.csv");
  ASSERT_EQ(rows.size(), 96u);
  std::size_t worked = 0;
  for (const auto& row : rows) {
    if (const auto task = tasks().find(row.at("id")); task != tasks().end()) {
      expect_row(row, task->second());
      ++worked;
      continue;
    }
    const double log_k = tabulated(row);
    const bool as_log = row.at("inputs").find("log10") != std::string::npos;
    expect_row(row, as_log ? log_k : std::pow(10, log_k));
  }
  EXPECT_EQ(worked, 30u);
}

}  // namespace
}  // namespace sash::chem
