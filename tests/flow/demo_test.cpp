// The demo shows what the desk is for: on it the check must find exactly what is wrong, and nothing else.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "flow/program.h"

namespace sash::flow {
namespace {

using nlohmann::json;

TEST(Demo, IsFootageAsEditorsWriteIt) {
  const fs::path film = demo_record().parent_path() / "copper-cycle.mp4";
  const json facts =
      json::parse(output_of({"ffprobe", "-v", "error", "-show_streams", "-show_format", "-of", "json", film.string()}));
  std::map<std::string, json> streams;
  for (const auto& stream : facts.at("streams")) streams[stream.at("codec_type")] = stream;
  EXPECT_EQ(streams["video"].value("codec_name", ""), "h264");
  EXPECT_EQ(streams["video"].value("width", 0), 1280);
  EXPECT_EQ(streams["video"].value("height", 0), 720);
  EXPECT_EQ(streams["audio"].value("codec_name", ""), "aac");
  const double seconds = std::stod(facts.at("format").at("duration").get<std::string>());
  EXPECT_GE(seconds, 120);
  EXPECT_LE(seconds, 180);
}

TEST(Demo, IsKeptWhenItIsThere) {
  const std::string before = bytes_of(demo_record());
  EXPECT_EQ(sashline({"demo", SASH_DEMO}).code, 0);
  EXPECT_EQ(bytes_of(demo_record()), before);
}

class CheckedDemo : public ::testing::Test {
 protected:
  CheckedDemo() {
    const Ran checked = sashline({"check", demo_record().string(), "--json"});
    EXPECT_EQ(checked.code, 1) << "conflicts were there to be found";
    EXPECT_EQ(checked.err, "");
    report_ = json::parse(checked.out);
    for (const auto& finding : report_.at("findings")) {
      by_label_[finding.at("label")] = finding;
    }
    for (const auto& c : report_.at("cover")) covers_.push_back(c);
  }
  const json& finding(const std::string& label) const { return by_label_.at(label); }

  json report_;
  std::map<std::string, json> by_label_;
  std::vector<json> covers_;
};

// 20 mL of 3.0 mol/L hold 0.020 L x 3.0 mol/L = 60 mmol; the narration says 16 mmol.
TEST_F(CheckedDemo, FindsTheTwoFiguresThatConflict) {
  const json& lye = finding("The sodium hydroxide");
  EXPECT_EQ(lye.at("verdict"), "conflicts");
  EXPECT_DOUBLE_EQ(lye.at("said").at("value").get<double>(), 16);
  EXPECT_NEAR(lye.at("computed").at("value").get<double>(), 60, 1e-9);
  EXPECT_EQ(lye.at("computed").at("unit"), "mmol");
}

// 0.552 g of 0.500 g are 110.4 %, as was said: no conflict of figures. But over 100 % cannot be pure, dry copper, and
// 0.052 g of water would explain it.
TEST_F(CheckedDemo, FindsTheYieldThatResidualWaterExplains) {
  const json& wet = finding("Copper back, before drying");
  EXPECT_EQ(wet.at("verdict"), "agrees_as_rounded");
  EXPECT_NE(wet.at("remark").get<std::string>().find("More than 100 % cannot be pure, dry product"), std::string::npos);
  EXPECT_NEAR(wet.at("computed").at("value").get<double>(), 110.4, 0.05);
  bool explained = false;
  for (const auto& e : wet.at("explanations")) {
    if (e.at("kind") == "residual_solvent")
      explained = e.at("sentence").get<std::string>().find("0.052 g") != std::string::npos;
  }
  EXPECT_TRUE(explained) << wet.dump(2);
}

TEST_F(CheckedDemo, FindsNoOtherConflict) {
  int conflicts = 0;
  for (const auto& [label, finding] : by_label_) conflicts += finding.at("verdict") == "conflicts" ? 1 : 0;
  EXPECT_EQ(conflicts, 1);
  EXPECT_EQ(finding("The copper wire").at("verdict"), "agrees_as_rounded");
  EXPECT_EQ(finding("Copper to oxide, if nothing were lost").at("verdict"), "agrees_as_rounded");
  EXPECT_EQ(finding("The nitric acid").at("verdict"), "agrees");
  EXPECT_EQ(finding("The sulfuric acid").at("verdict"), "agrees");
  EXPECT_EQ(finding("Copper back, dried").at("verdict"), "agrees");
  // 0.500 g / 63.546 g/mol = 7.8683 mmol; 7.8683 mmol x 79.545 g/mol = 0.62588 g; 15.8 mol/L x 4.0 mL = 63.2 mmol;
  // 3.0 mol/L x 15 mL = 45 mmol; 0.481 / 0.500 = 96.2 %.
  const std::map<std::string, double> worked{{"The copper wire", 7.8683},
                                             {"Copper to oxide, if nothing were lost", 0.62588},
                                             {"The nitric acid", 63.2},
                                             {"The sulfuric acid", 45},
                                             {"Copper back, dried", 96.2}};
  for (const auto& [label, value] : worked)
    EXPECT_NEAR(finding(label).at("computed").at("value").get<double>(), value, value * 5e-5) << label;
}

TEST_F(CheckedDemo, FindsTheHazardNobodyAnnouncesAndTheOneAnnouncedTooLate) {
  std::map<std::string, std::vector<std::string>> by_gap;
  for (const auto& c : covers_) by_gap[c.at("gap")].push_back(c.at("sentence"));
  ASSERT_EQ(by_gap["unannounced"].size(), 1U);
  EXPECT_NE(by_gap["unannounced"][0].find("hydrogen"), std::string::npos);
  ASSERT_EQ(by_gap["late"].size(), 1U);
  EXPECT_NE(by_gap["late"][0].find("brown fume"), std::string::npos);
  EXPECT_EQ(by_gap["covered"].size(), 4U);
  EXPECT_EQ(by_gap.size(), 3U);
}

TEST_F(CheckedDemo, IsToldToPeopleInTheSameWay) {
  const Ran told = sashline({"check", demo_record().string()});
  EXPECT_EQ(told.code, 1);
  EXPECT_EQ(told.err, "");
  for (const char* words :
       {"conflicts  0:01:00.855  The sodium hydroxide\n", "was given as 16 mmol, but works out to (60.0 ± ",
        "n(NaOH) = c(NaOH) V(solution) = 3.0 mol/L × 20 mL = 60 mmol\n",
        "But: More than 100 % cannot be pure, dry product.\n", "agrees as rounded, but cannot be  ",
        "not announced  0:01:52.000\n", "announced too late  0:00:38.000\n",
        "\n1 conflict, 1 that cannot be, 2 of 6 hazards without full cover. Screening only: local codes, the safety "
        "officer and "
        "licensed "
        "practice decide.\n"})
    EXPECT_NE(told.out.find(words), std::string::npos) << words << "\nis not in\n" << told.out;
}

}  // namespace
}  // namespace sash::flow
