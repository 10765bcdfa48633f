#include <gtest/gtest.h>

#include <array>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/list.h"
#include "desk/draw/kit/notices.h"
#include "desk/draw/kit/panes.h"
#include "draw/kit/harness.h"

namespace sash::desk {
namespace {

using testing::Harness;

TEST(Button, IsPressedByAClickAndNotWhenDisabled) {
  Harness h;
  int pressed = 0;
  bool enabled = true;
  h.show([&](Kit& kit) {
    const Root root(kit);
    if (button(kit, "go", "Go", {.enabled = enabled})) ++pressed;
  });
  h.click("go");
  EXPECT_EQ(pressed, 1);
  enabled = false;
  h.click("go");
  EXPECT_EQ(pressed, 1);
}

TEST(Button, AMouseClickLeavesNoRing) {
  Harness h;
  Focus::State seen;
  h.show([&](Kit& kit) {
    const Root root(kit);
    button(kit, "go", "Go");
    seen = kit.focus().enrol("go");
  });
  h.click("go");
  EXPECT_TRUE(seen.has);
  EXPECT_FALSE(seen.ring);
  h.key(Key::tab);
  EXPECT_TRUE(seen.ring);
}

TEST(TickBox, Toggles) {
  Harness h;
  bool on = false;
  h.show([&](Kit& kit) {
    const Root root(kit);
    tick_box(kit, "loop", "Loop", on);
  });
  h.click("loop");
  EXPECT_TRUE(on);
  h.key(Key::space);
  EXPECT_FALSE(on);
}

constexpr std::array<std::string_view, 3> kinds = {"mass", "volume", "amount of substance"};

TEST(Segments, AreMovedByClickAndArrows) {
  Harness h;
  std::size_t chosen = 0;
  h.show([&](Kit& kit) {
    const Root root(kit);
    segments(kit, "kind", kinds, chosen);
  });
  h.click("kind.2");
  EXPECT_EQ(chosen, 2U);
  h.key(Key::left);
  EXPECT_EQ(chosen, 1U);
  h.key(Key::left);
  h.key(Key::left);
  EXPECT_EQ(chosen, 0U);
}

struct ChoicePage {
  std::size_t chosen = 0;
  void operator()(Kit& kit) {
    const Root root(kit);
    choice(kit, "kind", kinds, chosen, 200);
    button(kit, "other", "Other");
  }
};

TEST(Choice, OpensPicksAndCloses) {
  Harness h;
  ChoicePage page;
  h.show(std::ref(page));
  h.click("kind");
  ASSERT_TRUE(h.has("kind.1"));
  h.click("kind.1");
  EXPECT_EQ(page.chosen, 1U);
  EXPECT_FALSE(h.has("kind.1"));
}

TEST(Choice, ClosesWhenClickedBeside) {
  Harness h;
  ChoicePage page;
  h.show(std::ref(page));
  h.click("kind");
  h.click_at({900, 500});
  EXPECT_FALSE(h.has("kind.1"));
  EXPECT_EQ(page.chosen, 0U);
}

TEST(Choice, IsWorkedByKeysAlone) {
  Harness h;
  ChoicePage page;
  h.show(std::ref(page));
  h.key(Key::tab);
  h.key(Key::down);
  EXPECT_EQ(page.chosen, 1U);
  h.key(Key::a);  // jumps to "amount of substance"
  EXPECT_EQ(page.chosen, 2U);
  h.key(Key::enter);
  EXPECT_TRUE(h.has("kind.0"));
  h.key(Key::escape);
  EXPECT_FALSE(h.has("kind.0"));
}

TEST(Slider, IsDraggedAndSteppedAndStaysInside) {
  Harness h;
  double value = 0.5;
  h.show([&](Kit& kit) {
    const Root root(kit);
    slider(kit, "volume", value, 0, 1, 0.1, 200);
  });
  h.drag("volume", {500, 0});
  EXPECT_DOUBLE_EQ(value, 1.0);
  h.key(Key::left);
  EXPECT_NEAR(value, 0.9, 1e-9);
  h.key(Key::home);
  EXPECT_DOUBLE_EQ(value, 0.0);
  h.key(Key::left);
  EXPECT_DOUBLE_EQ(value, 0.0);
}

TEST(Splitter, IsDraggedByMouseMovedByKeysAndBounded) {
  Harness h;
  float place = 400;
  h.show([&](Kit& kit) {
    const Root root(kit);
    splitter(kit, "split", Axis::upright, {{place, 0}, {place + kit.m().grip, 720}}, place, 200, 900, 400);
  });
  h.drag("split", {100, 0});
  EXPECT_EQ(place, 500);
  h.key(Key::left);
  EXPECT_EQ(place, 484);
  h.drag("split", {2000, 0});
  EXPECT_EQ(place, 900);
  h.double_click("split");
  EXPECT_EQ(place, 400);
}

struct ListPage {
  std::size_t count = 10'000;
  std::optional<std::size_t> chosen;
  int drawn = 0;
  int activated = 0;
  void operator()(Kit& kit) {
    const Root root(kit);
    drawn = 0;
    const ListChange c = list(kit, "rows", count, chosen, {}, [&](Painter& paint, const ListRow& row) {
      ++drawn;
      paint.text_in(row.at, kit.fonts().body, kit.theme().text, std::to_string(row.index));
    });
    activated += c.activated ? 1 : 0;
  }
};

TEST(List, DrawsOnlyTheRowsInSight) {
  Harness h;
  ListPage page;
  h.show(std::ref(page));
  EXPECT_GT(page.drawn, 20);
  EXPECT_LT(page.drawn, 40);  // 720 pixels of 28 each
}

TEST(List, WalksByKeysAndFollows) {
  Harness h;
  ListPage page;
  h.show(std::ref(page));
  h.click("rows.3");
  EXPECT_EQ(page.chosen, 3U);
  h.key(Key::down);
  EXPECT_EQ(page.chosen, 4U);
  h.key(Key::end);
  EXPECT_EQ(page.chosen, 9'999U);
  h.settle();
  EXPECT_TRUE(h.has("rows.9999"));
  EXPECT_FALSE(h.has("rows.3"));
  h.key(Key::enter);
  EXPECT_EQ(page.activated, 1);
}

TEST(List, ScrollsByTheWheel) {
  Harness h;
  ListPage page;
  h.show(std::ref(page));
  h.wheel("rows.5", -10);
  EXPECT_FALSE(h.has("rows.0"));
  EXPECT_EQ(page.chosen, std::nullopt);
}

TEST(Notices, AreActedOnPutAwayAndPass) {
  Harness h;
  Notices notices;
  std::optional<int> acted;
  h.show([&](Kit& kit) {
    const Root root(kit);
    if (const auto a = notices.draw(kit, root.rect())) acted = a;
  });
  notices.say({.text = "Figure removed.", .action = "Undo", .action_code = 7, .stays = 5.0}, h.now());
  h.settle();
  h.click("notice.0.act");
  EXPECT_EQ(acted, 7);
  EXPECT_TRUE(notices.empty());
  notices.say({.text = "The file is cut short.", .tone = Safety::warning}, h.now());
  h.settle();
  h.wait(20);
  EXPECT_FALSE(notices.empty());  // stays until put away
  h.click("notice.0");
  EXPECT_TRUE(notices.empty());
  notices.say({.text = "Saved.", .stays = 2.0}, h.now());
  h.wait(2.5);
  EXPECT_TRUE(notices.empty());
}

TEST(Kit, SleepsWhenNothingMoves) {
  Harness h;
  h.show([](Kit& kit) {
    const Root root(kit);
    button(kit, "go", "Go", {.tip = "Goes"});
  });
  EXPECT_EQ(h.kit().wake(), std::nullopt);
  h.move_to("go");
  EXPECT_TRUE(h.kit().wake().has_value());  // its tip is due
  h.wait(1);
  EXPECT_EQ(h.kit().wake(), std::nullopt);  // and then stands
}

}  // namespace
}  // namespace sash::desk
