#pragma once
// The blocks of the running sheet, one drawing function a kind. Each draws at a given place and answers nothing: the
// sheet itself listens to the mouse (sheet.cpp). Main thread only.

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/draw/kit/signs.h"
#include "desk/shown/sheet.h"

namespace sash::desk {

/// How a block stands out from the others.
struct BlockState {
  bool selected = false;
  bool hovered = false;
  bool picking = false;  ///< a click picks it for a relation
};

/// Sizes for layout, as drawn: shared by show_sheet and the drawing.
struct SheetSizes {
  float gap;
  float inset;
  float lane;
  float sign;
  static SheetSizes of(const Metrics& m) { return {m.gap, m.inset, m.px(9), m.icon + m.px(4)}; }
};

void draw_line(Kit& kit, Painter& paint, const Rect& at, const LineShown& line, const BlockState& state,
               std::optional<model::Words> words);
void draw_note(Kit& kit, Painter& paint, const Rect& at, const NoteShown& note, const BlockState& state);
void draw_chapter(Kit& kit, Painter& paint, const Rect& at, const ChapterShown& chapter, const BlockState& state);
void draw_figure(Kit& kit, Painter& paint, const Rect& at, const FigureShown& figure, const BlockState& state);
void draw_hazard(Kit& kit, Painter& paint, const Rect& at, const HazardShown& hazard, const BlockState& state);
void draw_callout(Kit& kit, Painter& paint, const Rect& at, const CalloutShown& callout, const BlockState& state);
/// A hazard's span along its lane; `at` is cut to what is in sight, `begins` and `ends` say which ends are.
void draw_hazard_band(Kit& kit, Painter& paint, const Rect& at, const HazardShown& hazard, bool begins, bool ends);

/// The byte of the line nearest to a spot, from the block's upper left corner.
std::size_t line_byte_at(const Kit& kit, const LineShown& line, ImVec2 spot);

/// A border of short strokes, for what is only proposed.
void dashed_frame(Painter& paint, const Rect& at, Colour c, float dash, float thick);

}  // namespace sash::desk
