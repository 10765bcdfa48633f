#include "chem/names.h"

#include <gmock/gmock.h>

#include "chem/molar_mass.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::chem {
namespace {

using ::testing::ElementsAre;

std::string preferred(std::string_view text) {
  const auto known = normalise_name(text);
  return known ? known->preferred : "nothing";
}

std::string formula(std::string_view text) {
  const auto known = normalise_name(text);
  return known ? known->formula.value_or("none") : "nothing";
}

// Expected names and formulas: IUPAC Red Book 2005 rules; trivial names as tables of chemical synonyms give them.
TEST(Names, AreOneWhateverTheSpelling) {
  for (const char* text :
       {"copper(II) sulfate pentahydrate", "copper two sulphate pentahydrate", "Copper to sulfate penta hydrate",
        "cupric sulphate 5-hydrate", "bluestone", "copper (II) sulfate five hydrate", "blue vitriol",
        "copper sulfate pentahydrate", "Copper II Sulfate Pentahydrate"}) {
    EXPECT_EQ(preferred(text), "copper(II) sulfate pentahydrate") << text;
    EXPECT_EQ(formula(text), "CuSO4·5H2O") << text;
  }
  EXPECT_EQ(preferred("aluminum"), "aluminium");
  EXPECT_EQ(preferred("sulphur"), "sulfur");
  EXPECT_EQ(preferred("cesium chloride"), "caesium chloride");
  EXPECT_EQ(preferred("Sodium Hydrogen Carbonate"), "sodium hydrogencarbonate");
}

TEST(Names, FollowFromRulesForSaltsNobodyListed) {
  EXPECT_EQ(formula("nickel(II) chloride hexahydrate"), "NiCl2·6H2O");
  EXPECT_EQ(formula("zinc nitrate"), "Zn(NO3)2");
  EXPECT_EQ(formula("iron three chloride"), "FeCl3");
  EXPECT_EQ(formula("iron(III) sulphate"), "Fe2(SO4)3");
  EXPECT_EQ(formula("ammonium phosphate"), "(NH4)3PO4");
  EXPECT_EQ(formula("lithium carbonate"), "Li2CO3");
  EXPECT_EQ(formula("strontium nitrate"), "Sr(NO3)2");
  EXPECT_EQ(formula("aluminium sulfate octadecahydrate"), "Al2(SO4)3·18H2O");
  EXPECT_EQ(formula("calcium acetate"), "Ca(CH3COO)2");
  EXPECT_EQ(formula("potassium acetate"), "CH3COOK");
  EXPECT_EQ(formula("mercurous nitrate"), "Hg2(NO3)2");
  EXPECT_EQ(formula("barium peroxide"), "BaO2");
  EXPECT_EQ(formula("potassium ferricyanide"), "K3[Fe(CN)6]");
  EXPECT_EQ(formula("ammonium dichromate"), "(NH4)2Cr2O7");
  EXPECT_EQ(formula("chromium(VI) oxide"), "CrO3");
  EXPECT_EQ(formula("manganese dioxide"), "MnO2");
  EXPECT_EQ(preferred("manganese dioxide"), "manganese(IV) oxide");
  EXPECT_EQ(formula("silver(I) nitrate"), "AgNO3");
  EXPECT_EQ(preferred("silver(I) nitrate"), "silver nitrate");
}

TEST(Names, KnowPhosphatesByHowManyCationsTheyHold) {
  EXPECT_EQ(formula("disodium hydrogen phosphate"), "Na2HPO4");
  EXPECT_EQ(formula("sodium dihydrogen phosphate"), "NaH2PO4");
  EXPECT_EQ(formula("monosodium phosphate"), "NaH2PO4");
  EXPECT_EQ(preferred("monosodium phosphate"), "sodium dihydrogenphosphate");
  EXPECT_EQ(formula("trisodium phosphate"), "Na3PO4");
  EXPECT_EQ(formula("diammonium phosphate"), "(NH4)2HPO4");
}

TEST(Names, KnowBinaryCompoundsByTheirPrefixes) {
  EXPECT_EQ(formula("carbon monoxide"), "CO");
  EXPECT_EQ(formula("sulphur dioxide"), "SO2");
  EXPECT_EQ(formula("dinitrogen tetroxide"), "N2O4");
  EXPECT_EQ(formula("sulfur tetrafluoride"), "SF4");
  EXPECT_EQ(formula("dichlorine heptoxide"), "Cl2O7");
}

TEST(Names, KnowAcids) {
  EXPECT_EQ(formula("nitric acid"), "HNO3");
  EXPECT_EQ(formula("sulphuric acid"), "H2SO4");
  EXPECT_EQ(formula("hypochlorous acid"), "HClO");
  EXPECT_EQ(formula("ethanoic acid"), "CH3COOH");
  EXPECT_EQ(formula("thiocyanic acid"), "HSCN");
  EXPECT_EQ(preferred("muriatic acid"), "hydrochloric acid");
}

TEST(Names, SayWhichOnesAreSolutionsAndMixtures) {
  EXPECT_TRUE(normalise_name("vinegar")->is_solution_word);
  EXPECT_EQ(formula("vinegar"), "CH3COOH");
  EXPECT_TRUE(normalise_name("bleach")->is_solution_word);
  EXPECT_EQ(formula("bleach"), "NaClO");
  EXPECT_FALSE(normalise_name("lye")->is_solution_word);
  EXPECT_EQ(preferred("washing soda"), "sodium carbonate");
  EXPECT_EQ(formula("soda crystals"), "Na2CO3·10H2O");
  EXPECT_EQ(preferred("caustic soda"), "sodium hydroxide");
  EXPECT_EQ(preferred("baking soda"), "sodium hydrogencarbonate");
  EXPECT_TRUE(normalise_name("gunpowder")->is_mixture);
}

TEST(Names, KnowWhatLabelsInTheLabSay) {
  EXPECT_EQ(formula("disodium EDTA dihydrate"), "C10H14N2Na2O8·2H2O");
  EXPECT_EQ(formula("cobalt blue"), "CoAl2O4");
  EXPECT_EQ(formula("oil of wintergreen"), "C8H8O3");
  EXPECT_EQ(formula("cream of tartar"), "KHC4H4O6");
  EXPECT_EQ(formula("2,4-DNPH"), "C6H6N4O4");
  EXPECT_EQ(formula("cobalt yellow"), "K3[Co(NO2)6]");
  EXPECT_TRUE(normalise_name("soda lime")->is_mixture);
}

TEST(Names, ReadAnAcronymAsTheNameItIs) {
  // Letters that would make a formula of atoms nobody has met together.
  EXPECT_EQ(formula_of("NBS")->hill(), "C4H4BrNO2");
  EXPECT_EQ(formula_of("DBU")->hill(), "C9H16N2");
  EXPECT_EQ(formula_of("PCC")->hill(), "C5H6ClCrNO3");
  EXPECT_EQ(formula_of("CO")->hill(), "CO");
}

TEST(Names, SayWhatTheyTookAndAskWhenTheyCannot) {
  const auto copper = normalise_name("copper sulfate");
  EXPECT_EQ(copper->formula, "CuSO4");
  EXPECT_EQ(copper->assumption, "Copper is taken as copper(II), its usual state.");
  EXPECT_TRUE(copper->candidates.empty());
  EXPECT_THAT(normalise_name("copper oxide")->candidates, ElementsAre("copper(I) oxide"));
  const auto iron = normalise_name("iron chloride");
  EXPECT_FALSE(iron->formula.has_value());
  EXPECT_THAT(iron->candidates, ElementsAre("iron(II) chloride", "iron(III) chloride"));
  EXPECT_EQ(formula_of("iron chloride").fault().sentence,
            "'iron chloride' can be iron(II) chloride or iron(III) chloride; say which.");
}

TEST(Names, KeepAnhydrousApartFromUnsaid) {
  EXPECT_TRUE(normalise_name("anhydrous copper sulfate")->anhydrous);
  EXPECT_TRUE(normalise_name("copper sulfate anhydrous")->anhydrous);
  EXPECT_EQ(normalise_name("anhydrous copper sulfate")->water, 0.0);
  EXPECT_FALSE(normalise_name("copper sulfate")->water.has_value());
  EXPECT_EQ(normalise_name("copper sulfate pentahydrate")->water, 5.0);
  EXPECT_EQ(formula("calcium sulfate hemihydrate"), "CaSO4·0.5H2O");
}

TEST(Names, UnderstandSpokenFormulas) {
  EXPECT_EQ(preferred("H two S O four"), "sulfuric acid");
  EXPECT_EQ(preferred("h two so four"), "sulfuric acid");
  EXPECT_EQ(preferred("N A O H"), "sodium hydroxide");
  EXPECT_EQ(preferred("k m n o four"), "potassium permanganate");
  EXPECT_EQ(preferred("c u s o four dot five h two o"), "copper(II) sulfate pentahydrate");
  EXPECT_EQ(preferred("c u n o three two dot three h two o"), "copper(II) nitrate trihydrate");
  EXPECT_EQ(preferred("c a o h two"), "calcium hydroxide");
  EXPECT_EQ(preferred("N O two"), "nitrogen dioxide");
  EXPECT_EQ(preferred("no two"), "nitrogen dioxide");
  EXPECT_EQ(preferred("h n o three"), "nitric acid");
  EXPECT_EQ(preferred("H C L"), "hydrochloric acid");
  EXPECT_EQ(preferred("hcl"), "hydrochloric acid");
  EXPECT_EQ(preferred("naoh"), "sodium hydroxide");
  EXPECT_EQ(preferred("C O"), "carbon monoxide");
  EXPECT_EQ(preferred("H F"), "hydrofluoric acid");
  EXPECT_EQ(preferred("n h four two c r two o seven"), "ammonium dichromate");
  EXPECT_EQ(preferred("k three f e c n six"), "potassium hexacyanoferrate(III)");
  EXPECT_EQ(preferred("n h four s c n"), "ammonium thiocyanate");
  EXPECT_EQ(preferred("o two"), "oxygen");
  EXPECT_THAT(normalise_name("c o c l two")->candidates, ElementsAre("phosgene", "cobalt(II) chloride"));
  EXPECT_EQ(preferred("CuSO4·5H2O"), "copper(II) sulfate pentahydrate");
  EXPECT_EQ(preferred("NaOH"), "sodium hydroxide");
}

TEST(Names, DoNotHearChemistryInOrdinaryWords) {
  for (const char* text :
       {"no", "as", "in", "he", "the", "so I can", "I", "be", "on", "COIN", "is", "nah", "gap", "cos", "am", "can"}) {
    EXPECT_EQ(preferred(text), "nothing") << text;
  }
}

TEST(Names, AreFoundLongestFirstInRunningSpeech) {
  const std::vector<std::string_view> words{"add",     "20",           "grams", "of",     "copper", "two",
                                            "sulfate", "pentahydrate", "to",    "nitric", "acid,",  "sodium"};
  const NameBook& book = NameBook::standard();
  EXPECT_FALSE(book.find_longest(words, 0).has_value());
  EXPECT_FALSE(book.find_longest(words, 3).has_value());
  const auto salt = book.find_longest(words, 4);
  ASSERT_TRUE(salt.has_value());
  EXPECT_EQ(salt->length, 4U);
  EXPECT_EQ(salt->known.preferred, "copper(II) sulfate pentahydrate");
  const auto acid = book.find_longest(words, 9);
  ASSERT_TRUE(acid.has_value());
  EXPECT_EQ(acid->length, 2U);
  EXPECT_FALSE(book.find_longest(words, 99).has_value());
}

TEST(Names, TakeEnglishWordsForAFormulaOnlyWhenMatterFollows) {
  const std::vector<std::string_view> speech{"so", "two", "grams", "no", "two", "fumes"};
  EXPECT_FALSE(NameBook::standard().find_longest(speech, 0).has_value());
  EXPECT_EQ(NameBook::standard().find_longest(speech, 3)->known.preferred, "nitrogen dioxide");
}

TEST(Names, StopAtAComma) {
  const std::vector<std::string_view> words{"copper,", "sulfate"};
  EXPECT_EQ(NameBook::standard().find_longest(words, 0)->known.preferred, "copper");
}

// A count before an anion counts its atoms, except where the cation needs another number of them: titanium disulfide
// is TiS2, and iron disulfide holds the disulfide ion. Formulas as CRC Handbook, Physical Constants of Inorganic
// Compounds lists the names, and as OPSIN 2.7.0 reads them.
TEST(Names, CountedAnionsAreSingleAtoms) {
  const auto formula = [](std::string_view name) { return formula_of(name)->plain(); };
  EXPECT_EQ(formula("aluminium triiodide"), "AlI3");
  EXPECT_EQ(formula("boron triiodide"), "BI3");
  EXPECT_EQ(formula("bismuth triiodide"), "BiI3");
  EXPECT_EQ(formula("titanium disulfide"), "TiS2");
  EXPECT_EQ(formula("silicon disulfide"), "SiS2");
  EXPECT_EQ(formula("molybdenum disulfide"), "MoS2");
  EXPECT_EQ(formula("antimony trioxide"), "Sb2O3");
  EXPECT_EQ(formula("manganese heptoxide"), "Mn2O7");
  EXPECT_EQ(formula("niobium pentoxide"), "Nb2O5");
  EXPECT_EQ(formula("phosphorus pentasulfide"), "P2S5");
  EXPECT_EQ(formula("potassium triiodide"), "KI3");
  EXPECT_EQ(formula("sodium pentasulfide"), "Na2S5");
  EXPECT_EQ(formula("sulfur trioxide"), "SO3");
  EXPECT_EQ(formula("tungsten trioxide"), "WO3");
}

TEST(Names, MercuryOneIsTheIonOfTwoAtoms) {
  EXPECT_EQ(formula_of("mercury(I) nitrate")->plain(), "Hg2(NO3)2");
  EXPECT_EQ(formula_of("mercury one iodide")->plain(), "Hg2I2");
  EXPECT_EQ(formula_of("mercurous bromide")->plain(), "Hg2Br2");
  EXPECT_EQ(formula_of("mercury(I) ion")->plain(), "Hg2^2+");
  EXPECT_EQ(formula_of("mercury(II) iodide")->plain(), "HgI2");
}

// Charges would make TiC4 and Zr3B4 of these; masses per mole as CRC Handbook, Physical Constants of Inorganic
// Compounds has them.
TEST(Names, CompoundsOfMetalsDoNotFollowFromCharges) {
  EXPECT_EQ(formula_of("titanium carbide")->plain(), "TiC");
  EXPECT_EQ(formula_of("titanium nitride")->plain(), "TiN");
  EXPECT_EQ(formula_of("beryllium carbide")->plain(), "Be2C");
  EXPECT_EQ(formula_of("zirconium diboride")->plain(), "ZrB2");
  EXPECT_FALSE(formula_of("zirconium boride").ok());
  EXPECT_FALSE(formula_of("cobalt silicide").ok());
  EXPECT_FALSE(formula_of("copper phosphide").ok());
  EXPECT_EQ(formula_of("calcium phosphide")->plain(), "Ca3P2");
  EXPECT_EQ(formula_of("silver nitride")->plain(), "Ag3N");
  EXPECT_EQ(formula_of("lithium carbide")->plain(), "Li2C2");
}

TEST(Names, AreGivenForFormulas) {
  const auto name = [](std::string_view text) { return name_of(*read_formula(text)).value_or("nothing"); };
  EXPECT_EQ(name("CuSO4·5H2O"), "copper(II) sulfate pentahydrate");
  EXPECT_EQ(name("NiCl2·6H2O"), "nickel(II) chloride hexahydrate");
  EXPECT_EQ(name("HNO3"), "nitric acid");
  EXPECT_EQ(name("NaHCO3"), "sodium hydrogencarbonate");
  EXPECT_EQ(name("Fe2(SO4)3"), "iron(III) sulfate");
  EXPECT_EQ(name("(NH4)2CO3"), "ammonium carbonate");
  EXPECT_EQ(name("SO4^2-"), "sulfate ion");
  EXPECT_EQ(name("Cu^2+"), "copper(II) ion");
  EXPECT_EQ(name("K4[Fe(CN)6]"), "potassium hexacyanoferrate(II)");
  EXPECT_EQ(name("CO2"), "carbon dioxide");
  EXPECT_EQ(name("NH4SCN"), "ammonium thiocyanate");
  EXPECT_EQ(name("CS(NH2)2"), "thiourea");
  EXPECT_EQ(name("NH4OH"), "ammonium hydroxide");
  EXPECT_EQ(name("XeO3"), "nothing");
}

TEST(Names, SuggestTheNearestSpelling) {
  EXPECT_EQ(formula_of("sodium hydroxyde").fault().sentence,
            "No compound is known as 'sodium hydroxyde'; did you mean 'sodium hydroxide'?");
  EXPECT_EQ(formula_of("gunpowder").fault().code, Code::unsupported);
  EXPECT_EQ(formula_of("copper(II) oxide")->plain(), "CuO");
  EXPECT_EQ(formula_of("CuXx2").fault().sentence, "Unknown element 'Xx' at character 3 of 'CuXx2'; did you mean 'Xe'?");
}

// Every listed name and synonym leads to its own row, and every formula weighs something.
TEST(NameTable, IsConsistent) {
  const std::string table = test::read_source_file("assets/tables/compound_names.tsv");
  int rows = 0;
  for (const std::string_view line : split_lines(table)) {
    const auto cells = split(line, '\t');
    ASSERT_EQ(cells.size(), 5U) << line;
    if (cells[0] == "name") continue;
    ++rows;
    EXPECT_FALSE(cells[4].empty()) << cells[0];
    const auto known = normalise_name(cells[0]);
    ASSERT_TRUE(known.has_value()) << cells[0];
    EXPECT_EQ(known->preferred, cells[0]);
    if (!cells[1].empty()) {
      const auto read = read_formula(cells[1]);
      ASSERT_TRUE(read.ok()) << cells[0];
      EXPECT_TRUE(molar_mass(*read).ok()) << cells[0];
      EXPECT_EQ(known->formula, cells[1]) << cells[0];
    }
    for (const std::string_view synonym : split(cells[2], ';')) {
      if (trim(synonym).empty()) continue;
      const auto other = normalise_name(trim(synonym));
      ASSERT_TRUE(other.has_value()) << synonym;
      EXPECT_EQ(other->preferred, cells[0]) << synonym;
    }
  }
  EXPECT_GT(rows, 400);
}

}  // namespace
}  // namespace sash::chem
