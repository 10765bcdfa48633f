#include "chem/formula.h"

#include <gmock/gmock.h>

namespace sash::chem {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

Formula formula(std::string_view text) {
  const auto read = read_formula(text);
  EXPECT_TRUE(read.ok()) << text << ": " << (read.ok() ? "" : read.fault().sentence);
  return read.ok() ? *read : *read_formula("H2O");
}

std::string complaint(std::string_view text) {
  const auto read = read_formula(text);
  EXPECT_FALSE(read.ok()) << text << " was read as " << (read.ok() ? read->plain() : "");
  return read.ok() ? "" : read.fault().sentence;
}

Code code_of(std::string_view text) {
  const auto read = read_formula(text);
  return read.ok() ? Code::cancelled : read.fault().code;
}

// Expected counts by hand from the definition of a formula.
TEST(Formula, CountsAtomsThroughNestedBrackets) {
  EXPECT_EQ(formula("H2O").hill(), "H2O");
  EXPECT_EQ(formula("Ca3(PO4)2").hill(), "Ca3O8P2");
  EXPECT_EQ(formula("K4[Fe(CN)6]").hill(), "C6FeK4N6");
  EXPECT_EQ(formula("{[(CH3)2N]3}2").hill(), "C12H36N6");
  EXPECT_EQ(formula("CH3CH2OH").hill(), "C2H6O");
}

TEST(Formula, MultipliesHydratePartsHoweverTheDotIsWritten) {
  for (const char* text : {"CuSO4·5H2O", "CuSO4*5H2O", "CuSO4•5H2O", "CuSO4 · 5H2O", "CuSO4 .5H2O", "CuSO₄⋅5H₂O"}) {
    EXPECT_EQ(formula(text).hill(), "CuH10O9S") << text;
    EXPECT_EQ(formula(text).water_of_crystallisation(), Fraction(5)) << text;
  }
  EXPECT_EQ(formula("(NH4)2SO4.FeSO4·6H2O").hill(), "FeH20N2O14S2");
}

TEST(Formula, KeepsHalfAWaterExact) {
  for (const char* text : {"CaSO4·0.5H2O", "CaSO4·½H2O", "CaSO4·1/2H2O", "CaSO4.0.5H2O", "CaSO4*.5H2O"}) {
    const Formula f = formula(text);
    EXPECT_EQ(f.count_of({8, std::nullopt}), Fraction::ratio(9, 2)) << text;
    EXPECT_EQ(f.count_of({1, std::nullopt}), Fraction(1)) << text;
    EXPECT_EQ(f.plain(), "CaSO4*0.5H2O") << text;
  }
}

TEST(Formula, RefusesAFullStopThatMayBeADecimalPoint) {
  EXPECT_EQ(code_of("CuSO4.5H2O"), Code::ambiguous);
  EXPECT_EQ(complaint("CuSO4.5H2O"),
            "The full stop at character 6 of 'CuSO4.5H2O' can be a dot before 5 or the decimal point of 4.5; type "
            "'CuSO4·5H2O' (or * for the dot) if it is a dot.");
  EXPECT_THAT(read_formula("FeCl.5H2O").fault().others, ElementsAre("FeCl·5H2O", "FeCl·0.5H2O"));
  EXPECT_EQ(formula("CuSO4.H2O").hill(), "CuH2O5S");
}

TEST(Formula, ReadsChargesInEverySpelling) {
  for (const char* text :
       {"SO4^2-", "SO4^-2", "SO4^{2-}", "SO4^(2-)", "SO₄²⁻", "SO4²⁻", "SO42-", "SO4--", "[SO4]2-", "SO4^2−"}) {
    EXPECT_EQ(formula(text).charge(), -2) << text;
    EXPECT_EQ(formula(text).hill(), "O4S^2-") << text;
  }
  EXPECT_EQ(formula("Na+").charge(), 1);
  EXPECT_EQ(formula("Cu²⁺").charge(), 2);
  EXPECT_EQ(formula("[Fe(CN)6]4-").charge(), -4);
  EXPECT_EQ(formula("Cu^2+·6H2O").charge(), 2);
  EXPECT_EQ(formula("(NH4^+)2(SO4^2-)").charge(), 0);
  EXPECT_EQ(formula("e^-").charge(), -1);
  EXPECT_TRUE(formula("e-").is_electron());
}

TEST(Formula, TakesTheKnownIonAndAsksWhenTwoAreKnown) {
  EXPECT_EQ(formula("NH4+").hill(), "H4N^+");
  EXPECT_EQ(formula("Cu2+").hill(), "Cu^2+");
  EXPECT_EQ(formula("Cr2O72-").hill(), "Cr2O7^2-");
  EXPECT_EQ(formula("Hg22+").hill(), "Hg2^2+");
  EXPECT_THAT(read_formula("VO2+").fault().others, ElementsAre("VO^2+", "VO2^+"));
  EXPECT_EQ(code_of("O2-"), Code::ambiguous);
  EXPECT_EQ(code_of("C5H5-"), Code::ambiguous);
}

TEST(Formula, ReadsIsotopes) {
  EXPECT_EQ(formula("D2O").count_of({1, 2}), Fraction(2));
  EXPECT_EQ(formula("[2H]2O").count_of({1, 2}), Fraction(2));
  EXPECT_EQ(formula("T2O").count_of({1, 3}), Fraction(2));
  EXPECT_EQ(formula("^13CO2").count_of({6, 13}), Fraction(1));
  EXPECT_EQ(formula("¹³CO₂").plain(), "[13C]O2");
  EXPECT_EQ(formula("H2^18O").count_of({8, 18}), Fraction(1));
  EXPECT_EQ(formula("[18OH]^-").count_of({8, 18}), Fraction(1));
  EXPECT_EQ(formula("[13C6]H12O6").count_of({6, 13}), Fraction(6));
  EXPECT_EQ(complaint("[99C]"), "No isotope 99C is known (character 2 of '[99C]').");
}

TEST(Formula, ExpandsAbbreviationsOnlyWhereTheyAreClear) {
  EXPECT_EQ(formula("Me2SO").hill(), "C2H6OS");
  EXPECT_EQ(formula("EtOH").hill(), "C2H6O");
  EXPECT_EQ(formula("PhOH").hill(), "C6H6O");
  EXPECT_EQ(formula("NaOAc").hill(), "C2H3NaO2");
  EXPECT_EQ(formula("[Co(en)3]Cl3").hill(), "C6H24Cl3CoN6");
  EXPECT_EQ(formula("Cu(acac)2").hill(), "C10H14CuO4");
  EXPECT_THAT(complaint("AcN"), HasSubstr("can be actinium or acetyl"));
}

TEST(Formula, PointsAtTheCharacterThatIsWrong) {
  EXPECT_EQ(complaint("CuXx2"), "Unknown element 'Xx' at character 3 of 'CuXx2'; did you mean 'Xe'?");
  EXPECT_EQ(complaint("Ca(OH2"), "The bracket '(' at character 3 of 'Ca(OH2' is never closed.");
  EXPECT_EQ(complaint("CaOH)2"), "The bracket ')' at character 5 of 'CaOH)2' was never opened.");
  EXPECT_EQ(complaint("K[Fe(CN]6)"), "']' at character 8 of 'K[Fe(CN]6)' closes the '(' of character 5; use ')'.");
  EXPECT_EQ(complaint("H02"), "A count cannot begin with 0 at character 2 of 'H02'; for oxygen type the letter O.");
  EXPECT_EQ(complaint("nacl"),
            "An element symbol begins with a capital, but 'n' stands at character 1 of 'nacl'; did you mean 'Na'?");
  EXPECT_EQ(complaint("SO₄q"), "An element symbol begins with a capital, but 'q' stands at character 4 of 'SO₄q'.");
  EXPECT_EQ(complaint("SO4^2"), "The charge at character 4 of 'SO4^2' is not complete; write it as in ^2- or ^+.");
  EXPECT_EQ(complaint("()"), "The bracket closed at character 2 of '()' holds nothing.");
  EXPECT_EQ(complaint("CuSO4·xH2O"),
            "'x' at character 7 of 'CuSO4·xH2O' leaves the number open; type a number, such as 5 in ·5H2O.");
  EXPECT_EQ(complaint("  "), "Nothing to read: type a formula, such as H2O.");
  EXPECT_EQ(*read_formula("CuXx2").fault().place, 2U);
}

TEST(Formula, StaysWithinItsBounds) {
  EXPECT_EQ(code_of(std::string(5000, 'H')), Code::out_of_range);
  EXPECT_EQ(code_of(std::string(40, '(') + "H" + std::string(40, ')')), Code::out_of_range);
  EXPECT_EQ(code_of("H12345678901"), Code::out_of_range);
  std::string tower = "H";
  for (int i = 0; i < 20; ++i) tower = "(" + tower + ")999999999";
  EXPECT_EQ(code_of(tower), Code::out_of_range);
  EXPECT_EQ(code_of("((Cu^2+)999999999)2"), Code::out_of_range);
  EXPECT_EQ(code_of("\xff\xfe"), Code::malformed);
}

TEST(Formula, PrintsForPeopleAndForFiles) {
  EXPECT_EQ(formula("CuSO4*5H2O").unicode(), "CuSO₄·5H₂O");
  EXPECT_EQ(formula("SO42-").unicode(), "SO₄²⁻");
  EXPECT_EQ(formula("[Cu(NH3)4]^2+").unicode(), "[Cu(NH₃)₄]²⁺");
  EXPECT_EQ(formula("[13C]O2").unicode(), "¹³CO₂");
  EXPECT_EQ(formula("e-").unicode(), "e⁻");
  EXPECT_EQ(formula("CuSO₄·5H₂O").plain(), "CuSO4*5H2O");
}

TEST(Formula, ComparesByCompositionAndCharge) {
  EXPECT_TRUE(formula("CH3COOH").same_composition(formula("C2H4O2")));
  EXPECT_FALSE(formula("Cu^2+").same_composition(formula("Cu^+")));
  EXPECT_FALSE(formula("D2O").same_composition(formula("H2O")));
}

TEST(Formula, ReadsBondsAndTypesettersSubscripts) {
  EXPECT_EQ(read_formula("CH2=CH2")->hill(), "C2H4");
  EXPECT_EQ(read_formula("HC≡CH")->unicode(), "HC≡CH");
  EXPECT_EQ(read_formula("C6H5-CH=CH-C6H5")->hill(), "C14H12");
  EXPECT_EQ(read_formula("SO_4^{2-}")->plain(), "SO4^2-");
  EXPECT_EQ(read_formula("C_{12}H_{22}O_{11}")->hill(), "C12H22O11");
  EXPECT_EQ(read_formula("^{13}CO2")->plain(), "[13C]O2");
  EXPECT_EQ(read_formula("Ba(OH)2 · 8 H2O")->plain(), "Ba(OH)2*8H2O");
  EXPECT_EQ(read_formula("CuSO4×5H2O")->plain(), "CuSO4*5H2O");
  EXPECT_EQ(read_formula("SO4 2-")->plain(), "SO4^2-");
  EXPECT_EQ(read_formula("Hg2 2+")->plain(), "Hg2^2+");
  EXPECT_TRUE(read_formula("e(-)")->is_electron());
}

TEST(Formula, ReadsMoreGroupsAndLigands) {
  EXPECT_EQ(read_formula("tBuOK")->hill(), "C4H9KO");
  EXPECT_EQ(read_formula("i-PrOH")->hill(), "C3H8O");
  EXPECT_EQ(read_formula("BnBr")->hill(), "C7H7Br");
  EXPECT_EQ(read_formula("[Ru(bpy)3]Cl2")->hill(), "C30H24Cl2N6Ru");
  EXPECT_EQ(read_formula("[Fe(phen)3]2+")->hill(), "C36H24FeN6^2+");
  EXPECT_EQ(read_formula("AcOH")->hill(), "C2H4O2");
}

TEST(Formula, ReadsAcetylWhereActiniumCannotBe) {
  EXPECT_EQ(read_formula("AcCl")->hill(), "C2H3ClO");
  EXPECT_EQ(read_formula("Ac2O")->hill(), "C4H6O3");
  EXPECT_EQ(read_formula("Ac₂O")->hill(), "C4H6O3");
  EXPECT_EQ(read_formula("EtOAc")->hill(), "C4H8O2");
  EXPECT_EQ(read_formula("AcOEt")->hill(), "C4H8O2");
  EXPECT_EQ(read_formula("NaOAc*3H2O")->hill(), "C2H9NaO5");
  EXPECT_EQ(read_formula("AcNHPh")->hill(), "C8H9NO");
  EXPECT_EQ(reading_taken(*read_formula("AcCl")), "Ac is read as acetyl, CH₃CO.");
  EXPECT_EQ(reading_taken(*read_formula("NaCl")), "");
}

TEST(Formula, ReadsActiniumWhereThereAreThreeCharges) {
  for (const auto& [text, hill] : {std::pair{"AcCl3", "AcCl3"},
                                   {"Ac2O3", "Ac2O3"},
                                   {"Ac(NO3)3", "AcN3O9"},
                                   {"Ac^3+", "Ac^3+"},
                                   {"AcPO4*0.5H2O", "AcHO4.5P"}}) {
    const auto read = read_formula(text);
    ASSERT_TRUE(read.ok()) << text;
    EXPECT_EQ(read->hill(), hill);
    EXPECT_EQ(reading_taken(*read), "Ac is read as actinium.");
  }
}

TEST(Formula, AsksWhereAcCanBeBoth) {
  for (const char* text : {"Ac", "AcOCl", "AcN", "NaAc", "HAc"}) {
    const auto read = read_formula(text);
    ASSERT_FALSE(read.ok()) << text;
    EXPECT_EQ(read.fault().code, Code::ambiguous) << text;
  }
}

TEST(Formula, AsksWhetherARomanNumeralIsAnOxidationState) {
  for (const char* text : {"Fe(III)", "FeIII", "Sn(IV)", "Cu(I)", "MnVII"}) {
    const auto read = read_formula(text);
    ASSERT_FALSE(read.ok()) << text;
    EXPECT_EQ(read.fault().code, Code::ambiguous) << text;
    EXPECT_EQ(read.fault().place, 2U) << text;
  }
  EXPECT_EQ(read_formula("CuI")->hill(), "CuI");
  EXPECT_EQ(read_formula("VI3")->hill(), "I3V");
}

TEST(Formula, SaysHowToMendNumbersInFrontStatesAndBrokenCounts) {
  EXPECT_THAT(complaint("3CdSO4·8H2O"), testing::HasSubstr("type '(CdSO4)3·8H2O'"));
  EXPECT_THAT(complaint("H2O(l)"), testing::HasSubstr("'(l)' at character 4 of 'H2O(l)' is a state"));
  EXPECT_THAT(complaint("Fe0.95O"), testing::HasSubstr("no whole number"));
  EXPECT_THAT(complaint("TsOH"), testing::HasSubstr("tennessine or tosyl"));
}

}  // namespace
}  // namespace sash::chem
