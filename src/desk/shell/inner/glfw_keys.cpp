#include "desk/shell/inner/glfw_keys.h"

#include <GLFW/glfw3.h>

#include <array>
#include <utility>

namespace sash::desk::inner {
namespace {

constexpr Key after(Key first, int steps) { return static_cast<Key>(static_cast<int>(first) + steps); }

constexpr std::array<std::pair<int, Key>, 30> named = {{{GLFW_KEY_SPACE, Key::space},
                                                        {GLFW_KEY_ENTER, Key::enter},
                                                        {GLFW_KEY_ESCAPE, Key::escape},
                                                        {GLFW_KEY_TAB, Key::tab},
                                                        {GLFW_KEY_BACKSPACE, Key::backspace},
                                                        {GLFW_KEY_INSERT, Key::insert},
                                                        {GLFW_KEY_DELETE, Key::del},
                                                        {GLFW_KEY_LEFT, Key::left},
                                                        {GLFW_KEY_RIGHT, Key::right},
                                                        {GLFW_KEY_UP, Key::up},
                                                        {GLFW_KEY_DOWN, Key::down},
                                                        {GLFW_KEY_PAGE_UP, Key::page_up},
                                                        {GLFW_KEY_PAGE_DOWN, Key::page_down},
                                                        {GLFW_KEY_HOME, Key::home},
                                                        {GLFW_KEY_END, Key::end},
                                                        {GLFW_KEY_MINUS, Key::minus},
                                                        {GLFW_KEY_EQUAL, Key::equal},
                                                        {GLFW_KEY_COMMA, Key::comma},
                                                        {GLFW_KEY_PERIOD, Key::period},
                                                        {GLFW_KEY_SLASH, Key::slash},
                                                        {GLFW_KEY_SEMICOLON, Key::semicolon},
                                                        {GLFW_KEY_APOSTROPHE, Key::apostrophe},
                                                        {GLFW_KEY_LEFT_BRACKET, Key::left_bracket},
                                                        {GLFW_KEY_RIGHT_BRACKET, Key::right_bracket},
                                                        {GLFW_KEY_BACKSLASH, Key::backslash},
                                                        {GLFW_KEY_GRAVE_ACCENT, Key::grave},
                                                        {GLFW_KEY_KP_ENTER, Key::pad_enter},
                                                        {GLFW_KEY_KP_ADD, Key::pad_plus},
                                                        {GLFW_KEY_KP_SUBTRACT, Key::pad_minus},
                                                        {GLFW_KEY_KP_DECIMAL, Key::period}}};

/// The key whose sign is `c`; none for signs that are no key of ours.
Key key_of_sign(char c) {
  if (c >= 'a' && c <= 'z') return after(Key::a, c - 'a');
  if (c >= 'A' && c <= 'Z') return after(Key::a, c - 'A');
  constexpr std::string_view signs = "-=,./;'[]\\`";
  const auto at = signs.find(c);
  return at == std::string_view::npos ? Key::none : after(Key::minus, static_cast<int>(at));
}

}  // namespace

Key key_from_glfw(int code, const char* name) {
  // Letters and signs go by what is printed, so that a shortcut is where its letter is.
  const bool printable = code >= GLFW_KEY_APOSTROPHE && code <= GLFW_KEY_GRAVE_ACCENT;
  const bool digit = code >= GLFW_KEY_0 && code <= GLFW_KEY_9;
  if (printable && !digit && name != nullptr && name[0] != '\0' && name[1] == '\0') {
    if (const Key k = key_of_sign(name[0]); k != Key::none) return k;
  }
  if (code >= GLFW_KEY_A && code <= GLFW_KEY_Z) return after(Key::a, code - GLFW_KEY_A);
  if (digit) return after(Key::n0, code - GLFW_KEY_0);
  if (code >= GLFW_KEY_KP_0 && code <= GLFW_KEY_KP_9) return after(Key::n0, code - GLFW_KEY_KP_0);
  if (code >= GLFW_KEY_F1 && code <= GLFW_KEY_F12) return after(Key::f1, code - GLFW_KEY_F1);
  for (const auto& [theirs, ours] : named) {
    if (theirs == code) return ours;
  }
  return Key::none;
}

Mods mods_from_glfw(int mods) {
  return {(mods & GLFW_MOD_CONTROL) != 0, (mods & GLFW_MOD_SHIFT) != 0, (mods & GLFW_MOD_ALT) != 0,
          (mods & GLFW_MOD_SUPER) != 0};
}

}  // namespace sash::desk::inner
