#pragma once
// LessonDesk: the fixture of tests that drive the whole desk by mouse and keys over the lesson, without a window.

#include <gtest/gtest.h>

#include "draw/pages/fake_desk.h"
#include "draw/pages/lesson.h"

namespace sash::testing {

class LessonDesk : public ::testing::Test {
 protected:
  FakeDesk desk{lesson()};
  Harness& hand = desk.hand();

  /// Long enough for the sheet to have come to rest.
  void rest() { hand.wait(1); }

  /// The one intent of that type that was asked for.
  template <class T>
  T only() {
    const auto asked = desk.asked<T>();
    EXPECT_EQ(asked.size(), 1U);
    return asked.empty() ? T{} : asked.front();
  }

  ImVec2 middle(std::string_view id) { return hand.item(id).seen.centre(); }

  /// Presses at `from`, goes to `to`, and keeps hold.
  void hold(ImVec2 from, ImVec2 to) {
    hand.move_to(from);
    hand.put(desk::MousePress{desk::MouseButton::left, true, {}});
    hand.settle();
    hand.move_to(to);
  }
  void let_go() {
    hand.put(desk::MousePress{desk::MouseButton::left, false, {}});
    hand.settle();
  }
};

}  // namespace sash::testing
