#include "desk/draw/kit/input.h"

#include <array>
#include <bitset>

namespace sash::desk {
namespace {

constexpr std::size_t index_of(Key key) { return static_cast<std::size_t>(key); }

void set_mods(ImGuiIO& io, Mods mods) {
  io.KeyCtrl = mods.ctrl;
  io.KeyShift = mods.shift;
  io.KeyAlt = mods.alt;
  io.KeySuper = mods.super;
}

/// What this frame has changed already, so that a second change of the same thing waits.
struct Changed {
  std::bitset<static_cast<std::size_t>(Key::count_)> keys;
  std::bitset<3> buttons;
  bool any_key = false;
  bool text = false;
  bool moved = false;
  bool letters = false;  ///< only letters for a text field so far: more of them may follow
};

/// Feeds one event; false when it has to wait for the next frame.
class Feeder {
 public:
  Feeder(ImGuiIO& io, Changed& changed, std::vector<KeyEvent>& keys) : io_(io), changed_(changed), keys_(keys) {}

  bool operator()(const KeyEvent& e) {
    const std::size_t k = index_of(e.key);
    if (is_letter(e) && (!changed_.any_key || changed_.letters)) {  // a field takes many letters a frame
      changed_.any_key = changed_.letters = true;
      changed_.keys[k] = true;
      set_mods(io_, e.mods);
      io_.KeysDown[k] = e.pressed;
      keys_.push_back(e);
      return true;
    }
    if (changed_.letters) return false;
    if (changed_.keys[k] || changed_.text) return false;
    if (changed_.any_key && (io_.KeyCtrl != e.mods.ctrl || io_.KeyShift != e.mods.shift || io_.KeyAlt != e.mods.alt)) {
      return false;
    }
    changed_.keys[k] = true;
    changed_.any_key = true;
    set_mods(io_, e.mods);
    io_.KeysDown[k] = e.pressed;
    keys_.push_back(e);
    return true;
  }
  bool operator()(const TypedText& e) {
    if (changed_.any_key && !changed_.letters && !text_follows_own_key()) return false;
    changed_.text = true;
    io_.AddInputCharactersUTF8(e.utf8.c_str());
    return true;
  }
  bool operator()(const MouseMove& e) {
    if (changed_.buttons.any()) return false;  // a press belongs to where the pointer was
    io_.MousePos = {e.x, e.y};
    changed_.moved = true;
    return true;
  }
  bool operator()(const MouseLeave&) {
    if (changed_.buttons.any()) return false;
    io_.MousePos = {-FLT_MAX, -FLT_MAX};
    return true;
  }
  bool operator()(const MousePress& e) {
    const auto b = static_cast<std::size_t>(e.button);
    if (changed_.buttons[b]) return false;
    if (e.down && changed_.moved) return false;  // hovering is worked out a frame before a press may land
    changed_.buttons[b] = true;
    set_mods(io_, e.mods);
    io_.MouseDown[b] = e.down;
    return true;
  }
  bool operator()(const MouseWheel& e) {
    set_mods(io_, e.mods);
    io_.MouseWheel += e.y;
    io_.MouseWheelH += e.x;
    return true;
  }

 private:
  /// A key that only types, while a text field has the keyboard.
  bool is_letter(const KeyEvent& e) const {
    const bool plain = !e.mods.ctrl && !e.mods.alt && !e.mods.super;
    const bool types =
        (e.key >= Key::a && e.key <= Key::n9) || e.key == Key::space || (e.key >= Key::minus && e.key <= Key::grave);
    return io_.WantTextInput && plain && types;
  }
  /// Typing J sends the key and then its letter; they belong to one frame.
  bool text_follows_own_key() const { return keys_.size() == 1 && keys_.front().pressed; }

  ImGuiIO& io_;
  Changed& changed_;
  std::vector<KeyEvent>& keys_;
};

}  // namespace

void InputQueue::release_all() {
  ImGuiIO& io = ImGui::GetIO();
  for (std::size_t k = 1; k < index_of(Key::count_); ++k) {
    if (io.KeysDown[k]) put(KeyEvent{static_cast<Key>(k), {}, false, false});
  }
  for (const MouseButton b : {MouseButton::left, MouseButton::right, MouseButton::middle}) {
    if (io.MouseDown[static_cast<int>(b)]) put(MousePress{b, false, {}});
  }
}

std::vector<KeyEvent> InputQueue::feed(ImGuiIO& io) {
  std::vector<KeyEvent> keys;
  Changed changed;
  Feeder feeder(io, changed, keys);
  while (!waiting_.empty() && std::visit(feeder, waiting_.front())) waiting_.pop_front();
  return keys;
}

void InputQueue::map_keys(ImGuiIO& io) {
  constexpr std::array<std::pair<ImGuiKey, Key>, 21> map = {{{ImGuiKey_LeftArrow, Key::left},
                                                             {ImGuiKey_RightArrow, Key::right},
                                                             {ImGuiKey_UpArrow, Key::up},
                                                             {ImGuiKey_DownArrow, Key::down},
                                                             {ImGuiKey_PageUp, Key::page_up},
                                                             {ImGuiKey_PageDown, Key::page_down},
                                                             {ImGuiKey_Home, Key::home},
                                                             {ImGuiKey_End, Key::end},
                                                             {ImGuiKey_Insert, Key::insert},
                                                             {ImGuiKey_Delete, Key::del},
                                                             {ImGuiKey_Backspace, Key::backspace},
                                                             {ImGuiKey_Space, Key::space},
                                                             {ImGuiKey_Enter, Key::enter},
                                                             {ImGuiKey_Escape, Key::escape},
                                                             {ImGuiKey_KeyPadEnter, Key::pad_enter},
                                                             {ImGuiKey_A, Key::a},
                                                             {ImGuiKey_C, Key::c},
                                                             {ImGuiKey_V, Key::v},
                                                             {ImGuiKey_X, Key::x},
                                                             {ImGuiKey_Y, Key::y},
                                                             {ImGuiKey_Z, Key::z}}};
  for (const auto& [theirs, ours] : map) io.KeyMap[theirs] = static_cast<int>(ours);
  io.KeyMap[ImGuiKey_Tab] = -1;
}

}  // namespace sash::desk
