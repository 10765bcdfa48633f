#pragma once
// The pin editor, drawn: a form of one row a property beneath the footage, open on whatever pin is selected. Never
// modal. Main thread only.

#include <map>
#include <string>

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/shown/asks.h"
#include "desk/shown/editor.h"

namespace sash::desk {

struct EditorState {
  std::optional<session::ThingRef> on;  ///< what the texts below belong to
  std::optional<model::Thing> base;     ///< as it was when they were taken
  std::map<PinField, std::string> texts;
  std::map<PinField, std::string> faults;
  std::string typed;         ///< the quick field
  std::string portion_name;  ///< of a portion being made
  bool naming_portion = false;
  std::optional<model::FigureId> portion_for;  ///< the figure a new portion is meant for, until it is there
  bool to_first_field = false;                 ///< the first field wants the keyboard
  bool fresh = false;  ///< the pin was just made: typing replaces what it was given to start from
};

/// The row of fields for the selected pin, or what can be pinned when none is.
void draw_editor(Kit& kit, const Rect& at, const EditorShown& shown, EditorState& state, Asks& asks);

}  // namespace sash::desk
