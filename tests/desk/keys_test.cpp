#include "desk/shown/keys.h"

#include <gtest/gtest.h>

#include <set>

namespace sash::desk {
namespace {

TEST(Keys, EveryActionIsInTheTableOnce) {
  std::set<Action> seen;
  for (const KeyBinding& b : key_table()) EXPECT_TRUE(seen.insert(b.action).second) << b.words;
  for (int a = 0; a <= static_cast<int>(Action::leave); ++a) EXPECT_TRUE(seen.count(static_cast<Action>(a))) << a;
}

TEST(Keys, NoTwoActionsShareAChord) {
  std::set<std::string> seen;
  for (const KeyBinding& b : key_table()) {
    EXPECT_TRUE(seen.insert(chord_name(b.chord)).second) << chord_name(b.chord);
    if (b.other) {
      EXPECT_TRUE(seen.insert(chord_name(*b.other)).second) << chord_name(*b.other);
    }
  }
}

TEST(Keys, PlayingIsAsTheTradeHasIt) {
  EXPECT_EQ(action_of({Key::j, no_mods}, false), Action::shuttle_back);
  EXPECT_EQ(action_of({Key::k, no_mods}, false), Action::shuttle_stop);
  EXPECT_EQ(action_of({Key::l, no_mods}, false), Action::shuttle_on);
  EXPECT_EQ(action_of({Key::space, no_mods}, false), Action::toggle_play);
}

TEST(Keys, LettersAreTextWhileSomebodyTypes) {
  EXPECT_FALSE(action_of({Key::f, no_mods}, true));
  EXPECT_FALSE(action_of({Key::z, ctrl}, true));  // the field's own undo
  EXPECT_FALSE(action_of({Key::slash, shift}, true));
  EXPECT_FALSE(action_of({Key::slash, no_mods}, true));
  EXPECT_EQ(action_of({Key::f1}, true), Action::show_keys);
  EXPECT_EQ(action_of({Key::f, ctrl}, true), Action::search);
}

TEST(Keys, AHeldKeyRepeatsOnlyWhereThatMakesSense) {
  EXPECT_EQ(action_of({Key::right, no_mods, true, true}, false), Action::step_on);
  EXPECT_FALSE(action_of({Key::f, no_mods, true, true}, false));
  EXPECT_FALSE(action_of({Key::right, no_mods, false}, false));  // letting go does nothing
}

TEST(Keys, ActionsAreFoundByEveryWordOfThem) {
  EXPECT_EQ(find_actions("").size(), key_table().size());
  EXPECT_EQ(find_actions("EXPORT scr"), std::vector{Action::export_script});
  EXPECT_TRUE(find_actions("export hazard").empty());
}

TEST(Keys, TheOverlayListsEveryBinding) {
  std::size_t rows = 0;
  std::size_t of_fields = 0;
  for (const KeySection& s : key_sections()) {
    EXPECT_FALSE(s.title.empty());
    (s.title == "In a text field" ? of_fields : rows) += s.rows.size();
  }
  EXPECT_EQ(rows, key_table().size());
  EXPECT_GE(of_fields, 3U) << "and the keys that fields take for themselves";
}

}  // namespace
}  // namespace sash::desk
