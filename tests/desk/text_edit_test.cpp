#include "desk/shown/text_edit.h"

#include <gtest/gtest.h>

namespace sash::desk {
namespace {

TEST(TextEdit, MovesByWholeLettersAndByWords) {
  TextEdit edit("H₂SO₄ fumes, white");
  edit.move_to(0, false);
  edit.step_on(false, false);
  edit.step_on(false, false);
  EXPECT_EQ(edit.cursor(), 4U) << "a subscript two is three bytes";
  edit.step_on(true, false);
  EXPECT_EQ(edit.text().substr(edit.cursor()), "fumes, white");
  edit.step_on(true, false);
  EXPECT_EQ(edit.text().substr(edit.cursor()), ", white") << "a mark is no part of the word";
  edit.step_back(true, false);
  edit.step_back(true, false);
  EXPECT_EQ(edit.cursor(), 0U);
}

TEST(TextEdit, NeverStandsInsideALetter) {
  TextEdit edit("é");
  edit.move_to(1, false);
  EXPECT_EQ(edit.cursor(), 0U);
  edit.erase_on(false);
  EXPECT_EQ(edit.text(), "");
}

TEST(TextEdit, TypingReplacesTheSelection) {
  TextEdit edit("sash up");
  edit.select_word(6);
  EXPECT_EQ(edit.selected(), "up");
  edit.insert("down");
  EXPECT_EQ(edit.text(), "sash down");
}

TEST(TextEdit, ASelectionIsLeftTowardsTheArrow) {
  TextEdit edit("abc");
  edit.select_all();
  edit.step_back(false, false);
  EXPECT_EQ(edit.cursor(), 0U);
  edit.select_all();
  edit.step_on(false, false);
  EXPECT_EQ(edit.cursor(), 3U);
}

TEST(TextEdit, AWordThatWasTypedIsTakenBackAtOnce) {
  TextEdit edit("");
  for (const char c : std::string_view("brown fume")) edit.insert(std::string_view(&c, 1));
  edit.undo();
  EXPECT_EQ(edit.text(), "brown ");
  edit.undo();
  edit.undo();
  EXPECT_EQ(edit.text(), "");
  edit.undo();
  EXPECT_EQ(edit.text(), "");
  edit.redo();
  edit.redo();
  edit.redo();
  EXPECT_EQ(edit.text(), "brown fume");
}

TEST(TextEdit, ErasesAWordAtATime) {
  TextEdit edit("keep the sash down");
  edit.erase_back(true);
  EXPECT_EQ(edit.text(), "keep the sash ");
  edit.move_to(0, false);
  edit.erase_on(true);
  EXPECT_EQ(edit.text(), "the sash ");
}

TEST(TextEdit, TakesNoControlCharacters) {
  TextEdit edit("");
  edit.insert(std::string_view("a\r\nb\rc\td\x01\x7F", 9));
  EXPECT_EQ(edit.text(), "a\nb\nc d");
}

}  // namespace
}  // namespace sash::desk
