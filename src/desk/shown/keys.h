#pragma once
// The one table of shortcuts: what each key does, in which words, in which group. Keys are acted on, buttons are
// labelled and the key overlay is written from it, so that they cannot disagree. Pure values.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "desk/shown/key.h"

namespace sash::desk {

/// Everything that a key can do without a pointing device.
enum class Action {
  // playing
  toggle_play,
  shuttle_back,
  shuttle_stop,
  shuttle_on,
  step_back,
  step_on,
  jump_back,
  jump_on,
  to_start,
  to_end,
  slower,
  faster,
  loop_pin,
  louder,
  softer,
  // pinning
  pin_figure,
  pin_yield,
  pin_hazard,
  pin_note,
  pin_chapter,
  write_line,
  end_span,
  write_callout,
  edit_pin,
  remove_pin,
  move_pin_here,
  // walking
  previous_pin,
  next_pin,
  previous_finding,
  next_finding,
  previous_proposal,
  next_proposal,
  search,
  follow,
  words_back,
  words_on,
  words_grow,
  words_shrink,
  line_here,
  // proposals
  accept,
  refuse,
  accept_all,
  read_narration,
  // workings
  wire,
  keep_relation,
  // record
  undo,
  redo,
  export_script,
  save_copy,
  add_files,
  paste,
  close_record,
  // desk
  next_pane,
  previous_pane,
  find_action,
  show_keys,
  show_settings,
  scratch,
  switch_theme,
  bigger,
  smaller,
  leave,
};

enum class KeyGroup { playing, pinning, walking, proposals, record, desk };

struct KeyBinding {
  Action action;
  KeyGroup group;
  Chord chord;
  std::string_view words;        ///< what it does, for the overlay: "Play or pause"
  bool repeats = false;          ///< a held key does it again
  bool in_text = false;          ///< acts even while a text field has the keys
  std::optional<Chord> other{};  ///< a second way
};

std::span<const KeyBinding> key_table();
const KeyBinding& binding(Action action);

/// What the event asks for; nothing while `typing` unless the binding acts in text fields.
std::optional<Action> action_of(const KeyEvent& event, bool typing);

std::string chord_text(Action action);  ///< "Ctrl+Z"
std::string_view group_words(KeyGroup group);

/// The actions whose words hold every word of `text`, in table order; all of them for an empty one.
std::vector<Action> find_actions(std::string_view text);

/// The overlay, group by group in table order.
struct KeyRow {
  std::string chords;
  std::string_view words;
};
struct KeySection {
  std::string_view title;
  std::vector<KeyRow> rows;
};
std::vector<KeySection> key_sections();

}  // namespace sash::desk
