#include "desk/draw/kit/field.h"

#include <gtest/gtest.h>

#include "desk/draw/kit/panes.h"
#include "draw/kit/harness.h"

namespace sash::desk {
namespace {

using testing::Harness;

struct Page {
  std::string text;
  FieldLook look;
  int committed = 0;
  int escaped = 0;
  int left = 0;
  std::vector<Key> shortcuts;

  void operator()(Kit& kit) {
    const Root root(kit);
    const FieldEdit e = field(kit, "field", text, look);
    committed += e.committed ? 1 : 0;
    escaped += e.escaped ? 1 : 0;
    left += e.left ? 1 : 0;
    for (const KeyEvent& k : kit.keys().left()) {
      if (k.pressed) shortcuts.push_back(k.key);
    }
  }
};

TEST(Field, TakesTypedTextWithSubscripts) {
  Harness h;
  Page page;
  h.show(std::ref(page));
  h.click("field");
  h.type("H₂SO₄");
  h.key(Key::backspace);
  EXPECT_EQ(page.text, "H₂SO");
}

TEST(Field, KeepsLettersFromBecomingShortcutsAndLetsFunctionKeysPass) {
  Harness h;
  Page page;
  h.show(std::ref(page));
  h.click("field");
  h.key(Key::j);
  h.key(Key::left);
  h.key(Key::f1);
  h.key(Key::s, ctrl);
  EXPECT_EQ(page.shortcuts, (std::vector<Key>{Key::f1, Key::s}));
}

TEST(Field, EnterCommitsOnce) {
  Harness h;
  Page page;
  h.show(std::ref(page));
  h.click("field");
  h.type("4.00 g");
  h.key(Key::enter);
  EXPECT_EQ(page.committed, 1);
  EXPECT_EQ(page.text, "4.00 g");
}

TEST(Field, ThePageCanGiveItTheKeyboardAgainAfterItWasCommitted) {
  Harness h;
  Page page;
  page.look.select_all = true;
  h.show(std::ref(page));
  h.kit().focus().move_to("field");
  h.settle();
  h.type("acid");
  h.key(Key::enter);
  h.kit().focus().move_to("field");  // searching for something else
  h.settle();
  h.type("zinc");
  EXPECT_EQ(page.text, "zinc");
  EXPECT_TRUE(page.shortcuts.empty()) << "nothing of it was taken for a shortcut";
}

TEST(Field, EscapeGivesTheOldTextBack) {
  Harness h;
  Page page;
  page.text = "before";
  h.show(std::ref(page));
  h.click("field");
  h.type("x");
  EXPECT_NE(page.text, "before");
  h.key(Key::escape);
  EXPECT_EQ(page.escaped, 1);
  EXPECT_EQ(page.text, "before");
}

TEST(Field, SaysWhenTheKeyboardWentElsewhere) {
  Harness h;
  Page page;
  h.show(std::ref(page));
  h.click("field");
  h.type("x");
  h.click_at({1000, 600});
  EXPECT_EQ(page.left, 1);
  EXPECT_EQ(page.text, "x");
}

TEST(Field, ThePageCanGiveItTheKeyboard) {
  Harness h;
  Page page;
  page.text = "old";
  page.look.select_all = true;
  h.show(std::ref(page));
  h.kit().focus().move_to("field");
  h.settle();
  h.type("new");
  EXPECT_EQ(page.text, "new");
}

TEST(Field, TakesTheKeyboardInsideAPaneAndAFloatingCard) {
  Harness h;
  std::string in_pane;
  std::string in_card;
  h.show([&](Kit& kit) {
    const Root root(kit);
    {
      const Pane pane(kit, "pane", {{0, 0}, {400, 400}});
      field(kit, "a", in_pane);
    }
    const Floating card(kit, "card", {{500, 100}, {900, 300}}, 10);
    field(kit, "b", in_card);
  });
  h.kit().focus().move_to("b");
  h.settle();
  h.type("card");
  h.kit().focus().move_to("a");
  h.settle();
  h.type("pane");
  EXPECT_EQ(in_card, "card");
  EXPECT_EQ(in_pane, "pane");
}

TEST(Field, TheLetterOfTheShortcutThatOpenedItDoesNotFallIn) {
  Harness h;
  std::string text;
  bool open = false;
  h.show([&](Kit& kit) {
    const Root root(kit);
    if (open) field(kit, "pin", text);
    if (kit.keys().take({Key::f, no_mods})) {
      open = true;
      kit.focus().move_to("pin");
    }
  });
  h.put(KeyEvent{Key::f, {}, true, false});
  h.put(TypedText{"f"});
  h.put(KeyEvent{Key::f, {}, false, false});
  h.settle();
  h.type("20 mL");
  EXPECT_EQ(text, "20 mL");
}

TEST(Field, CopiesAndPastes) {
  Harness h;
  Page page;
  page.text = "0.050 mol";
  h.show(std::ref(page));
  h.click("field");
  h.key(Key::a, ctrl);
  h.key(Key::c, ctrl);
  EXPECT_EQ(h.clipboard(), "0.050 mol");
  h.clipboard() = "ΔT = 3 K";
  h.key(Key::v, ctrl);
  EXPECT_EQ(page.text, "ΔT = 3 K");
}

}  // namespace
}  // namespace sash::desk
