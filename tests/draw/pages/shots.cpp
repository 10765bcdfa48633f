// Pictures of the whole desk at the sizes, scales and themes it must look good at, for people to look at. What a
// machine can judge of them is that something was drawn, that the themes differ, and that nothing a person needs lies
// out of sight.
#include <gtest/gtest.h>

#include <set>

#include "draw/pages/fake_desk.h"
#include "draw/pages/lesson.h"

namespace sash::testing {
namespace {

using desk::Key;
using desk::ThemeName;

std::size_t colours_in(const Pixels& p) {
  std::set<std::uint32_t> seen;
  for (std::size_t i = 0; i + 3 < p.rgba.size(); i += 4 * 7) {
    seen.insert(static_cast<std::uint32_t>(p.rgba[i] << 16 | p.rgba[i + 1] << 8 | p.rgba[i + 2]));
  }
  return seen.size();
}

void shoot(FakeDesk& desk, const std::string& name) {
  desk.hand().wait(0.5);
  EXPECT_GT(colours_in(desk.hand().pixels()), 100U) << name;
  desk.hand().shoot("desk-" + name + ".png");
}

void go_to(FakeDesk& desk, double seconds) {
  desk.transport().at = Moment::seconds(seconds);
  desk.transport().time_code = "01:00:22;14";
  desk.hand().settle();
}

TEST(Shots, TheDeskAtEverySizeAndTheme) {
  struct Case {
    std::string name;
    FakeLook look;
  };
  const std::vector<Case> cases{{"1280-dim", {1280, 720, 1, ThemeName::dim, true}},
                                {"1280-paper", {1280, 720, 1, ThemeName::paper, true}},
                                {"1920-dim", {1920, 1080, 1, ThemeName::dim, true}},
                                {"1920-paper", {1920, 1080, 1, ThemeName::paper, true}},
                                {"1920-large", {1920, 1080, 1.5F, ThemeName::dim, true}},
                                {"1280-large", {1280, 720, 1.5F, ThemeName::paper, true}}};
  for (const Case& c : cases) {
    FakeDesk desk(lesson(), c.look);
    go_to(desk, 16);
    desk.hand().click("findings.list.0");
    go_to(desk, 16);
    shoot(desk, c.name);
  }
}

TEST(Shots, WorkAtTheDesk) {
  const FakeLook look{1280, 720, 1, ThemeName::dim, true};
  {
    FakeDesk desk(lesson(), look);
    desk.hand().click("sheet.figure.3");
    desk.hand().wait(1);
    desk.hand().key(Key::w);
    desk.hand().click("sheet.figure.4");
    shoot(desk, "wiring");
  }
  for (const ThemeName theme : {ThemeName::dim, ThemeName::paper}) {
    FakeDesk desk(lesson_with_diagrams(), {1280, 900, 1, theme, true});
    desk.hand().wait(1);
    desk.hand().click("sheet.figure.102");
    desk.hand().wait(1);
    desk.hand().click("workings.0.plot");
    desk.hand().settle();
    desk.hand().move_to("workings.0.plot.view");
    shoot(desk, theme == ThemeName::dim ? "plot-dim" : "plot-paper");
  }
  {
    FakeDesk desk(lesson(), look);
    desk.hand().key(Key::f1);
    shoot(desk, "keys");
    desk.hand().key(Key::escape);
    desk.hand().key(Key::comma, desk::ctrl);
    shoot(desk, "settings");
    desk.hand().key(Key::escape);
    desk.hand().key(Key::g, desk::ctrl);
    desk.hand().type("Cu + HNO3 -> Cu(NO3)2 + NO + H2O");
    shoot(desk, "scratch");
  }
  {
    FakeDesk desk(lesson(), look);
    desk.hand().key(Key::p);
    desk.jobs = {{"Indexing balance.mp4", 0.42}, {"Stills", 0.1}};
    shoot(desk, "proposal");
    desk.hand().click("sheet.hazard.3");
    shoot(desk, "hazard");
    desk.hand().click("sheet.callout.3");
    shoot(desk, "callout");
  }
  {
    FakeDesk desk(model::Record{}, look);
    desk.has_record = false;
    desk.recent = {"/lessons/mara/copper.sash", "/lessons/mara/esters.sash"};
    shoot(desk, "welcome");
    desk.hand().click("welcome.path");
    desk.hand().type("b");
    shoot(desk, "welcome-path");
  }
  {
    FakeDesk desk(lesson(), look);
    desk.read_only = "another desk has this record open";
    desk.footage[{1}].missing = true;
    shoot(desk, "missing");
  }
}

}  // namespace
}  // namespace sash::testing
