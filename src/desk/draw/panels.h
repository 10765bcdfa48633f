#pragma once
// Panels: what opens over a part of the desk and goes away with Escape, never holding it up: the keys, the settings, a
// path to open or write to, the scratch page. Main thread only.

#include <optional>
#include <string>
#include <vector>

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/shown/asks.h"
#include "desk/shown/scratch_page.h"
#include "desk/shown/settings.h"
#include "desk/shown/welcome_page.h"
#include "session/view.h"

namespace sash::desk {

/// What a path is asked for.
enum class PathUse { open, export_script, save_copy };

struct PathState {
  PathUse use = PathUse::open;
  std::string text;
  std::vector<std::string> offers;  ///< what the text can go on to, whole paths
  bool fresh = true;                ///< the field wants the keyboard
  bool changed = true;              ///< the offers are older than the text
  bool to_end = false;
  bool choose = false;  ///< the desktop's chooser was asked for
};

enum class Panel { none, keys, settings, path, scratch, actions };

struct PanelState {
  Panel open = Panel::none;
  PathState path;
  std::string scratch;
  std::string scratched;  ///< what the lines below belong to
  std::vector<ScratchLine> scratch_lines;
  std::string action_words;  ///< what an action is looked for by
  std::size_t action = 0;    ///< the row of those found that Enter does
  bool fresh = true;
};

struct PanelFrame {
  const session::SessionView& view;
  bool can_choose = false;
};

/// Draws the open panel, if any, inside `at`.
void draw_panel(Kit& kit, const Rect& at, const PanelFrame& frame, PanelState& state, Settings& settings, Asks& asks);

/// A path field with what it can go on to; true when the path was given.
bool draw_path(Kit& kit, std::string_view id, PathState& state, std::string_view hint, float width);

/// The page without a record.
void draw_welcome(Kit& kit, const Rect& at, const WelcomeShown& shown, PathState& path, Asks& asks);

}  // namespace sash::desk
