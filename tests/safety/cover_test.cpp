#include "safety/cover.h"

#include <gtest/gtest.h>

namespace sash::safety {
namespace {

using model::Callout;
using model::Hazard;
using model::Record;

Record with_hazard(double from, double until) {
  Record r;
  r.footages.push_back({{1}, "a.mp4", "", "", Moment::seconds(100), 0});
  Hazard h;
  h.id = {1};
  h.place = {{1}, Moment::seconds(from), Moment::seconds(until)};
  h.cause = "brown fume";
  r.hazards.push_back(h);
  return r;
}

Callout callout(std::int64_t id, double from, double until, std::string text = "Brown fume: hood on.") {
  Callout c;
  c.id = {id};
  c.place = {{1}, Moment::seconds(from), Moment::seconds(until)};
  c.text = std::move(text);
  c.hazards = {{1}};
  return c;
}

TEST(Cover, AHazardWithoutCalloutIsUnannounced) {
  Record r = with_hazard(10, 20);
  r.callouts.push_back(callout(1, 5, 10));
  r.callouts[0].hazards.clear();
  const Cover cover = check_cover(r);
  ASSERT_EQ(cover.findings.size(), 1U);
  EXPECT_EQ(cover.findings[0].gap, Gap::unannounced);
  EXPECT_EQ(cover.findings[0].sentence,
            "Nobody announces 'brown fume'; show or speak a callout at least 2.0 s before it begins.");
  EXPECT_EQ(cover.covered, 0);
}

TEST(Cover, AHazardThatNobodyHasNamedYetIsSpokenOfAllTheSame) {
  Record r = with_hazard(10, 20);
  r.hazards[0].cause.clear();
  EXPECT_EQ(check_cover(r).findings.at(0).sentence,
            "Nobody announces this hazard; show or speak a callout at least 2.0 s before it begins.");
}

TEST(Cover, ACalloutAfterTheStartIsLateAndSaysByHowMuch) {
  Record r = with_hazard(10, 20);
  r.callouts.push_back(callout(1, 13, 20));
  const Cover cover = check_cover(r);
  ASSERT_EQ(cover.findings.size(), 1U);
  EXPECT_EQ(cover.findings[0].gap, Gap::late);
  EXPECT_EQ(cover.findings[0].sentence,
            "The first callout for 'brown fume' comes 3.0 s after the hazard begins; move it 5.0 s earlier.");
}

TEST(Cover, TimelyAndReadableIsCovered) {
  Record r = with_hazard(10, 20);
  r.callouts.push_back(callout(1, 8, 14));
  const Cover cover = check_cover(r);
  ASSERT_EQ(cover.findings.size(), 1U);
  EXPECT_EQ(cover.findings[0].gap, Gap::none);
  EXPECT_EQ(cover.covered, 1);
}

TEST(Cover, TooBriefForItsTextIsSaidWithTheTimeItNeeds) {
  Record r = with_hazard(10, 12);
  r.callouts.push_back(callout(1, 7, 8, "This message takes a good deal longer than one second to be read through."));
  const Cover cover = check_cover(r);
  ASSERT_EQ(cover.findings.size(), 1U);
  EXPECT_EQ(cover.findings[0].gap, Gap::unreadable);
  EXPECT_NE(cover.findings[0].sentence.find("takes 4.8 s to read"), std::string::npos) << cover.findings[0].sentence;
}

TEST(Cover, SpokenCalloutsNeedNoReadingTime) {
  Record r = with_hazard(10, 12);
  r.callouts.push_back(callout(1, 7, 7.5, "Mind the fume, it is poisonous and it comes at once."));
  r.callouts[0].delivery = model::Delivery::spoken;
  EXPECT_EQ(check_cover(r).findings[0].gap, Gap::none);
}

TEST(Cover, ALongHazardMustNotOutlastItsCalloutsByFar) {
  Record r = with_hazard(10, 60);
  r.callouts.push_back(callout(1, 7, 12));
  EXPECT_EQ(check_cover(r).findings[0].gap, Gap::ends_early);
  r.callouts.push_back(callout(2, 48, 52));
  EXPECT_EQ(check_cover(r).findings[0].gap, Gap::none);
}

TEST(Cover, RefusedHazardsAndCalloutsDoNotCount) {
  Record r = with_hazard(10, 20);
  r.callouts.push_back(callout(1, 7, 14));
  r.callouts[0].origin.standing = model::Standing::refused;
  EXPECT_EQ(check_cover(r).findings[0].gap, Gap::unannounced);
  r.hazards[0].origin.standing = model::Standing::refused;
  EXPECT_TRUE(check_cover(r).findings.empty());
}

TEST(Cover, WorstComesFirst) {
  Record r = with_hazard(50, 55);
  r.callouts.push_back(callout(1, 52, 56));
  Hazard second = r.hazards[0];
  second.id = {2};
  second.place.from = Moment::seconds(60);
  second.place.until = Moment::seconds(61);
  r.hazards.push_back(second);
  const Cover cover = check_cover(r);
  ASSERT_EQ(cover.findings.size(), 2U);
  EXPECT_EQ(cover.findings[0].gap, Gap::unannounced);
  EXPECT_EQ(cover.findings[1].gap, Gap::late);
}

}  // namespace
}  // namespace sash::safety
