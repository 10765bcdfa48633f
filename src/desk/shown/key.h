#pragma once
// Keys as values: what was pressed, with which modifiers, and how a shortcut is written for a person.
// Knows no window system and no toolkit; the shell and the tests make these. Pure values.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace sash::desk {

/// One physical key, named by what a US layout prints on it (letters and digits by what the person's layout prints).
enum class Key : std::uint8_t {
  none,
  // clang-format off
  a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v, w, x, y, z,
  n0, n1, n2, n3, n4, n5, n6, n7, n8, n9,
  f1, f2, f3, f4, f5, f6, f7, f8, f9, f10, f11, f12,
  // clang-format on
  space,
  enter,
  escape,
  tab,
  backspace,
  insert,
  del,
  left,
  right,
  up,
  down,
  page_up,
  page_down,
  home,
  end,
  minus,
  equal,
  comma,
  period,
  slash,
  semicolon,
  apostrophe,
  left_bracket,
  right_bracket,
  backslash,
  grave,
  pad_enter,
  pad_plus,
  pad_minus,
  count_,
};

struct Mods {
  bool ctrl = false;
  bool shift = false;
  bool alt = false;
  bool super = false;
  bool operator==(const Mods&) const = default;
  bool none() const { return !ctrl && !shift && !alt && !super; }
};

inline constexpr Mods no_mods{};
inline constexpr Mods ctrl{.ctrl = true};
inline constexpr Mods shift{.shift = true};
inline constexpr Mods alt{.alt = true};
inline constexpr Mods ctrl_shift{.ctrl = true, .shift = true};

/// One event of one key. A held key sends `pressed` with `repeat`.
struct KeyEvent {
  Key key = Key::none;
  Mods mods;
  bool pressed = true;
  bool repeat = false;
  bool operator==(const KeyEvent&) const = default;
};

/// A key with its modifiers, as a shortcut table lists it.
struct Chord {
  Key key = Key::none;
  Mods mods;
  bool operator==(const Chord&) const = default;
};

/// Whether `event` is this chord being pressed; a repeat counts only where `or_repeat` says so.
bool matches(const KeyEvent& event, Chord chord, bool or_repeat = false);

std::string_view key_name(Key key);   ///< as printed for a person: "J", "Space", "←"; empty for none
std::string chord_name(Chord chord);  ///< "Ctrl+Shift+Z"
/// The converse of chord_name; nothing for words that name no key.
std::optional<Chord> chord_from_name(std::string_view name);

}  // namespace sash::desk
