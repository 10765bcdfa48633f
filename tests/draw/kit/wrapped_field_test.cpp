#include <gtest/gtest.h>

#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "draw/kit/harness.h"

namespace sash::desk {
namespace {

using testing::Harness;

constexpr std::string_view sentence =
    "Nitrogen dioxide is toxic. Keep the sash down to the mark and do not lean into the hood while it is brown.";

struct Page {
  std::string text;
  WrappedLook look{.field = {.width = 240}};
  int committed = 0;
  int escaped = 0;
  int left = 0;
  bool active = false;
  std::size_t cursor = 0;
  std::vector<Key> shortcuts;

  void operator()(Kit& kit) {
    const Root root(kit);
    const FieldEdit e = wrapped_field(kit, "field", text, look);
    committed += e.committed ? 1 : 0;
    escaped += e.escaped ? 1 : 0;
    left += e.left ? 1 : 0;
    active = e.active;
    cursor = e.cursor;
    for (const KeyEvent& k : kit.keys().left()) {
      if (k.pressed) shortcuts.push_back(k.key);
    }
  }
};

class WrappedField : public ::testing::Test {
 protected:
  Harness h;
  Page page;
  void show(std::string_view text = {}) {
    page.text = text;
    h.show(std::ref(page));
  }
  void arrive() {
    h.kit().focus().move_to("field");
    h.settle();
  }
  float height() { return h.item("field").whole.height(); }
};

TEST_F(WrappedField, IsAsHighAsItsSentenceNeeds) {
  show();
  const float one = height();
  arrive();
  h.type(sentence);
  EXPECT_GT(height(), one * 2);
  EXPECT_EQ(page.text, sentence) << "wrapping adds nothing to the text";
}

TEST_F(WrappedField, EnterKeepsAndShiftEnterBeginsALine) {
  show();
  arrive();
  h.type("Goggles.");
  h.key(Key::enter, shift);
  h.type("Gloves.");
  EXPECT_EQ(page.committed, 0);
  h.key(Key::enter);
  EXPECT_EQ(page.committed, 1);
  EXPECT_EQ(page.text, "Goggles.\nGloves.");
  EXPECT_FALSE(page.active);
}

TEST_F(WrappedField, WhereEnterBeginsALineCtrlEnterKeeps) {
  page.look.enter_commits = false;
  show();
  arrive();
  h.type("one");
  h.key(Key::enter);
  h.type("two");
  EXPECT_EQ(page.committed, 0);
  EXPECT_EQ(page.text, "one\ntwo");
  h.key(Key::enter, ctrl);
  EXPECT_EQ(page.committed, 1);
}

TEST_F(WrappedField, EscapeGivesTheOldTextBack) {
  show("before");
  arrive();
  h.type(" and after");
  EXPECT_EQ(page.text, "before and after");
  h.key(Key::escape);
  EXPECT_EQ(page.text, "before");
  EXPECT_EQ(page.escaped, 1);
  EXPECT_EQ(page.left, 0);
}

TEST_F(WrappedField, SaysWhenTheKeyboardWentElsewhere) {
  show();
  h.click("field");
  h.type("x");
  h.click_at({1000, 600});
  EXPECT_EQ(page.left, 1);
  EXPECT_EQ(page.text, "x");
}

TEST_F(WrappedField, TabGoesFromOneToTheNextAndBothSaySo) {
  std::string first;
  std::string second;
  int left = 0;
  h.show([&](Kit& kit) {
    const Root root(kit);
    left += wrapped_field(kit, "first", first).left ? 1 : 0;
    left += wrapped_field(kit, "second", second).left ? 1 : 0;
  });
  h.click("second");
  h.type("2");
  h.key(Key::tab, shift);
  EXPECT_EQ(left, 1);
  h.type("1");
  h.key(Key::tab);
  EXPECT_EQ(left, 2);
  EXPECT_EQ(first + second, "12");
}

TEST_F(WrappedField, AfterEnterTabGoesOnToTheNextField) {
  std::string first;
  std::string second;
  std::string third;
  h.show([&](Kit& kit) {
    const Root root(kit);
    field(kit, "first", first);
    wrapped_field(kit, "second", second);
    field(kit, "third", third);
  });
  h.click("second");
  h.type("2");
  h.key(Key::enter);
  h.type("x");  // a shortcut again
  h.key(Key::tab);
  h.type("3");
  EXPECT_EQ(second, "2");
  EXPECT_EQ(third, "3");
}

TEST_F(WrappedField, UpAndDownMoveByRowAndKeepTheirColumn) {
  show(sentence);
  arrive();
  h.key(Key::home, ctrl);
  for (int i = 0; i < 5; ++i) h.key(Key::right);
  const std::size_t start = page.cursor;
  EXPECT_EQ(start, 5U);
  h.key(Key::down);
  EXPECT_GT(page.cursor, start + 15);
  h.key(Key::down);
  h.key(Key::up);
  h.key(Key::up);
  EXPECT_EQ(page.cursor, start);
  h.key(Key::up);
  EXPECT_EQ(page.cursor, 0U);
}

TEST_F(WrappedField, HomeAndEndGoToTheEndsOfARow) {
  show(sentence);
  arrive();
  h.key(Key::home);
  const std::size_t row = page.cursor;
  EXPECT_GT(row, 60U);
  EXPECT_EQ(sentence[row - 1], ' ') << "a row begins with a word";
  h.key(Key::up);
  h.key(Key::end);
  EXPECT_EQ(page.cursor, row - 1);
}

TEST_F(WrappedField, ARowThatWasJustBegunHasTheCursor) {
  show("one");
  arrive();
  h.key(Key::enter, shift);
  h.key(Key::up);
  EXPECT_LE(page.cursor, 3U);
  h.key(Key::down);
  h.type("two");
  EXPECT_EQ(page.text, "one\ntwo");
}

TEST_F(WrappedField, WordsAreSelectedCutAndPasted) {
  show("sash up");
  arrive();
  h.key(Key::left, ctrl_shift);
  h.key(Key::x, ctrl);
  EXPECT_EQ(page.text, "sash ");
  EXPECT_EQ(h.clipboard(), "up");
  h.clipboard() = "down\r\nto the mark";
  h.key(Key::v, ctrl);
  EXPECT_EQ(page.text, "sash down\nto the mark");
  h.key(Key::z, ctrl);
  EXPECT_EQ(page.text, "sash ");
}

TEST_F(WrappedField, TheMouseSetsTheCursorAndSelects) {
  show("one two three");
  h.double_click("field");  // its middle lies behind the words
  h.key(Key::home);
  EXPECT_EQ(page.cursor, 0U);
  const auto box = h.item("field").seen;
  h.drag(ImVec2{box.min.x + 10, box.min.y + 14}, ImVec2{box.max.x - 4, box.min.y + 14});
  h.key(Key::c, ctrl);
  EXPECT_EQ(h.clipboard(), "one two three");
}

TEST_F(WrappedField, KeepsLettersFromBecomingShortcutsAndLetsTheOthersPass) {
  show();
  arrive();
  h.key(Key::j);
  h.key(Key::up);
  h.key(Key::f1);
  h.key(Key::down, ctrl);
  h.key(Key::s, ctrl);
  EXPECT_EQ(page.shortcuts, (std::vector<Key>{Key::f1, Key::down, Key::s}));
}

TEST_F(WrappedField, TheLetterOfTheShortcutThatOpenedItDoesNotFallIn) {
  std::string text;
  bool open = false;
  h.show([&](Kit& kit) {
    const Root root(kit);
    if (open) wrapped_field(kit, "note", text);
    if (kit.keys().take({Key::n, no_mods})) {
      open = true;
      kit.focus().move_to("note");
    }
  });
  h.put(KeyEvent{Key::n, {}, true, false});
  h.put(TypedText{"n"});
  h.put(KeyEvent{Key::n, {}, false, false});
  h.settle();
  h.type("Wash twice.");
  EXPECT_EQ(text, "Wash twice.");
}

TEST_F(WrappedField, ShowsWhatThePagePutsIntoIt) {
  show("old");
  arrive();
  page.text = "new";
  h.settle();
  h.type("!");
  EXPECT_EQ(page.text, "new!");
}

}  // namespace
}  // namespace sash::desk
