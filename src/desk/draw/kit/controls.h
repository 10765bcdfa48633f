#pragma once
// Controls: buttons, switches, choices, sliders, chips. Each takes its place at the ImGui cursor, in flow, so
// SameLine() works. Main thread only.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "desk/draw/kit/area.h"
#include "desk/draw/kit/signs.h"

namespace sash::desk {

enum class ButtonKind { plain, primary, quiet, grave };

struct ButtonLook {
  Icon icon = Icon::none;
  ButtonKind kind = ButtonKind::plain;
  bool on = false;  ///< a switch that is on
  bool enabled = true;
  std::string_view tip = {};  ///< what it does, when the label does not say
  Chord chord = {};           ///< its shortcut, shown in the tip
  float width = 0;            ///< 0: as wide as needed
  float height = 0;           ///< 0: a row
};

/// True when pressed. An empty `label` with an icon makes a square button.
bool button(Kit& kit, std::string_view id, std::string_view label, const ButtonLook& look = {});
/// How wide button() will be.
float button_width(const Kit& kit, std::string_view label, Icon icon = Icon::none);

/// A box to tick; true when it changed.
bool tick_box(Kit& kit, std::string_view id, std::string_view label, bool& on, bool enabled = true);

/// One of a few, all visible, as one row; the arrows move the choice. Widgets are `id.0`, `id.1`, ... True when it
/// changed.
bool segments(Kit& kit, std::string_view id, std::span<const std::string_view> options, std::size_t& chosen);

/// One of many, shown as a field that opens a list; Up and Down change it closed, letters jump. True when it changed.
/// `width` 0: the pane's.
bool choice(Kit& kit, std::string_view id, std::span<const std::string_view> options, std::size_t& chosen,
            float width = 0);

/// A value between `least` and `most`; dragged, or moved by the arrows in steps. True when it changed.
bool slider(Kit& kit, std::string_view id, double& value, double least, double most, double step, float width,
            std::string_view shown = {});

/// How far something is, 0..1; nothing: busy, unknown how far.
void progress_bar(Kit& kit, std::optional<double> share, float width, float height = 0);

/// A shortcut as key caps.
void key_chip(Kit& kit, Chord chord);
/// The same, painted at `at`; gives the width.
float paint_key_chip(Kit& kit, Painter& paint, ImVec2 at, Chord chord);

/// A word on a tinted ground with an optional sign, as wide as it is.
struct TagLook {
  std::optional<Safety> safety = {};
  std::optional<Verdict> verdict = {};
  std::optional<Family> family = {};
};
void tag(Kit& kit, std::string_view label, const TagLook& look = {});
/// The panel of a safety message: sign, signal word, in the standard colours.
void signal_panel(Kit& kit, Safety level, float width = 0);

/// After a widget whose place was `at`: explains it when the mouse rests there or the keyboard is on it with Ctrl held.
void tip(Kit& kit, const Rect& at, std::string_view text, Chord chord = {});

}  // namespace sash::desk
