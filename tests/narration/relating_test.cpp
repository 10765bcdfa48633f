// Each kind of arithmetic that speakers do aloud, in small narrations of our own: a relation is proposed for it, and
// the checks find the mistake when the result is said wrong. Expected values are computed by hand with atomic weights
// of the IUPAC 2021 abridged table; the sums stand beside them.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "model/names.h"
#include "narration/propose.h"
#include "workings/check.h"

namespace sash::narration {
namespace {

/// A figure that was read: what the tests say in few words.
struct Said {
  quantity::Kind kind;
  std::string digits;
  std::string unit;
  std::string subject;
  model::Role role = model::Role::measured_out;
  std::optional<std::size_t> same_as = {};
  std::optional<std::size_t> attached_to = {};
  std::vector<std::size_t> sum_of = {};
  std::optional<std::size_t> fraction_of = {};
  double subject_sure = 1;
};

using model::Role;
using quantity::Kind;

/// The record of a narration whose sentences each say one of the figures, with everything sure enough taken.
model::Record record_of(const std::vector<std::pair<std::string, Said>>& told) {
  model::Record record;
  model::Footage footage;
  footage.id = {1};
  record.footages.push_back(footage);
  Reading reading;
  std::int64_t number = 0;
  for (const auto& [sentence, said] : told) {
    model::NarrationLine line;
    line.id = {++number};
    line.footage = footage.id;
    line.when = {Moment::seconds(static_cast<double>(10 * number)),
                 Moment::seconds(static_cast<double>(10 * number + 8))};
    line.text = sentence;
    record.lines.push_back(line);
    SpokenFigure f;
    const std::size_t begin = std::min(sentence.find_first_of("0123456789"), sentence.size());
    const std::size_t end = std::min(sentence.find_first_not_of("0123456789.", begin), sentence.size());
    const bool in_words = begin == sentence.size();  // "half an amp": the whole sentence stands for it
    f.text = in_words ? sentence : sentence.substr(begin, end - begin);
    f.pieces = {{static_cast<std::size_t>(number - 1), in_words ? 0 : static_cast<std::uint32_t>(begin),
                 static_cast<std::uint32_t>(f.text.size())}};
    f.kind = said.kind;
    f.reading.digits = said.digits;
    f.reading.value = std::stod(said.digits);
    f.reading.unit = said.unit;
    f.subject = said.subject;
    f.role = said.role;
    f.same_sample_as = said.same_as;
    f.attached_to = said.attached_to;
    f.sum_of = said.sum_of;
    f.fraction_of = said.fraction_of;
    f.subject_sure = said.subject_sure;
    f.count_times_each =
        std::any_of(said.sum_of.begin(), said.sum_of.end(), [&](auto k) { return told[k].second.kind == Kind::count; });
    reading.figures.push_back(std::move(f));
  }
  std::int64_t next = 0;
  Proposals proposals = propose(
      record, [&](const model::Thing&) { return ++next; },
      [&](std::span<const model::NarrationLine>) { return reading; });
  std::erase_if(proposals.relations, [](const auto& r) { return !sure_enough(r.origin); });
  for (auto& f : proposals.figures) f.origin.standing = model::Standing::confirmed;
  for (auto& r : proposals.relations) r.origin.standing = model::Standing::confirmed;
  EXPECT_TRUE(model::apply(edit_of(proposals), record).ok());
  return record;
}

struct Case {
  std::string name;
  std::vector<std::pair<std::string, Said>> told;  ///< the last one is the result, said right
  std::string wrong;                               ///< digits that would be a mistake
};

class SpokenArithmetic : public testing::TestWithParam<Case> {};

std::size_t conflicts(const model::Record& record) {
  return workings::check(record).count(workings::Verdict::conflicts);
}

TEST_P(SpokenArithmetic, RaisesNothingWhenItIsRight) {
  const model::Record record = record_of(GetParam().told);
  EXPECT_EQ(conflicts(record), 0u) << workings::check(record).findings.front().sentence;
  EXPECT_FALSE(record.relations.empty());
}

TEST_P(SpokenArithmetic, IsObjectedToWhenItIsWrong) {
  auto told = GetParam().told;
  told.back().second.digits = GetParam().wrong;
  const model::Record record = record_of(told);
  ASSERT_EQ(conflicts(record), 1u);
  const workings::Report report = workings::check(record);
  const auto& finding = report.findings.front();
  const model::FigureId wrong = record.figures.back().id;
  const bool named =
      (finding.said && finding.said->figure == wrong) ||
      std::any_of(finding.culprits.begin(), finding.culprits.end(), [&](const workings::Culprit& c) {
        return std::any_of(c.should_be.begin(), c.should_be.end(), [&](const auto& r) { return r.figure == wrong; });
      });
  EXPECT_TRUE(named) << finding.sentence;
}

const std::vector<Case> cases = {
    {"YieldOfAPrecipitate",  // 3.40 / 169.87 = 0.02002; x 143.32 = 2.869; 2.45 / 2.869 = 85.4 %
     {{"I weigh 3.40 grams of silver nitrate.", {Kind::mass, "3.40", "g", "silver nitrate"}},
      {"And 1.50 grams of sodium chloride.", {Kind::mass, "1.50", "g", "sodium chloride"}},
      {"I get 2.45 grams of silver chloride.", {Kind::mass, "2.45", "g", "silver chloride", Role::product}},
      {"A yield of 85.4 percent.", {Kind::percent_yield, "85.4", "%", "silver chloride", Role::stated_result, {}, 2}}},
     "95.0"},
    {"YieldWhereCarbonCompoundsBalanceInManyWays",  // 4.00 / 138.12 = 0.02896; x 180.16 = 5.218; 3.80 / 5.218 = 72.8 %
     {{"I weigh 4.00 grams of salicylic acid.", {Kind::mass, "4.00", "g", "salicylic acid"}},
      {"And 6.50 grams of acetic anhydride.", {Kind::mass, "6.50", "g", "acetic anhydride", Role::added}},
      {"I get 3.80 grams of aspirin.", {Kind::mass, "3.80", "g", "aspirin", Role::product}},
      {"A yield of 72.8 percent.", {Kind::percent_yield, "72.8", "%", "aspirin", Role::stated_result, {}, 2}}},
     "84.0"},
    {"YieldWhereWaterTakesPart",  // 12.5 / 249.68 / 2 = 0.02503; x 221.11 = 5.535; 4.50 / 5.535 = 81.3 %
     {{"I weigh 12.5 grams of copper sulfate.", {Kind::mass, "12.5", "g", "copper(II) sulfate pentahydrate"}},
      {"And 5.83 grams of sodium carbonate.", {Kind::mass, "5.83", "g", "sodium carbonate", Role::added}},
      {"I get 4.50 grams of it.", {Kind::mass, "4.50", "g", "copper(II) carbonate hydroxide", Role::product}},
      {"A yield of 81.3 percent.",
       {Kind::percent_yield, "81.3", "%", "copper(II) carbonate hydroxide", Role::stated_result, {}, 2}}},
     "95.0"},
    {"MolesOfASaltAsItIsSold",  // 12.5 / 249.68 = 0.0501, though nobody says that it holds water
     {{"Here is copper sulfate, 12.5 grams.", {Kind::mass, "12.5", "g", "copper(II) sulfate"}},
      {"That is 0.0501 moles.", {Kind::amount, "0.0501", "mol", "copper(II) sulfate", Role::measured_out, 0}}},
     "0.0300"},
    {"MolesFromMass",  // 5.850 / 58.44 = 0.1001
     {{"Here is sodium chloride, 5.85 grams.", {Kind::mass, "5.85", "g", "sodium chloride"}},
      {"That is 0.100 moles.", {Kind::amount, "0.100", "mol", "sodium chloride", Role::measured_out, 0}}},
     "0.120"},
    {"MassFromVolumeAndDensity",  // 20.0 x 0.789 = 15.78
     {{"I take 20.0 mils of ethanol.", {Kind::volume, "20.0", "mL", "ethanol"}},
      {"Its density is 0.789.", {Kind::density, "0.789", "g/mL", "ethanol", Role::other, {}, 0}},
      {"So that weighs 15.8 grams.", {Kind::mass, "15.8", "g", "ethanol", Role::measured_out, 0}}},
     "25.3"},
    {"MolesFromStrengthAndVolume",  // 0.0250 x 2.00 = 0.0500
     {{"Then 25.0 mils of hydrochloric acid.", {Kind::volume, "25.0", "mL", "hydrochloric acid", Role::added}},
      {"It is 2.00 molar.", {Kind::molar_concentration, "2.00", "mol/L", "hydrochloric acid", Role::added, {}, 0}},
      {"Makes 0.0500 moles.", {Kind::amount, "0.0500", "mol", "hydrochloric acid", Role::added, 0}}},
     "0.0800"},
    {"MolesFromPercentAndMass",  // 50.0 x 0.370 / 36.458 = 0.507
     {{"I weigh 50.0 grams of hydrochloric acid.", {Kind::mass, "50.0", "g", "hydrochloric acid", Role::added}},
      {"That is 37.0 percent.", {Kind::mass_percent, "37.0", "%", "hydrochloric acid", Role::added, {}, 0}},
      {"So 0.507 moles.", {Kind::amount, "0.507", "mol", "hydrochloric acid", Role::added, 0}}},
     "0.650"},
    {"StrengthOfWhatWasMadeUp",  // 0.0500 / 0.250 = 0.200
     {{"There go 0.0500 moles of sodium chloride.", {Kind::amount, "0.0500", "mol", "sodium chloride"}},
      {"Made up to 250.0 mils.", {Kind::volume, "250.0", "mL", "sodium chloride solution"}},
      {"That is 0.200 molar.",
       {Kind::molar_concentration, "0.200", "mol/L", "sodium chloride solution", Role::measured_out, {}, 1}}},
     "0.125"},
    {"PercentStrengthInAWeightOfWater",  // 25.0 / 125.0 = 20.0 %
     {{"I dissolve 25.0 grams of sodium chloride.", {Kind::mass, "25.0", "g", "sodium chloride"}},
      {"In 100.0 grams of water.", {Kind::mass, "100.0", "g", "water", Role::solvent}},
      {"A 20.0 percent solution.",
       {Kind::mass_percent, "20.0", "%", "sodium chloride solution", Role::stated_result, {}, 1}}},
     "30.0"},
    {"PercentStrengthInAVolumeOfWater",  // 25.0 / (25.0 + 99.8) = 20.0 %
     {{"I dissolve 25.0 grams of sodium chloride.", {Kind::mass, "25.0", "g", "sodium chloride"}},
      {"In 100.0 mils of water.", {Kind::volume, "100.0", "mL", "water", Role::solvent}},
      {"A 20.0 percent solution.",
       {Kind::mass_percent, "20.0", "%", "sodium chloride solution", Role::stated_result, {}, 1}}},
     "32.0"},
    {"Dilution",  // 1.00 x 10.0 / 100.0 = 0.100
     {{"10.0 mils of sulfuric acid.", {Kind::volume, "10.0", "mL", "sulfuric acid"}},
      {"The 1.00 molar one.", {Kind::molar_concentration, "1.00", "mol/L", "sulfuric acid", Role::measured_out, {}, 0}},
      {"Goes to 100.0 mils.", {Kind::volume, "100.0", "mL", "sulfuric acid"}},
      {"So 0.100 molar.", {Kind::molar_concentration, "0.100", "mol/L", "sulfuric acid", Role::measured_out, {}, 2}}},
     "0.200"},
    {"Titration",  // 24.1 x 0.100 / 10.0 = 0.241, one to one
     {{"10.0 mils of the sodium hydroxide.", {Kind::volume, "10.0", "mL", "sodium hydroxide solution"}},
      {"The acid took 24.1 mils.", {Kind::volume, "24.1", "mL", "hydrochloric acid", Role::added}},
      {"It is 0.100 molar.", {Kind::molar_concentration, "0.100", "mol/L", "hydrochloric acid", Role::added, {}, 1}},
      {"So the base is 0.241 molar.",
       {Kind::molar_concentration, "0.241", "mol/L", "sodium hydroxide solution", Role::stated_result}}},
     "0.310"},
    {"GasAtRoomConditions",  // 0.0500 x 24.06 = 1.203 L
     {{"That gives 0.0500 moles of hydrogen.", {Kind::amount, "0.0500", "mol", "hydrogen", Role::stated_result}},
      {"So 1.20 liters.", {Kind::gas_volume, "1.20", "L", "hydrogen", Role::stated_result, 0}}},
     "1.80"},
    {"SumOfPortions",  // 350.0 + 150.0 = 500.0
     {{"350.0 grams of olive oil.", {Kind::mass, "350.0", "g", "olive oil"}},
      {"And 150.0 grams of coconut oil.", {Kind::mass, "150.0", "g", "coconut oil", Role::added}},
      {"Altogether 500.0 grams.", {Kind::mass, "500.0", "g", "oils", Role::stated_result, {}, {}, {0, 1}}}},
     "540.0"},
    {"CountTimesEach",  // 3 x 50.0 = 150.0
     {{"Three portions of water.", {Kind::count, "3", "1", "water", Role::solvent}},
      {"Of 50.0 mils.", {Kind::volume, "50.0", "mL", "water", Role::solvent, {}, 0}},
      {"So 150.0 mils.", {Kind::volume, "150.0", "mL", "water", Role::stated_result, {}, {}, {0, 1}}}},
     "180.0"},
    {"NetWeight",  // 48.31 - 46.85 = 1.46
     {{"The dish with it is 48.31 grams.", {Kind::mass, "48.31", "g", "", Role::other}},
      {"Empty it was 46.85.", {Kind::mass, "46.85", "g", "", Role::other}},
      {"That leaves 1.46 grams of copper.", {Kind::mass, "1.46", "g", "copper", Role::recovered}}},
     "1.64"},
    {"Remainder",  // 14.6 - 10.0 = 4.6
     {{"We have 14.6 grams of benzoin.", {Kind::mass, "14.6", "g", "benzoin", Role::product}},
      {"Of that 10.0 grams go on.", {Kind::mass, "10.0", "g", "benzoin"}},
      {"4.6 grams stay here.", {Kind::mass, "4.6", "g", "benzoin", Role::remainder}}},
     "5.6"},
    {"Warming",  // 31.0 - 24.0 = 7.0
     {{"It was at 24.0 degrees.", {Kind::temperature, "24.0", "Cel", "water", Role::condition}},
      {"It is at 31.0 degrees.", {Kind::temperature, "31.0", "Cel", "water", Role::condition}},
      {"Up by 7.0 degrees.", {Kind::temperature_change, "7.0", "Cel", "water", Role::stated_result}}},
     "9.0"},
    {"ShareOfAWhole",  // a quarter of 200.0 = 50.0
     {{"There are 200.0 mils of vinegar.", {Kind::volume, "200.0", "mL", "vinegar"}},
      {"I take a quarter, 0.25 of it.", {Kind::fraction, "0.25", "1", "vinegar", Role::measured_out, {}, {}, {}, 0}},
      {"So 50.0 mils.", {Kind::volume, "50.0", "mL", "vinegar", Role::measured_out, 1}}},
     "75.0"},
    {"ConvertedUnit",  // 40.0 °C = 104.0 °F
     {{"Keep it at 40.0 degrees.", {Kind::temperature, "40.0", "Cel", "water", Role::condition}},
      {"That is 104.0 Fahrenheit.", {Kind::temperature, "104.0", "[degF]", "water", Role::condition, 0}}},
     "114.0"},
    {"PercentYield",  // 5.12 / 6.55 = 78.2 %
     {{"There are 5.12 grams of aspirin.", {Kind::mass, "5.12", "g", "aspirin", Role::product}},
      {"In theory there would be 6.55 grams.", {Kind::mass, "6.55", "g", "aspirin", Role::stated_result}},
      {"So 78.2 percent.", {Kind::percent_yield, "78.2", "%", "aspirin", Role::stated_result, {}, 0}}},
     "85.2"},
    {"RecoveryOfWhatWasPutIn",  // 1.46 / 1.52 = 96.1 %
     {{"I took 1.52 grams of copper.", {Kind::mass, "1.52", "g", "copper"}},
      {"Back came 1.46 grams of copper.", {Kind::mass, "1.46", "g", "copper", Role::recovered}},
      {"Which is 96.1 percent.", {Kind::percent_yield, "96.1", "%", "copper", Role::stated_result, {}, 1}}},
     "86.1"},
    {"TheoreticalYield",  // 1.215 / 24.305 = 0.05000; x 40.304 = 2.015
     {{"I burn 1.215 grams of magnesium.", {Kind::mass, "1.215", "g", "magnesium"}},
      {"In 0.100 moles of oxygen.", {Kind::amount, "0.100", "mol", "oxygen", Role::added}},
      {"That could give 2.015 grams of magnesium oxide.",
       {Kind::mass, "2.015", "g", "magnesium oxide", Role::stated_result}}},
     "2.915"},
    {"ElectronsFromCurrent",  // 0.500 x 1200 / 96485 = 6.22 mmol
     {{"Half an amp, 0.500.", {Kind::current, "0.500", "A", "", Role::condition}},
      {"For 20.0 minutes.", {Kind::duration, "20.0", "min", "", Role::condition}},
      {"So 6.22 millimoles of electrons.", {Kind::amount, "6.22", "mmol", "electrons", Role::stated_result}}},
     "8.22"},
    {"WhatIsInTheFlaskByAnAliquot",  // 1.65 x 100.0 / 10.0 = 16.5
     {{"Made up to 100.0 mils.", {Kind::volume, "100.0", "mL", "hydrochloric acid"}},
      {"I pipette 10.0 mils.", {Kind::volume, "10.0", "mL", "hydrochloric acid"}},
      {"In there are 1.65 millimoles.", {Kind::amount, "1.65", "mmol", "hydrochloric acid", Role::stated_result}},
      {"So in the whole flask 16.5.", {Kind::amount, "16.5", "mmol", "hydrochloric acid", Role::stated_result}}},
     "12.5"},
    {"AnExcess",  // (0.250 - 0.200) / 0.200 = 25 %
     {{"That is 0.200 moles of sodium sulfite.", {Kind::amount, "0.200", "mol", "sodium sulfite"}},
      {"And 0.250 moles of sulfur.", {Kind::amount, "0.250", "mol", "sulfur", Role::added}},
      {"An excess of 25 percent.", {Kind::percent_other, "25", "%", "sulfur", Role::stated_result, {}, 1}}},
     "20"},
    {"PercentOnTop",  // 10.60 x 1.10 = 11.66
     {{"We need 10.60 grams of sodium carbonate.", {Kind::mass, "10.60", "g", "sodium carbonate", Role::stated_result}},
      {"I take 10.0 percent more.", {Kind::percent_other, "10.0", "%", "sodium carbonate"}},
      {"So 11.66 grams.", {Kind::mass, "11.66", "g", "sodium carbonate"}}},
     "12.66"},
    {"MeanOfReadings",  // (27.94 + 27.98) / 2 = 27.96
     {{"The second is 27.94 mils.", {Kind::volume, "27.94", "mL", "EDTA solution", Role::added}},
      {"The third, 27.98.", {Kind::volume, "27.98", "mL", "EDTA solution", Role::added}},
      {"Mean, 27.96.", {Kind::volume, "27.96", "mL", "EDTA solution", Role::stated_result}}},
     "26.96"},
    {"OneOfSeveral",  // 6.55 / 5 = 1.31
     {{"Here are 5 tablets.", {Kind::count, "5", "1", "antacid tablet"}},
      {"Together 6.55 grams.", {Kind::mass, "6.55", "g", "antacid tablet"}},
      {"So each is 1.31 grams.", {Kind::mass, "1.31", "g", "antacid tablet", Role::stated_result}}},
     "1.13"},
    {"PowerOfACell",  // 6.00 x 2.00 = 12.0
     {{"It takes 2.00 amps.", {Kind::current, "2.00", "A", "", Role::condition}},
      {"At 6.00 volts.", {Kind::voltage, "6.00", "V", "", Role::condition}},
      {"That is 12.0 watts.", {Kind::power, "12.0", "W", "", Role::stated_result}}},
     "10.0"},
    {"HeatOfWarming",  // 200.0 x 4.18 x 6.70 = 5.60 kJ
     {{"We have 200.0 grams of solution.", {Kind::mass, "200.0", "g", "reaction mixture", Role::stated_result}},
      {"It warmed by 6.70 degrees.",
       {Kind::temperature_change, "6.70", "Cel", "reaction mixture", Role::stated_result}},
      {"That makes 5600 joules.", {Kind::energy, "5600", "J", "reaction mixture", Role::stated_result}}},
     "6500"},
    {"WhatWasUsedUp",  // 25.00 - 9.96 = 15.04
     {{"There were 25.00 millimoles of acid.", {Kind::amount, "25.00", "mmol", "hydrochloric acid", Role::added}},
      {"9.96 are left over.", {Kind::amount, "9.96", "mmol", "hydrochloric acid", Role::stated_result}},
      {"So the tablet used 15.04.", {Kind::amount, "15.04", "mmol", "hydrochloric acid", Role::stated_result}}},
     "16.04"},
    {"WhatWentOn",  // 8.604 - 8.412 = 0.192
     {{"The key weighs 8.412 grams.", {Kind::mass, "8.412", "g", "steel key"}},
      {"Now it is 8.604.", {Kind::mass, "8.604", "g", "steel key", Role::product}},
      {"So it gained 0.192 grams of copper.", {Kind::mass, "0.192", "g", "copper", Role::product}}},
     "0.129"},
    {"DilutedSpirit",  // 86.0 x 60.0 / 90.0 = 57.3 %
     {{"60.0 mils of the spirit.", {Kind::volume, "60.0", "mL", "ethanol", Role::product}},
      {"That is 86.0 percent.", {Kind::volume_percent, "86.0", "%", "ethanol", Role::product, {}, 0}},
      {"With water it is 90.0 mils.", {Kind::volume, "90.0", "mL", "ethanol", Role::stated_result}},
      {"Which is 57.3 percent.", {Kind::volume_percent, "57.3", "%", "ethanol", Role::stated_result, {}, 2}}},
     "43.0"},
    {"NoMoreMetalThanWasPutIn",  // 0.2000 x 287.5 = 57.5; reckoned from the acid it would be 63.3
     {{"13.08 grams of zinc.", {Kind::mass, "13.08", "g", "zinc"}},
      {"That could give 57.5 grams of zinc sulfate heptahydrate.",
       {Kind::mass, "57.5", "g", "zinc sulfate heptahydrate", Role::stated_result}}},
     "63.3"},
    {"InkByTheNameOfTheMixture",  // 0.0900 / 0.450 = 0.200
     {{"In go 0.0900 moles of iron sulfate.", {Kind::amount, "0.0900", "mol", "iron(II) sulfate heptahydrate"}},
      {"It makes 450.0 mils.", {Kind::volume, "450.0", "mL", "ink", Role::stated_result}},
      {"So the ink is 0.200 molar.", {Kind::molar_concentration, "0.200", "mol/L", "ink", Role::stated_result, {}, 1}}},
     "0.0405"},
    {"PurityOfASample",  // 0.614 / 0.660 = 93.0 %
     {{"I weigh 0.660 grams of lawn feed.", {Kind::mass, "0.660", "g", "lawn feed"}},
      {"In it are 0.614 grams of ammonium sulfate.",
       {Kind::mass, "0.614", "g", "ammonium sulfate", Role::stated_result}},
      {"So 93.0 percent of it.", {Kind::mass_percent, "93.0", "%", "ammonium sulfate", Role::stated_result, {}, 1}}},
     "83.0"},
};

INSTANTIATE_TEST_SUITE_P(Of, SpokenArithmetic, testing::ValuesIn(cases), [](const auto& c) { return c.param.name; });

TEST(Relating, TakesTheWayThatGivesWhatWasSaid) {
  // 1.85 / 2.31 = 80.1 %: of the crude, not of the 3.00 g that were expected at first.
  const model::Record record =
      record_of({{"Crude it was 2.31 grams of caffeine.", {Kind::mass, "2.31", "g", "caffeine", Role::product}},
                 {"There should have been 3.00 grams.", {Kind::mass, "3.00", "g", "caffeine", Role::stated_result}},
                 {"Now it is 1.85 grams of caffeine.", {Kind::mass, "1.85", "g", "caffeine", Role::product}},
                 {"So 80.1 percent.", {Kind::percent_yield, "80.1", "%", "caffeine", Role::stated_result, {}, 2}}});
  EXPECT_EQ(conflicts(record), 0u);
  ASSERT_FALSE(record.relations.empty());
  const model::Relation& yield = record.relations.back();
  EXPECT_EQ(yield.type, model::RelationType::yield);
  EXPECT_EQ(yield.terms[1].figure, record.figures[0].id);
}

TEST(Relating, TakesAHandbookVolumeOfAGasAsItIsMeant) {
  // 0.0500 x 22.41 = 1.121 L, at 0 °C and one atmosphere.
  const model::Record record = record_of(
      {{"That is 0.0500 moles of hydrogen.", {Kind::amount, "0.0500", "mol", "hydrogen", Role::stated_result}},
       {"So 1.121 liters.", {Kind::gas_volume, "1.121", "L", "hydrogen", Role::stated_result, 0}}});
  EXPECT_EQ(conflicts(record), 0u);
  ASSERT_EQ(record.relations.size(), 1u);
  EXPECT_EQ(record.relations[0].given.at("temperature"), "0 Cel");
}

TEST(Relating, RaisesNothingOverAnotherWeighing) {
  const model::Record record =
      record_of({{"We want 5 grams of copper.", {Kind::mass, "5.00", "g", "copper"}},
                 {"It shows 5.02 grams.", {Kind::mass, "5.02", "g", "copper", Role::measured_out, 0}}});
  EXPECT_EQ(conflicts(record), 0u);
}

TEST(Relating, LeavesRoundedMolarMassesAlone) {
  // 0.254 / 63.5 = 0.004 mol; with 63.546 it is 0.003997.
  const model::Record record = record_of(
      {{"Copper, 0.2540 grams.", {Kind::mass, "0.2540", "g", "copper"}},
       {"By 63.5 that is 0.004000 moles.", {Kind::amount, "0.004000", "mol", "copper", Role::measured_out, 0}}});
  EXPECT_EQ(conflicts(record), 0u);
}

/// 20.0 g that are called 0.400 mol: of sodium chloride they would be 0.342 mol, of sodium hydroxide 0.500 mol.
std::vector<std::pair<std::string, Said>> salt(double sure) {
  return {{"Here is sodium chloride, 20.0 grams.",
           {Kind::mass, "20.0", "g", "sodium chloride", Role::measured_out, {}, {}, {}, {}, sure}},
          {"That is 0.400 moles.",
           {Kind::amount, "0.400", "mol", "sodium chloride", Role::measured_out, 0, {}, {}, {}, sure}}};
}

TEST(Relating, ObjectsByItselfOnlyWhereTheReadingIsSure) {
  EXPECT_EQ(conflicts(record_of(salt(1))), 1u);
  EXPECT_EQ(conflicts(record_of(salt(0.3))), 0u);
}

TEST(Relating, TakesNothingForWrongThatFitsAnotherSubstanceOfTheNarration) {
  // 85.0 / 80.04 = 1.062, of ammonium nitrate, although calcium chloride was spoken of last.
  const auto told = [](double sure) {
    return std::vector<std::pair<std::string, Said>>{
        {"Ammonium nitrate was the first.", {Kind::volume, "100.0", "mL", "water", Role::solvent}},
        {"Calcium chloride gets hot. The pack holds 85.0 grams.",
         {Kind::mass, "85.0", "g", "calcium chloride", Role::measured_out, {}, {}, {}, {}, sure}},
        {"So 1.06 moles.", {Kind::amount, "1.06", "mol", "calcium chloride", Role::measured_out, 1, {}, {}, {}, sure}}};
  };
  EXPECT_EQ(conflicts(record_of(told(1))), 1u);
  EXPECT_EQ(conflicts(record_of(told(0.9))), 0u);
}

TEST(Relating, DoesNotTakeAReadingForTheMean) {
  // Only what is said to be the average is one: 14.05 and 14.15 have 14.10.
  const model::Record record = record_of(
      {{"A rough one, 14.80 mils,", {Kind::volume, "14.80", "mL", "iodine solution", Role::added}},
       {"then 14.05,", {Kind::volume, "14.05", "mL", "iodine solution", Role::added}},
       {"then 14.15, and the average of the last two", {Kind::volume, "14.15", "mL", "iodine solution", Role::added}},
       {"is an average of 14.10.", {Kind::volume, "14.10", "mL", "iodine solution", Role::stated_result}}});
  EXPECT_EQ(conflicts(record), 0u);
}

}  // namespace
}  // namespace sash::narration
