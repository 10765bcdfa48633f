#include "desk/shown/editor.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace sash::desk {
namespace {

model::Figure acid() {
  model::Figure f;
  f.id = {1};
  f.place = {{1}, Moment::seconds(83.5), std::nullopt};
  f.kind = quantity::Kind::volume;
  f.reading = model::Reading{20, std::nullopt, "20", "mL", model::Hedge::exact};
  f.subject = "nitric acid";
  return f;
}

model::Figure figure_with(PinField field, std::string_view text, const model::Figure& from = acid()) {
  const auto changed = with_field(from, field, text);
  EXPECT_TRUE(changed.ok()) << (changed.ok() ? "" : changed.fault().sentence);
  return changed.ok() ? std::get<model::Figure>(*changed) : from;
}

TEST(PinFields, KeepTheDigitsAsTyped) {
  const auto f = figure_with(PinField::value, " 4.00 ");
  EXPECT_EQ(f.reading->value, 4);
  EXPECT_EQ(f.reading->digits, "4.00");
  EXPECT_EQ(field_text(f, PinField::value), "4.00");
}

TEST(PinFields, ReadThousandsMarksAndDecimalCommas) {
  EXPECT_EQ(figure_with(PinField::value, "1,250").reading->value, 1250);
  EXPECT_EQ(figure_with(PinField::value, "12,5").reading->value, 12.5);
  EXPECT_EQ(figure_with(PinField::value, "−5").reading->value, -5);
}

TEST(PinFields, RefuseWhatIsNoNumber) {
  EXPECT_EQ(with_field(acid(), PinField::value, "plenty").fault().code, Code::malformed);
  EXPECT_EQ(with_field(acid(), PinField::half_width, "0").fault().code, Code::out_of_range);
  EXPECT_EQ(with_field(acid(), PinField::unit, "splodges").fault().code, Code::unknown_name);
  EXPECT_EQ(with_field(acid(), PinField::title, "x").fault().code, Code::wrong_use);
}

TEST(PinFields, AnEmptyValueMakesTheFigureOneToBeWorkedOut) { EXPECT_FALSE(figure_with(PinField::value, "").reading); }

TEST(PinFields, AnUpperEndMakesARangeAndTakingItAwayUndoesIt) {
  const auto range = figure_with(PinField::upper, "25");
  EXPECT_EQ(range.reading->hedge, model::Hedge::range);
  EXPECT_EQ(*range.reading->upper, 25);
  EXPECT_EQ(figure_with(PinField::upper, "", range).reading->hedge, model::Hedge::exact);
  EXPECT_EQ(with_field(acid(), PinField::upper, "5").fault().code, Code::out_of_range);
}

TEST(PinFields, AUnitTheKindCannotHaveChangesTheKind) {
  EXPECT_EQ(figure_with(PinField::unit, "g").kind, quantity::Kind::mass);
  EXPECT_EQ(figure_with(PinField::unit, "L").kind, quantity::Kind::volume);
  EXPECT_EQ(figure_with(PinField::unit, "L").reading->unit, "L");
}

TEST(PinFields, MovingTheStartTakesTheSpanAlong) {
  model::Hazard h;
  h.place = {{1}, Moment::seconds(10), Moment::seconds(25)};
  const auto moved = with_field(h, PinField::from, "1:00");
  ASSERT_TRUE(moved.ok());
  EXPECT_EQ(std::get<model::Hazard>(*moved).place.from, Moment::seconds(60));
  EXPECT_EQ(*std::get<model::Hazard>(*moved).place.until, Moment::seconds(75));
  EXPECT_EQ(with_field(h, PinField::until, "0:09").fault().code, Code::out_of_range);
}

TEST(Clock, ReadsWhatIsWritten) {
  EXPECT_EQ(*read_clock("83.5"), Moment::seconds(83.5));
  EXPECT_EQ(*read_clock("1:23.5"), Moment::seconds(83.5));
  EXPECT_EQ(*read_clock(" 1:02:03 "), Moment::seconds(3723));
  EXPECT_FALSE(read_clock("1:2:3:4").ok());
  EXPECT_FALSE(read_clock("later").ok());
  EXPECT_FALSE(read_clock("-1:00").ok());
}

TEST(Callouts, BeginAheadOfTheirHazardAndLastIntoIt) {
  model::Hazard h;
  h.id = {7};
  h.place = {{1}, Moment::seconds(60), Moment::seconds(90)};
  h.cause = "brown gas";
  const auto c = callout_for(h);
  EXPECT_EQ(c.place.from, Moment::seconds(57));
  EXPECT_GT(*c.place.until, h.place.from);
  EXPECT_EQ(c.text, "Brown gas");
  EXPECT_EQ(c.hazards, std::vector{h.id});
  h.place.from = Moment::seconds(1);
  EXPECT_EQ(callout_for(h).place.from, Moment());  // never before the footage
}

TEST(Editor, ShowsWhyAProposalWasMadeAndOffersItsPortions) {
  model::Record r;
  auto f = acid();
  f.origin = {model::Standing::proposed, "volume of a substance", 0.85};
  f.portion = model::PortionId{2};
  r.figures = {f};
  r.portions = {{{1}, "water", "", ""}, {{2}, "acid", "nitric acid", "cylinder"}};
  const auto shown = show_editor(r, {}, Selection{f.id, std::nullopt}, false);
  EXPECT_TRUE(shown.proposed);
  EXPECT_EQ(shown.origin, "proposed: volume of a substance, 85 % sure");
  EXPECT_EQ(shown.portion_names, (std::vector<std::string>{"no portion", "water", "acid (cylinder)"}));
  EXPECT_EQ(shown.portion, 2U);
}

TEST(Editor, IsEmptyForWhatIsEditedElsewhere) {
  model::Record r;
  r.relations = {{.id = {1}}};
  EXPECT_FALSE(show_editor(r, {}, Selection{model::RelationId{1}, std::nullopt}, false).thing);
  EXPECT_FALSE(show_editor(r, {}, Selection{model::FigureId{9}, std::nullopt}, false).thing);
  EXPECT_FALSE(show_editor(r, {}, Selection{}, false).thing);
}

TEST(Editor, OffersWhatClosesAGapInTheCover) {
  model::Record record;
  record.footages.push_back({.id = {1}, .duration = Moment::seconds(120)});
  model::Hazard hazard;
  hazard.id = {1};
  hazard.place = {model::FootageId{1}, Moment::seconds(60), Moment::seconds(80)};
  hazard.cause = "brown fume";
  record.hazards.push_back(hazard);
  model::Callout callout;
  callout.id = {1};
  callout.place = {model::FootageId{1}, Moment::seconds(62), Moment::seconds(63)};
  callout.text = "Nitrogen dioxide is toxic: keep the sash down to the mark and stay out of the hood.";
  callout.hazards = {hazard.id};
  record.callouts.push_back(callout);

  const auto gaps = [&] {
    const auto cover = safety::check_cover(record);
    return std::count_if(cover.findings.begin(), cover.findings.end(), [](const safety::CoverFinding& f) {
      return f.gap != safety::Gap::none && f.gap != safety::Gap::ends_early;
    });
  };
  ASSERT_EQ(gaps(), 2) << "late, and too brief";
  for (int step = 0; step < 2; ++step) {
    const auto shown = show_editor(record, safety::check_cover(record), {model::CalloutId{1}, std::nullopt}, false);
    ASSERT_FALSE(shown.mends.empty());
    record.callouts.front() = shown.mends.front().callout;
  }
  EXPECT_EQ(gaps(), 0);
}

}  // namespace
}  // namespace sash::desk
