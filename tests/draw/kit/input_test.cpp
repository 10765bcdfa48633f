#include "desk/draw/kit/input.h"

#include <gtest/gtest.h>

#include "draw/kit/harness.h"

namespace sash::desk {
namespace {

using testing::Harness;

std::vector<KeyEvent> presses(const std::vector<KeyEvent>& all) {
  std::vector<KeyEvent> out;
  for (const KeyEvent& e : all) {
    if (e.pressed) out.push_back(e);
  }
  return out;
}

TEST(InputQueue, LosesNoKeyPressedAndReleasedWithinOneFrame) {
  Harness h;
  std::vector<KeyEvent> seen;
  h.show([&](Kit& kit) { seen.insert(seen.end(), kit.keys().left().begin(), kit.keys().left().end()); });
  for (int i = 0; i < 10; ++i) {
    h.put(KeyEvent{Key::j, {}, true, false});
    h.put(KeyEvent{Key::j, {}, false, false});
  }
  h.settle();
  EXPECT_EQ(presses(seen).size(), 10U);
  EXPECT_EQ(seen.size(), 20U);
}

TEST(InputQueue, KeepsTheOrderOfKeysAndText) {
  Harness h;
  ImGuiIO& io = ImGui::GetIO();
  InputQueue q;
  q.put(KeyEvent{Key::a, {}, true, false});
  q.put(TypedText{"a"});
  q.put(KeyEvent{Key::backspace, {}, true, false});
  EXPECT_EQ(q.feed(io).size(), 1U);  // the letter belongs to its key
  EXPECT_TRUE(q.waiting());
  const auto second = q.feed(io);
  ASSERT_EQ(second.size(), 1U);
  EXPECT_EQ(second.front().key, Key::backspace);
  EXPECT_FALSE(q.waiting());
}

TEST(InputQueue, AFieldTakesManyLettersAFrameAndWhatFollowsComesAfterThem) {
  Harness h;
  ImGuiIO& io = ImGui::GetIO();
  InputQueue q;
  const auto type = [&](Key key, const char* letter) {
    q.put(KeyEvent{key, {}, true, false});
    q.put(TypedText{letter});
    q.put(KeyEvent{key, {}, false, false});
  };
  type(Key::n5, "5");
  type(Key::space, " ");
  type(Key::g, "g");
  q.put(KeyEvent{Key::enter, {}, true, false});
  io.WantTextInput = true;
  EXPECT_EQ(q.feed(io).size(), 6U);
  EXPECT_EQ(io.InputQueueCharacters.Size, 3);
  const auto after = q.feed(io);
  ASSERT_EQ(after.size(), 1U);
  EXPECT_EQ(after.front().key, Key::enter);
}

TEST(InputQueue, KeysOfDifferentModifiersNeverShareAFrame) {
  Harness h;
  InputQueue q;
  q.put(KeyEvent{Key::z, ctrl, true, false});
  q.put(KeyEvent{Key::y, no_mods, true, false});
  EXPECT_EQ(q.feed(ImGui::GetIO()).size(), 1U);
  EXPECT_EQ(q.feed(ImGui::GetIO()).size(), 1U);
}

TEST(InputQueue, APressWaitsUntilThePointerHasArrived) {
  Harness h;
  ImGuiIO& io = ImGui::GetIO();
  InputQueue q;
  q.put(MouseMove{10, 20});
  q.put(MousePress{MouseButton::left, true, {}});
  q.put(MousePress{MouseButton::left, false, {}});
  q.feed(io);
  EXPECT_FALSE(io.MouseDown[0]);
  EXPECT_EQ(io.MousePos.x, 10);
  q.feed(io);
  EXPECT_TRUE(io.MouseDown[0]);
  q.feed(io);
  EXPECT_FALSE(io.MouseDown[0]);
}

}  // namespace
}  // namespace sash::desk
