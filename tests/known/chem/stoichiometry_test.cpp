// Worked stoichiometry of textbooks: every row of the table is computed by our code, by the task it names.

#include "chem/stoichiometry.h"

#include <gtest/gtest.h>

#include <functional>
#include <map>

#include "chem/concentration.h"
#include "chem/molar_mass.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::chem {
namespace {

using Inputs = std::map<std::string, std::string>;

double number(const Inputs& in, const std::string& key) {
  const auto value = read_number(in.at(key));
  EXPECT_TRUE(value.has_value()) << key;
  return value.value_or(0);
}

/// The value of "<start>_<unit>" in L, g or mol, whatever prefix its name ends with.
double scaled(const Inputs& in, const std::string& start) {
  for (const auto& [suffix, scale] :
       std::map<std::string, double>{{"_L", 1}, {"_mL", 1e-3}, {"_g", 1}, {"_kg", 1e3}, {"_mol", 1}, {"_molL", 1}}) {
    if (in.contains(start + suffix)) return number(in, start + suffix) * scale;
  }
  ADD_FAILURE() << "no value for " << start;
  return 0;
}

Formula formula(const std::string& text) { return read_formula(text).value(); }
double molar(const std::string& text) { return molar_mass(formula(text)).value().value; }
Equation equation(const Inputs& in) { return read_equation(in.at("eq")).value(); }
std::size_t place(const Equation& eq, const std::string& text) {
  const auto at = eq.find(formula(text));
  EXPECT_TRUE(at.has_value()) << text;
  return at.value_or(0);
}

/// "m_NaOH" or "n_Ca(OH)2" without what comes before and after the formula.
std::string between(std::string text, std::string_view before, std::string_view after = "") {
  if (text.starts_with(before)) text.erase(0, before.size());
  if (!after.empty() && text.ends_with(after)) text.erase(text.size() - after.size());
  return text;
}

/// The reactants given by mass, "m_<formula>_g" or "_kg", as amounts.
std::vector<Given> given_masses(const Inputs& in, const Equation& eq) {
  std::vector<Given> given;
  for (std::size_t i = 0; i < eq.left().size(); ++i) {
    const std::string name = eq.all()[i].formula.plain();
    for (const auto& [unit, scale] : std::map<std::string, double>{{"_g", 1}, {"_kg", 1e3}}) {
      if (!in.contains("m_" + name + unit)) continue;
      given.push_back({i, amount_of(eq.all()[i].formula, number(in, "m_" + name + unit) * scale).value()});
    }
  }
  EXPECT_FALSE(given.empty());
  return given;
}

const ProductYield& product(const ReactionOutcome& out, std::size_t species) {
  for (const ProductYield& p : out.products) {
    if (p.species == species) return p;
  }
  ADD_FAILURE() << "no such product";
  return out.products.front();
}

double theoretical_yield(const Inputs& in) {
  const Equation eq = equation(in);
  return product(react(eq, given_masses(in, eq)).value(), place(eq, in.at("product"))).mass;
}

double yield_in_percent(const Inputs& in) {
  const Equation eq = equation(in);
  const ReactionOutcome out = react(eq, given_masses(in, eq)).value();
  for (const auto& [key, value] : in) {
    if (!key.starts_with("actual")) continue;
    const double actual = number(in, key) * (key.ends_with("_kg") ? 1e3 : 1);
    const std::string name = between(between(key, "actual", "_kg"), "_", "_g");
    const std::size_t species = name == "g" ? eq.left().size() : place(eq, name);
    return percent_yield(actual, product(out, species).mass).value();
  }
  ADD_FAILURE() << "no actual yield";
  return 0;
}

double amount_needed(const Inputs& in) {
  const Equation eq = equation(in);
  for (const auto& [key, value] : in) {
    if (!key.starts_with("n_")) continue;
    return amount_with(eq, place(eq, between(key, "n_", "_mol")), number(in, key),
                       place(eq, between(in.at("wanted"), "n_")));
  }
  return 0;
}

double mass_needed(const Inputs& in) {
  const Equation eq = equation(in);
  for (const auto& [key, value] : in) {
    if (!key.starts_with("m_")) continue;
    const std::string unit = key.ends_with("_kg") ? "_kg" : "_g";
    // Both masses are in the same unit, so the ratio needs no scaling.
    return mass_with(eq, place(eq, between(key, "m_", unit)), number(in, key),
                     place(eq, between(between(in.at("wanted"), "m_"), "", "_kg")))
        .value();
  }
  return 0;
}

double molarity_from_mass(const Inputs& in) {
  const double m = in.contains("molar_mass_given_gmol") ? number(in, "molar_mass_given_gmol") : molar(in.at("solute"));
  return number(in, "m_g") / m / scaled(in, "V");
}

double dilution(const Inputs& in) {
  Dilution d;
  if (in.contains("c1_molL")) d.c1 = number(in, "c1_molL");
  if (in.contains("c2_molL")) d.c2 = number(in, "c2_molL");
  if (in.contains("V1_L") || in.contains("V1_mL")) d.v1 = scaled(in, "V1");
  if (in.contains("V2_L") || in.contains("V2_mL")) d.v2 = scaled(in, "V2");
  return solve_dilution(d).value();
}

// The titrant is the species with both a volume and a concentration; the other has a volume only.
double titration(const Inputs& in) {
  const Equation eq = equation(in);
  std::string titrant;
  std::string sample;
  for (const auto& [key, value] : in) {
    if (key.starts_with("V_") && in.contains("c_" + between(key, "V_", "_mL") + "_molL"))
      titrant = between(key, "V_", "_mL");
    else if (key.starts_with("V_"))
      sample = between(key, "V_", "_mL");
  }
  const double mol = scaled(in, "V_" + titrant) * number(in, "c_" + titrant + "_molL");
  // Labels such as "acid", "Hg" or "KMnO4" stand for the reactant that is not the one wanted.
  const std::string wanted = between(in.at("wanted"), "c_");
  const bool first = [&] {
    const auto read = read_formula(wanted);
    if (read && eq.find(*read)) return *eq.find(*read) == 0;
    if (read && wanted == "Cl") return true;
    return wanted == "base";
  }();
  return amount_with(eq, first ? 1 : 0, mol, first ? 0 : 1) / scaled(in, "V_" + sample);
}

double volume_needed(const Inputs& in) {
  const Equation eq = equation(in);
  std::string known;
  for (const auto& [key, value] : in) {
    if (key.starts_with("V_")) known = between(key, "V_", "_mL");
  }
  const std::string wanted = between(in.at("wanted"), "V_");
  const double mol = scaled(in, "V_" + known) * number(in, "c_" + known + "_molL");
  return amount_with(eq, 0, mol, place(eq, wanted)) / number(in, "c_" + wanted + "_molL") * 1e3;  // mL
}

double gravimetric(const Inputs& in) {
  const Equation eq = equation(in);
  const double mass = mass_with(eq, place(eq, "BaSO4"), number(in, "m_BaSO4_g"), place(eq, "MgSO4")).value();
  return 100 * mass / number(in, "m_sample_g");
}

double mass_of_product(const Inputs& in) {
  const Equation eq = equation(in);
  const double ore = number(in, "m_ore_g") * number(in, "w_FeTiO3_percent") / 100;
  return mass_with(eq, place(eq, "FeTiO3"), ore, place(eq, between(in.at("wanted"), "m_"))).value();
}

double percent_composition(const Inputs& in) {
  const std::vector<MassShare> shares = mass_shares(formula(in.at("formula"))).value();
  for (const MassShare& s : shares) {
    if (symbol_of(s.what) == in.at("element")) return 100 * s.fraction;
  }
  return 0;
}

double solute_molality(const Inputs& in) {
  const double w = in.contains("w_percent") ? number(in, "w_percent") / 100
                                            : mass_fraction(number(in, "m_g"), number(in, "m_solvent_g"));
  return molality(w, molar(in.at("solute")));
}

// ppm of sea water is by mass, and its mass is volume times density (1 g/cm3 is 1000 g/L).
double precipitation(const Inputs& in) {
  const Equation eq = equation(in);
  const double magnesium = number(in, "V_L") * number(in, "rho_gcm3") * 1000 * number(in, "Mg_ppm") * 1e-6 *
                           number(in, "removed_percent") / 100;
  const double base = mass_with(eq, place(eq, "Mg^2+"), magnesium, place(eq, "Ca(OH)2")).value();
  return base / 1000;
}

// 10.0 mL made up to 250 mL, 25.0 mL of that titrated, acid and base one to one.
double titration_after_dilution(const Inputs& in) {
  const double portion = number(in, "c_NaOH_molL") * number(in, "V_NaOH_mL") / 25.0;
  return solve_dilution({std::nullopt, 10.0, portion, 250.0}).value();
}

using Task = std::function<double(const Inputs&)>;
const std::map<std::string, Task> tasks{
    {"theoretical_yield", theoretical_yield},
    {"percent_yield", yield_in_percent},
    {"moles_needed", amount_needed},
    {"mass_needed", mass_needed},
    {"molarity_from_mass", molarity_from_mass},
    {"mass_from_molarity",
     [](const Inputs& in) {
       return mass_of(formula(in.at("solute")), number(in, "c_molL") * scaled(in, "V")).value();
     }},
    {"volume_for_mass",
     [](const Inputs& in) {
       return amount_of(formula(in.at("solute")), number(in, "m_g")).value() / number(in, "c_molL");
     }},
    {"dilution", dilution},
    {"mass_percent",
     [](const Inputs& in) { return 100 * mass_fraction(number(in, "m_solute_g"), number(in, "m_solvent_g")); }},
    {"mass_from_percent_density",
     [](const Inputs& in) { return number(in, "w_percent") / 100 * number(in, "rho_gmL") * number(in, "V_mL"); }},
    {"mass_from_volpercent",
     [](const Inputs& in) {
       return number(in, "phi_percent") / 100 * number(in, "V_mL") * number(in, "rho_solute_gmL");
     }},
    {"moles_from_volpercent",
     [](const Inputs& in) {
       const double grams = number(in, "phi_percent") / 100 * number(in, "V_mL") * number(in, "rho_solute_gmL");
       return amount_of(formula(in.at("solute")), grams).value();
     }},
    {"molarity_from_percent_density",
     [](const Inputs& in) {
       return molarity(number(in, "w_percent") / 100, number(in, "rho_gmL"), molar(in.at("solute")));
     }},
    {"titration", titration},
    {"gravimetric", gravimetric},
    {"volume_needed", volume_needed},
    {"mass_product", mass_of_product},
    {"percent_water", [](const Inputs& in) { return 100 * water_fraction(formula(in.at("hydrate"))).value(); }},
    {"percent_composition", percent_composition},
    {"moles", [](const Inputs& in) { return amount_of(formula(in.at("formula")), number(in, "m_g")).value(); }},
    {"mass", [](const Inputs& in) { return mass_of(formula(in.at("formula")), number(in, "n_mol")).value(); }},
    {"molality", solute_molality},
    {"mole_fraction",
     [](const Inputs& in) {
       return mole_fraction(number(in, "w_percent") / 100, molar(in.at("solute")), molar(in.at("solvent")));
     }},
    {"precipitation_mass", precipitation},
    {"titration_dilution", titration_after_dilution},
};

TEST(KnownStoichiometry, ComesOutAsEveryRowOfTheTableSays) {
  const auto rows = test::read_table("known/chem/stoichiometry.csv");
  ASSERT_EQ(rows.size(), 54U);
  std::size_t checked = 0;
  for (const test::Row& row : rows) {
    const std::string& id = row.at("id");
    SCOPED_TRACE(id + ": " + row.at("inputs"));
    const Inputs in = row.pairs("inputs");
    if (in.at("task") == "limiting") {
      const Equation eq = equation(in);
      const ReactionOutcome out = react(eq, given_masses(in, eq)).value();
      for (const ReactantUse& use : out.reactants) {
        EXPECT_EQ(use.limiting, eq.all()[use.species].formula.plain() == row.at("expected"));
      }
      ++checked;
      continue;
    }
    const auto task = tasks.find(in.at("task"));
    ASSERT_NE(task, tasks.end()) << "no way to compute this row";
    EXPECT_NEAR(task->second(in), row.number("expected"), row.number("tolerance"));
    ++checked;
  }
  EXPECT_EQ(checked, rows.size());
}

}  // namespace
}  // namespace sash::chem
