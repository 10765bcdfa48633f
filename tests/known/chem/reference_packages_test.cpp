// Cross-checks against reference packages of the system, where they are installed: the Blue Obelisk element repository
// and Open Babel. Both carry slightly older weights, so agreement is asked within the published uncertainty.

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include "chem/molar_mass.h"
#include "chem/names.h"
#include "tools/table.h"

namespace sash::chem {
namespace {

constexpr const char* bodr_elements = "/usr/share/bodr/elements.xml";

TEST(ReferencePackages, BlueObeliskWeightsAgreeButForSelenium) {
  if (!std::filesystem::exists(bodr_elements)) GTEST_SKIP() << "the package bodr is not installed";
  std::ifstream file(bodr_elements);
  std::stringstream text;
  text << file.rdbuf();
  const std::string xml = text.str();
  const std::regex atom(R"re(<atom id="([A-Z][a-z]?)"[\s\S]*?</atom>)re");
  const std::regex mass(R"re(dictRef="bo:mass"[^>]*>([0-9.]+)<)re");
  int compared = 0;
  for (auto it = std::sregex_iterator(xml.begin(), xml.end(), atom); it != std::sregex_iterator(); ++it) {
    const std::string body = it->str();
    std::smatch found;
    const Element* e = find_element((*it)[1].str());
    if (e == nullptr || !e->weight || !std::regex_search(body, found, mass)) continue;
    ++compared;
    if (e->symbol == "Se") {
      EXPECT_EQ(found[1].str(), "78.96") << "this package carried the selenium weight of before 2013";
      continue;
    }
    // Its digits are rounded too: half a unit of the last printed digit is allowed beside the bound.
    EXPECT_NEAR(std::stod(found[1].str()), *e->weight, e->bound + 0.0051) << e->symbol;
  }
  EXPECT_EQ(compared, 84);
}

std::string output_of(const std::string& command) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  std::string out;
  std::array<char, 512> buffer{};
  while (pipe && fgets(buffer.data(), buffer.size(), pipe.get()) != nullptr) out += buffer.data();
  return out;
}

// Structure (SMILES) and formula of the same compound; Open Babel works out the mass from the structure.
struct Pair {
  const char* structure;
  const char* formula;
};
constexpr Pair pairs[] = {
    {"CC(=O)O", "CH3COOH"},
    {"OS(=O)(=O)O", "H2SO4"},
    {"O[N+](=O)[O-]", "HNO3"},
    {"OC(=O)C(=O)O", "H2C2O4"},
    {"[Na+].[Cl-]", "NaCl"},
    {"[K+].[O-][Mn](=O)(=O)=O", "KMnO4"},
    {"[Ca+2].[O-]C(=O)[O-]", "CaCO3"},
    {"OCC1OC(O)C(O)C(O)C1O", "C6H12O6"},
    {"CC(=O)Oc1ccccc1C(=O)O", "C9H8O4"},
    {"[Cu+2].[O-]S(=O)(=O)[O-].O.O.O.O.O", "CuSO4·5H2O"},
    {"ClC(Cl)Cl", "CHCl3"},
    {"NC(=O)N", "CO(NH2)2"},
};

// The molar masses that Open Babel gives for structures, in their order.
std::vector<double> reference_masses(const std::vector<std::string>& structures) {
  const auto path = std::filesystem::temp_directory_path() / fmt::format("sashline_molar_masses_{}.smi", getpid());
  {
    std::ofstream file(path);
    for (const std::string& structure : structures) file << structure << '\n';
  }
  const std::string report = output_of("obprop " + path.string() + " 2>/dev/null");
  std::filesystem::remove(path);
  const std::regex weight(R"(mol_weight\s+([0-9.]+))");
  std::vector<double> masses;
  for (auto it = std::sregex_iterator(report.begin(), report.end(), weight); it != std::sregex_iterator(); ++it) {
    masses.push_back(std::stod((*it)[1].str()));
  }
  return masses;
}

TEST(ReferencePackages, OpenBabelMolarMassesAgree) {
  if (output_of("command -v obprop").empty()) GTEST_SKIP() << "the package openbabel is not installed";
  std::vector<std::string> structures;
  for (const Pair& p : pairs) structures.emplace_back(p.structure);
  const std::vector<double> masses = reference_masses(structures);
  ASSERT_EQ(masses.size(), std::size(pairs));
  for (std::size_t i = 0; i < masses.size(); ++i) {
    const auto mass = molar_mass(*read_formula(pairs[i].formula));
    EXPECT_NEAR(masses[i], mass->value, mass->bound + 0.005) << pairs[i].formula;
  }
}

// A formula listed under a name and a structure of that name, each written without the other.
TEST(ReferencePackages, ListedFormulasWeighWhatTheirStructuresDo) {
  if (output_of("command -v obprop").empty()) GTEST_SKIP() << "the package openbabel is not installed";
  const std::vector<test::Row> rows = test::read_table("known/chem/structures.csv");
  std::vector<std::string> structures;
  for (const test::Row& row : rows) structures.push_back(row.at("structure"));
  const std::vector<double> masses = reference_masses(structures);
  ASSERT_EQ(masses.size(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto known = normalise_name(rows[i].at("name"));
    ASSERT_TRUE(known && known->formula) << rows[i].at("name");
    const auto mass = molar_mass(*read_formula(*known->formula));
    ASSERT_TRUE(mass.ok()) << rows[i].at("name");
    EXPECT_NEAR(masses[i], mass->value, mass->bound + 0.005) << rows[i].at("name");
  }
}

}  // namespace
}  // namespace sash::chem
