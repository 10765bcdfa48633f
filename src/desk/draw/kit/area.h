#pragma once
// Area: the one way something on the desk can be pressed. Buttons, rows, bands and pins are areas with a drawing on
// them. Answers mouse and keyboard, enrols with the focus, writes itself into the registry, draws the focus ring. Main
// thread only.

#include <string_view>

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"

namespace sash::desk {

struct AreaLook {
  std::string_view label = {};  ///< what a test or a reader of the registry sees
  bool enabled = true;
  bool by_keyboard = true;  ///< Tab stops here; Enter and Space press it
  bool draggable = false;   ///< reports dragging; keeps the mouse until it is let go
  float radius = -1;        ///< of the focus ring; -1: the theme's
};

struct Pressed {
  bool clicked = false;  ///< pressed and let go here, or by Enter or Space
  bool double_clicked = false;
  bool right_clicked = false;
  bool hovered = false;
  bool held = false;   ///< the mouse is down on it
  bool began = false;  ///< the mouse went down in this frame
  bool focused = false;
  bool arrived = false;  ///< the keyboard came in this frame
  ImVec2 moved{};        ///< while held and draggable: pixels since the last frame
  ImVec2 mouse{};        ///< pointer, from the upper left corner of the area
  Mods mods;             ///< held with the click
};

/// An area over `at`; the ImGui cursor is not moved. `id` is unique on the page and stable over frames.
Pressed area(Kit& kit, std::string_view id, const Rect& at, const AreaLook& look = {});

/// Takes `size` at the ImGui cursor and moves the cursor on; gives the place.
Rect take_place(ImVec2 size);

/// The keyboard's ring around `at`, outside of it.
void draw_ring(Kit& kit, Painter& paint, const Rect& at, float radius);

}  // namespace sash::desk
