#include "desk/draw/sheet_line_edit.h"

#include <algorithm>

#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/text_block.h"

namespace sash::desk {
namespace {

session::Intent keep(const model::NarrationLine* stored, const std::string& text) {
  if (stored == nullptr) return session::AddText{text};
  model::NarrationLine line = *stored;
  line.text = text;
  return session::PutThing{line, "Edit narration"};
}

}  // namespace

void draw_line_edit(Kit& kit, const Rect& at, const std::optional<Rect>& place, const model::Record& record,
                    std::optional<SheetState::LineEdit>& editing, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  auto& edit = *editing;
  const bool writing = !edit.line.known();
  const auto* stored = model::find(record, edit.line);
  if (!place || (!writing && stored == nullptr)) return editing.reset();

  const float width = std::max(place->width(), m.px(240));
  const WrappedLook look{
      .field = {.hint = writing ? "What is said from here on, a paragraph a line" : "", .width = width},
      .least_rows = writing ? 4U : 2U,
      .enter_commits = !writing};
  const float height = wrapped_height(kit, edit.text, look) + m.small * 1.3F + m.px(20);
  const float top = std::clamp(place->min.y, at.min.y + m.px(4), std::max(at.min.y + m.px(4), at.max.y - height));
  const Rect box{{place->min.x - m.px(4), top - m.px(4)}, {place->min.x + width + m.px(4), top + height}};
  Painter().card(box, t.raised, t.accent, t.shadow, m.radius);
  const Pane pane(kit, "sheet.edit", box.shrunk(m.px(4)), {.scrolls = false, .padded = false, .ground = false});
  if (edit.fresh) kit.focus().move_to("sheet.edit.text", false);
  edit.fresh = false;
  const FieldEdit e = wrapped_field(kit, "sheet.edit.text", edit.text, look);
  paragraph(kit.fonts().small, t.muted, writing ? "Ctrl+Enter keeps, Esc drops" : "Enter keeps, Esc leaves as it was");
  if (!e.committed && !e.left && !e.escaped) return;
  if (!e.escaped && edit.text != (writing ? std::string() : stored->text)) asks.want(keep(stored, edit.text));
  editing.reset();
}

}  // namespace sash::desk
