#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "desk/draw/kit/field.h"
#include "desk/draw/kit/inner/field_frame.h"
#include "desk/draw/kit/text_block.h"
#include "support/text.h"

namespace sash::desk {
namespace {

constexpr double blink = 1.06;  // seconds; shown for the first half

// A line feed at the end opens a row, where the cursor then stands.
TextBlock rows_of(const Kit& kit, const std::string& text, float width) {
  return {kit.fonts().body, text.ends_with('\n') ? text + ' ' : text, width};
}

float air(const Kit& kit) { return std::round(std::max(0.0F, kit.m().row - kit.m().body * 1.3F) / 2); }

float height_for(const Kit& kit, const TextBlock& rows, const WrappedLook& look) {
  const auto count = static_cast<float>(std::max(look.least_rows, rows.lines().size()));
  return count * rows.line_height() + 2 * air(kit);
}

const TextBlock::Line& row_at(const TextBlock& rows, std::size_t byte) {
  const auto& lines = rows.lines();
  const auto after = std::ranges::upper_bound(lines, byte, {}, &TextBlock::Line::from);
  return after == lines.begin() ? lines.front() : *std::prev(after);
}

void to_row(Writing& writing, const TextBlock& rows, int by, bool select) {
  const ImVec2 at = rows.place_of(writing.edit.cursor());
  if (!writing.column) writing.column = at.x;
  const float y = at.y + (static_cast<float>(by) + 0.5F) * rows.line_height();
  const std::size_t end = writing.edit.text().size();
  writing.edit.move_to(y < 0 ? 0 : y > rows.height() ? end : std::min(end, rows.byte_at({*writing.column, y})), select);
}

bool copy(const TextEdit& edit) {
  const std::string selected(edit.selected());
  if (selected.empty()) return false;
  ImGui::SetClipboardText(selected.c_str());
  return true;
}

// The keys of editing that go with Ctrl.
void control_key(TextEdit& edit, Key key, bool select) {
  if (key == Key::a) edit.select_all();
  if (key == Key::c || key == Key::insert) copy(edit);
  if (key == Key::x && copy(edit)) edit.erase_back(false);
  if (key == Key::v) {
    if (const char* text = ImGui::GetClipboardText()) edit.insert(text);
  }
  if (key == Key::z) select ? edit.redo() : edit.undo();
  if (key == Key::y) edit.redo();
  if (key == Key::home) edit.move_to(0, select);
  if (key == Key::end) edit.move_to(edit.text().size(), select);
}

void press(Writing& writing, const TextBlock& rows, const KeyEvent& e) {
  TextEdit& edit = writing.edit;
  const bool select = e.mods.shift;
  const bool word = e.mods.ctrl;
  if (e.key == Key::up || e.key == Key::down) {
    if (!word) to_row(writing, rows, e.key == Key::up ? -1 : 1, select);
    return;
  }
  writing.column.reset();
  if (e.key == Key::left) return edit.step_back(word, select);
  if (e.key == Key::right) return edit.step_on(word, select);
  if (e.key == Key::backspace) return edit.erase_back(word);
  if (e.key == Key::del) return edit.erase_on(word);
  if (word) return control_key(edit, e.key, select);
  if (e.key == Key::home) edit.move_to(row_at(rows, edit.cursor()).from, select);
  if (e.key == Key::end) edit.move_to(row_at(rows, edit.cursor()).until, select);
}

/// What the keyboard does to the text in this frame.
void write(Kit& kit, Writing& writing, const TextBlock& rows) {
  for (const KeyEvent& e : kit.keys().left()) {
    if (!e.pressed || e.mods.alt || e.mods.super) continue;
    press(writing, rows, e);
    writing.since = kit.now();
  }
  for (const ImWchar c : ImGui::GetIO().InputQueueCharacters) {
    std::string utf8;
    append_utf8(utf8, c);
    writing.edit.insert(utf8);
    writing.column.reset();
    writing.since = kit.now();
  }
  ImGui::GetIO().InputQueueCharacters.resize(0);
  kit.keys().take_typing();
}

/// Whether the text was committed by a key; Enter that does not commit begins a line.
bool enter(Kit& kit, Writing& writing, bool enter_commits) {
  for (const Key key : {Key::enter, Key::pad_enter}) {
    if (kit.keys().take({key, ctrl})) return true;
    const bool plain = kit.keys().take({key, no_mods}, true);
    if (plain && enter_commits) return true;
    if (plain || kit.keys().take({key, shift}, true)) writing.edit.insert("\n");
  }
  return false;
}

void paint_selection(Painter& paint, const TextBlock& rows, const TextEdit& edit, ImVec2 at, Colour c) {
  for (const TextBlock::Line& line : rows.lines()) {
    if (edit.end() <= line.from || edit.begin() > line.until) continue;
    const ImVec2 from = rows.place_of(std::max(edit.begin(), line.from));
    const float until = edit.end() > line.until ? line.width : rows.place_of(edit.end()).x;
    paint.fill(
        {{at.x + from.x, at.y + from.y}, {at.x + std::max(until, from.x + 2), at.y + from.y + rows.line_height()}}, c);
  }
}

void paint_cursor(Kit& kit, Painter& paint, const TextBlock& rows, const Writing& writing, ImVec2 at) {
  if (std::fmod(kit.now() - writing.since, blink) > blink / 2) return;
  const ImVec2 cursor = rows.place_of(writing.edit.cursor());
  paint.vline(std::round(at.x + cursor.x), at.y + cursor.y, at.y + cursor.y + rows.line_height(), kit.theme().text,
              std::max(1.0F, kit.m().hair));
}

void keep_in_sight(const TextBlock& rows, std::size_t cursor, ImVec2 at) {
  const ImVec2 place = rows.place_of(cursor);
  const ImVec2 least{at.x, at.y + place.y - rows.line_height() / 2};
  ImGui::ScrollToBringRectIntoView(ImGui::GetCurrentWindow(), {least, {least.x + 1, least.y + 2 * rows.line_height()}});
}

}  // namespace

float wrapped_height(const Kit& kit, const std::string& text, const WrappedLook& look) {
  return height_for(kit, rows_of(kit, text, inner::FieldFrame::text_width(kit, look.field)), look);
}

FieldEdit wrapped_field(Kit& kit, std::string_view id, std::string& text, const WrappedLook& look) {
  FieldEdit out;
  const float width = inner::FieldFrame::text_width(kit, look.field);
  inner::FieldFrame frame(kit, look.field, wrapped_height(kit, text, look));
  out.box = frame.box();
  Focus::State focus;
  if (look.field.enabled) focus = kit.focus().enrol(id);
  kit.note(id, out.box, text, look.field.enabled, focus.has);

  Writing* writing = kit.writing(id);
  const bool arrived = focus.arrived && writing == nullptr;
  if (arrived) {
    writing = &kit.begin_writing(id, text);
    if (look.field.select_all) writing->edit.select_all();
  }
  if (writing != nullptr && writing->edit.text() != text) writing->edit = TextEdit(text);  // the page changed it

  const std::string body_id = std::string(id) + ".body";
  const Pressed body =
      area(kit, body_id, out.box, {.enabled = look.field.enabled, .by_keyboard = false, .draggable = true});
  if (body.hovered) ImGui::SetMouseCursor(ImGuiMouseCursor_TextInput);
  const ImVec2 at{frame.inside().min.x, frame.inside().min.y + air(kit)};
  const auto byte_under_mouse = [&] {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    return rows_of(kit, text, width).byte_at({mouse.x - at.x, mouse.y - at.y});
  };
  if (body.began && writing == nullptr) {
    kit.focus().move_to(id, false);
    writing = &kit.begin_writing(id, text);
    focus.has = true;
  }
  if (writing != nullptr && focus.has) {
    if (body.double_clicked) {
      writing->edit.select_word(byte_under_mouse());
    } else if (body.began || (body.held && (body.moved.x != 0 || body.moved.y != 0))) {
      writing->edit.move_to(byte_under_mouse(), !body.began || body.mods.shift);
      writing->since = kit.now();
    }
    const TextBlock rows = rows_of(kit, text, width);
    const std::size_t cursor = writing->edit.cursor();
    if (arrived) {
      ImGui::GetIO().InputQueueCharacters.resize(0);  // the letter that opened the field does not fall in
      keep_in_sight(rows, cursor, at);
    } else {
      write(kit, *writing, rows);
    }
    out.committed = !arrived && enter(kit, *writing, look.enter_commits);
    out.escaped = !out.committed && kit.keys().take({Key::escape, no_mods});
    out.left = !arrived && !out.committed && !out.escaped && ImGui::IsMouseClicked(0) && !body.hovered;
    if (out.escaped) writing->edit = TextEdit(writing->before);
    out.changed = writing->edit.text() != text;
    text = writing->edit.text();
    out.cursor = writing->edit.cursor();
    out.active = !out.committed && !out.escaped && !out.left;
    if (out.changed || cursor != out.cursor) keep_in_sight(rows_of(kit, text, width), out.cursor, at);
  } else if (writing != nullptr) {
    out.left = true;  // somebody else has the keyboard
  }

  const TextBlock rows = rows_of(kit, text, width);
  if (text.empty()) frame.hint(rows.line_height() + 2 * air(kit));
  frame.paint().clip(out.box);
  if (out.active) paint_selection(frame.paint(), rows, writing->edit, at, kit.theme().accent.faded(0.35F));
  rows.draw(frame.paint(), at, look.field.enabled ? kit.theme().text : kit.theme().faint);
  if (out.active) paint_cursor(kit, frame.paint(), rows, *writing, at);
  frame.paint().unclip();
  if (out.active) {
    kit.set_typing();
    kit.wake_in(blink / 2);
    ImGui::GetCurrentContext()->WantTextInputNextFrame = 1;
  } else if (writing != nullptr) {
    kit.end_writing(id);
    // After Enter the keyboard rests here, so that Tab goes on to the next field.
    if (!out.committed && kit.focus().is_on(id)) kit.focus().let_go();
  }
  frame.close(out.active, focus.has && focus.ring && !out.active);
  return out;
}

}  // namespace sash::desk
