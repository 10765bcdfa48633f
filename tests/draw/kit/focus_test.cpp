#include "desk/draw/kit/focus.h"

#include <gtest/gtest.h>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "draw/kit/harness.h"

namespace sash::desk {
namespace {

using testing::Harness;

void three_buttons(Kit& kit) {
  const Root root(kit);
  button(kit, "one", "One");
  button(kit, "two", "Two");
  button(kit, "three", "Three", {.enabled = false});
  button(kit, "four", "Four");
}

TEST(Focus, TabWalksInDrawingOrderAndSkipsWhatIsDisabled) {
  Harness h;
  h.show(three_buttons);
  h.key(Key::tab);
  EXPECT_TRUE(h.item("one").focused);
  h.key(Key::tab);
  EXPECT_TRUE(h.item("two").focused);
  h.key(Key::tab);
  EXPECT_TRUE(h.item("four").focused);
  h.key(Key::tab);
  EXPECT_TRUE(h.item("one").focused);
  h.key(Key::tab, shift);
  EXPECT_TRUE(h.item("four").focused);
}

TEST(Focus, EscapeLetsGo) {
  Harness h;
  h.show(three_buttons);
  h.key(Key::tab);
  h.key(Key::escape);
  EXPECT_FALSE(h.kit().focus().anywhere());
}

TEST(Focus, WhatIsGoneLosesTheKeyboard) {
  Harness h;
  bool there = true;
  h.show([&](Kit& kit) {
    const Root root(kit);
    if (there) button(kit, "one", "One");
  });
  h.key(Key::tab);
  there = false;
  h.wait(0.5);
  EXPECT_FALSE(h.kit().focus().anywhere());
}

TEST(Focus, ALoopKeepsTabInside) {
  Harness h;
  h.show([](Kit& kit) {
    const Root root(kit);
    button(kit, "outside", "Outside");
    kit.focus().open_loop();
    button(kit, "in.a", "A");
    button(kit, "in.b", "B");
    kit.focus().close_loop();
  });
  h.key(Key::tab);
  EXPECT_TRUE(h.item("in.a").focused);
  h.key(Key::tab);
  h.key(Key::tab);
  EXPECT_TRUE(h.item("in.a").focused);
}

TEST(Focus, EnterAndSpacePressAndThenAreGone) {
  Harness h;
  int pressed = 0;
  std::size_t left = 0;
  h.show([&](Kit& kit) {
    const Root root(kit);
    if (button(kit, "go", "Go")) ++pressed;
    for (const KeyEvent& e : kit.keys().left()) left += e.pressed && e.key != Key::tab ? 1U : 0U;
  });
  h.key(Key::tab);
  h.key(Key::enter);
  h.key(Key::space);
  EXPECT_EQ(pressed, 2);
  EXPECT_EQ(left, 0U);
}

TEST(Focus, TabMovesFromFieldToFieldAndTheTextGoesAlong) {
  Harness h;
  std::string first;
  std::string second;
  h.show([&](Kit& kit) {
    const Root root(kit);
    field(kit, "first", first);
    field(kit, "second", second);
  });
  h.key(Key::tab);
  h.type("20 mL");
  h.key(Key::tab);
  h.type("6 M");
  EXPECT_EQ(first, "20 mL");
  EXPECT_EQ(second, "6 M");
}

}  // namespace
}  // namespace sash::desk
