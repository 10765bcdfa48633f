#include "script/script.h"

#include <gtest/gtest.h>

#include "script/sample.h"
#include "workings/records.h"

namespace sash::script {
namespace {

Materials materials(const model::Record& record, const workings::Report& report, const safety::Cover& cover) {
  return {record, report, cover, {{{2}, Moment::seconds(5), "not really a picture"}}};
}

TEST(Script, IsTheSameBytesForTheSameRecord) {
  const auto record = sample();
  const auto report = workings::check(record);
  const auto cover = safety::check_cover(record);
  const auto once = write_files(materials(record, report, cover));
  const auto again = write_files(materials(record, report, cover));
  ASSERT_EQ(once.size(), 7U);
  for (std::size_t i = 0; i < once.size(); ++i) EXPECT_EQ(once[i].bytes, again[i].bytes) << once[i].name;
}

TEST(Script, CarriesWhatTheRecordSaysAndNoMarkupOfIts) {
  const auto record = sample();
  const auto report = workings::check(record);
  const auto cover = safety::check_cover(record);
  const auto html = script_html(materials(record, report, cover));
  EXPECT_NE(html.find("Zinc &amp; acid &lt;trial&gt;"), std::string::npos);
  EXPECT_EQ(html.find("<stir>"), std::string::npos);
  EXPECT_NE(html.find("&lt;stir&gt;"), std::string::npos);
  EXPECT_NE(html.find("Hydrogen burns.<br>No flames."), std::string::npos);
  EXPECT_NE(html.find("data:image/jpeg;base64,bm90IHJlYWxseSBhIHBpY3R1cmU="), std::string::npos);
}

// A heat relation with its diagram: drawn in place, readable without colour and by those who do not see it.
TEST(Script, DrawsTheDiagramOfARelation) {
  workings::test::RecordBuilder b;
  b.relation(model::RelationType::heat,
             {{"mass", b.figure("100.0 g", quantity::Kind::mass)},
              {"amount", b.figure("0.100 mol", quantity::Kind::amount)},
              {"temperature_before", b.figure("20.0 Cel", quantity::Kind::temperature)},
              {"temperature_after", b.figure("33.3 Cel", quantity::Kind::temperature)}},
             {{"enthalpy", "-55.8 kJ/mol"}});
  const auto report = workings::check(b.record());
  const auto cover = safety::check_cover(b.record());
  const auto html = script_html(materials(b.record(), report, cover));
  const auto from = html.find("<figure class=\"plot\">");
  ASSERT_NE(from, std::string::npos);
  const auto drawing = html.substr(from, html.find("</figure>", from) - from);
  EXPECT_NE(drawing.find("role=\"img\" aria-label=\""), std::string::npos);
  EXPECT_NE(drawing.find("final temperature / °C"), std::string::npos);
  EXPECT_NE(drawing.find("<circle"), std::string::npos) << "the first series wears circles";
  EXPECT_NE(drawing.find("<rect"), std::string::npos) << "the second wears squares";
  EXPECT_NE(drawing.find("<figcaption>"), std::string::npos);
  EXPECT_EQ(drawing.find("nan"), std::string::npos);
}

TEST(Script, NeedsNothingFromOutside) {
  const auto record = sample();
  const auto report = workings::check(record);
  const auto cover = safety::check_cover(record);
  const auto html = script_html(materials(record, report, cover));
  for (const char* outside : {"http://", "https://", "<script", "<link", "@import", "url("}) {
    EXPECT_EQ(html.find(outside), std::string::npos) << outside;
  }
  EXPECT_NE(html.find("default-src 'none'"), std::string::npos);
}

TEST(Script, AlwaysDefersToTheSafetyOfficer) {
  const model::Record record;
  const auto report = workings::check(record);
  const auto cover = safety::check_cover(record);
  const auto html = script_html(materials(record, report, cover));
  EXPECT_NE(html.find("local codes, the safety officer and licensed practice"), std::string::npos);
}

TEST(Script, AsksForAtMostAsManyStillsAsItMayHave) {
  auto record = sample();
  for (std::int64_t i = 2; i < 400; ++i) {
    model::NarrationLine line = record.lines[0];
    line.id = {i};
    line.footage = {1};
    line.when = {Moment::seconds(static_cast<double>(i)), Moment::seconds(static_cast<double>(i) + 0.5)};
    record.lines.push_back(line);
  }
  EXPECT_EQ(stills_wanted(record, 150).size(), 150U);
  EXPECT_LE(stills_wanted(sample()).size(), 10U);
}

}  // namespace
}  // namespace sash::script
