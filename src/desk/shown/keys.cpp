#include "desk/shown/keys.h"

#include <algorithm>
#include <array>

#include "support/check.h"
#include "support/text.h"

namespace sash::desk {
namespace {

using enum Action;
using enum KeyGroup;

constexpr Chord plain(Key key) { return {key, no_mods}; }

constexpr std::array table{
    KeyBinding{toggle_play, playing, plain(Key::space), "Play or pause"},
    KeyBinding{shuttle_back, playing, plain(Key::j), "Play backwards, again for faster"},
    KeyBinding{shuttle_stop, playing, plain(Key::k), "Stop"},
    KeyBinding{shuttle_on, playing, plain(Key::l), "Play on, again for faster"},
    KeyBinding{step_back, playing, plain(Key::left), "One frame back", true},
    KeyBinding{step_on, playing, plain(Key::right), "One frame on", true},
    KeyBinding{jump_back, playing, {Key::left, shift}, "One second back", true},
    KeyBinding{jump_on, playing, {Key::right, shift}, "One second on", true},
    KeyBinding{to_start, playing, plain(Key::home), "To the start"},
    KeyBinding{to_end, playing, plain(Key::end), "To the end"},
    KeyBinding{slower, playing, plain(Key::left_bracket), "Slower, down to a quarter"},
    KeyBinding{faster, playing, plain(Key::right_bracket), "Faster, up to four times"},
    KeyBinding{loop_pin, playing, plain(Key::o), "Loop the selected span, or stop looping"},
    KeyBinding{louder, playing, {Key::up, shift}, "Louder", true},
    KeyBinding{softer, playing, {Key::down, shift}, "Softer", true},

    KeyBinding{pin_figure, pinning, plain(Key::f), "Pin a figure here, or the selected words"},
    KeyBinding{pin_yield, pinning, plain(Key::y), "Pin a yield here"},
    KeyBinding{pin_hazard, pinning, plain(Key::h), "Pin a hazard; again: its span ends"},
    KeyBinding{pin_note, pinning, plain(Key::n), "Pin a note here"},
    KeyBinding{pin_chapter, pinning, plain(Key::m), "Begin a chapter here"},
    KeyBinding{write_line, pinning, plain(Key::i), "Write narration from here on"},
    KeyBinding{write_callout, pinning, plain(Key::c), "Write a callout for the selected hazard"},
    KeyBinding{end_span, pinning, plain(Key::e), "End the selected pin's span here"},
    KeyBinding{edit_pin, pinning, plain(Key::enter), "Edit what is selected", false, false, plain(Key::f2)},
    KeyBinding{move_pin_here, pinning, {Key::enter, shift}, "Move the selected pin here"},
    KeyBinding{remove_pin, pinning, plain(Key::del), "Remove what is selected"},
    KeyBinding{wire, pinning, plain(Key::w), "Tie figures; again: the selected one in or out"},
    KeyBinding{keep_relation, pinning, {Key::enter, ctrl}, "Keep the relation put together", false, true},

    KeyBinding{previous_pin, walking, plain(Key::up), "Previous pin", true},
    KeyBinding{next_pin, walking, plain(Key::down), "Next pin", true},
    KeyBinding{previous_finding, walking, {Key::up, ctrl}, "Previous finding", true, true},
    KeyBinding{next_finding, walking, {Key::down, ctrl}, "Next finding", true, true},
    KeyBinding{search, walking, {Key::f, ctrl}, "Search and filter", false, true, plain(Key::slash)},
    KeyBinding{follow, walking, plain(Key::period), "Let the sheet follow the playhead again"},
    KeyBinding{words_back, walking, {Key::left, alt}, "Select the word before", true},
    KeyBinding{words_on, walking, {Key::right, alt}, "Select the word after", true},
    KeyBinding{words_grow, walking, {Key::right, {.shift = true, .alt = true}}, "One word more", true},
    KeyBinding{words_shrink, walking, {Key::left, {.shift = true, .alt = true}}, "One word less", true},
    KeyBinding{line_here, walking, plain(Key::t), "The selected line is said here; on to the next"},

    KeyBinding{previous_proposal, proposals, {Key::p, shift}, "Previous proposal", true},
    KeyBinding{next_proposal, proposals, plain(Key::p), "Next proposal", true},
    KeyBinding{accept, proposals, plain(Key::a), "Accept the proposal, on to the next"},
    KeyBinding{refuse, proposals, plain(Key::x), "Refuse the proposal, on to the next"},
    KeyBinding{accept_all, proposals, {Key::a, shift}, "Accept every proposal shown that is no guess"},
    KeyBinding{read_narration, proposals, plain(Key::r), "Read the narration again for figures"},

    KeyBinding{undo, record, {Key::z, ctrl}, "Undo", true},
    KeyBinding{redo, record, {Key::z, ctrl_shift}, "Redo", true, false, Chord{Key::y, ctrl}},
    KeyBinding{export_script, record, {Key::e, ctrl}, "Export the script", false, true},
    KeyBinding{save_copy, record, {Key::s, ctrl_shift}, "Save a copy of the record", false, true},
    KeyBinding{add_files, record, {Key::o, ctrl}, "Open a record, add footage, captions", false, true},
    KeyBinding{paste, record, {Key::v, ctrl}, "Paste captions, a transcript or a script"},
    KeyBinding{close_record, record, {Key::w, ctrl}, "Close the record", false, true},

    KeyBinding{next_pane, desk, {Key::tab, ctrl}, "To the next pane", true, true},
    KeyBinding{previous_pane, desk, {Key::tab, ctrl_shift}, "To the pane before", true, true},
    KeyBinding{find_action, desk, {Key::k, ctrl}, "Find an action by its words", false, true},
    KeyBinding{show_keys, desk, plain(Key::f1), "Show all keys", false, true, Chord{Key::slash, shift}},
    KeyBinding{show_settings, desk, {Key::comma, ctrl}, "Settings", false, true},
    KeyBinding{scratch, desk, {Key::g, ctrl}, "Scratch page: a quick computation", false, true},
    KeyBinding{switch_theme, desk, plain(Key::f9), "Dim or paper", false, true},
    KeyBinding{bigger, desk, {Key::equal, ctrl}, "Larger text", true, true, Chord{Key::pad_plus, ctrl}},
    KeyBinding{smaller, desk, {Key::minus, ctrl}, "Smaller text", true, true, Chord{Key::pad_minus, ctrl}},
    KeyBinding{leave, desk, plain(Key::escape), "Close what is open, or deselect", false, true},
};

// '?' and "/" are text while somebody types.
bool prints(Chord c) { return !c.mods.ctrl && !c.mods.alt && !c.mods.super && c.key == Key::slash; }

}  // namespace

std::span<const KeyBinding> key_table() { return table; }

const KeyBinding& binding(Action action) {
  const auto it = std::find_if(table.begin(), table.end(), [&](const KeyBinding& b) { return b.action == action; });
  promise(it != table.end(), "every action is in the key table");
  return *it;
}

std::optional<Action> action_of(const KeyEvent& event, bool typing) {
  for (const KeyBinding& b : table) {
    if (typing && !b.in_text) continue;
    if (matches(event, b.chord, b.repeats)) return b.action;
    if (b.other && !(typing && prints(*b.other)) && matches(event, *b.other, b.repeats)) return b.action;
  }
  return std::nullopt;
}

std::string chord_text(Action action) { return chord_name(binding(action).chord); }

std::vector<Action> find_actions(std::string_view text) {
  const std::string key = to_lower(text);
  const auto wanted = split(key, ' ');
  std::vector<Action> found;
  for (const KeyBinding& b : table) {
    const std::string words = to_lower(b.words);
    const bool all = std::all_of(wanted.begin(), wanted.end(),
                                 [&](std::string_view word) { return words.find(word) != std::string::npos; });
    if (all) found.push_back(b.action);
  }
  return found;
}

std::string_view group_words(KeyGroup group) {
  switch (group) {
    case playing:
      return "Playing";
    case pinning:
      return "Pinning and tying";
    case walking:
      return "Finding the way";
    case proposals:
      return "Proposals";
    case record:
      return "The record";
    case desk:
      return "The desk";
  }
  return {};
}

std::vector<KeySection> key_sections() {
  std::vector<KeySection> sections;
  for (const KeyBinding& b : table) {
    const std::string_view title = group_words(b.group);
    if (sections.empty() || sections.back().title != title) sections.push_back({title, {}});
    std::string chords = chord_name(b.chord);
    if (b.other) chords += "  or  " + chord_name(*b.other);
    sections.back().rows.push_back({std::move(chords), b.words});
  }
  sections.push_back({"In a text field",
                      {{"Enter", "Keep what was typed"},
                       {"Shift+Enter", "Begin a line, in sentences"},
                       {"Tab  or  Shift+Tab", "Keep it; to the next field or the one before"},
                       {"Ctrl+Z  or  Ctrl+Y", "Take back what was typed, or do it again"},
                       {"Esc", "Leave it as it was"}}});
  return sections;
}

}  // namespace sash::desk
