#include "desk/shown/key.h"

#include <array>

#include "support/text.h"

namespace sash::desk {
namespace {

constexpr std::size_t key_count = static_cast<std::size_t>(Key::count_);

constexpr std::array<std::string_view, key_count> names = {
    "",        "A",         "B",     "C",         "D",     "E",         "F",      "G",      "H",  "I",  "J",   "K",
    "L",       "M",         "N",     "O",         "P",     "Q",         "R",      "S",      "T",  "U",  "V",   "W",
    "X",       "Y",         "Z",     "0",         "1",     "2",         "3",      "4",      "5",  "6",  "7",   "8",
    "9",       "F1",        "F2",    "F3",        "F4",    "F5",        "F6",     "F7",     "F8", "F9", "F10", "F11",
    "F12",     "Space",     "Enter", "Esc",       "Tab",   "Backspace", "Insert", "Delete", "←",  "→",  "↑",   "↓",
    "Page Up", "Page Down", "Home",  "End",       "-",     "=",         ",",      ".",      "/",  ";",  "'",   "[",
    "]",       "\\",        "`",     "Pad Enter", "Pad +", "Pad -"};

}  // namespace

bool matches(const KeyEvent& event, Chord chord, bool or_repeat) {
  return event.pressed && event.key == chord.key && event.mods == chord.mods && (or_repeat || !event.repeat);
}

std::string_view key_name(Key key) { return names[static_cast<std::size_t>(key)]; }

std::string chord_name(Chord chord) {
  std::string out;
  if (chord.mods.ctrl) out += "Ctrl+";
  if (chord.mods.alt) out += "Alt+";
  if (chord.mods.super) out += "Super+";
  if (chord.mods.shift) out += "Shift+";
  out += key_name(chord.key);
  return out;
}

std::optional<Chord> chord_from_name(std::string_view name) {
  Chord chord;
  const auto took = [&](std::string_view prefix, bool& flag) {
    if (!starts_with_no_case(name, prefix)) return false;
    name.remove_prefix(prefix.size());
    return flag = true;
  };
  while (took("Ctrl+", chord.mods.ctrl) || took("Alt+", chord.mods.alt) || took("Super+", chord.mods.super) ||
         took("Shift+", chord.mods.shift)) {
  }
  const std::string wanted = to_lower(name);
  for (std::size_t k = 1; k < key_count; ++k) {
    if (to_lower(names[k]) == wanted) {
      chord.key = static_cast<Key>(k);
      return chord;
    }
  }
  return std::nullopt;
}

}  // namespace sash::desk
