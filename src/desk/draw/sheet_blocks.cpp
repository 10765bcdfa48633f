#include "desk/draw/sheet_blocks.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/font_measure.h"

namespace sash::desk {
namespace {

// How the words of a figure are underlined: one pattern a family, so that tint is never the only difference.
enum class Stroke { plain, twin, dotted, dashed, wavy };

Stroke stroke_of(Family family) {
  switch (family) {
    case Family::mass:
    case Family::gas:
      return Stroke::plain;
    case Family::volume:
    case Family::energy:
      return Stroke::wavy;
    case Family::strength:
    case Family::acidity:
      return Stroke::twin;
    case Family::temperature:
    case Family::time:
    case Family::pressure:
      return Stroke::dashed;
    case Family::amount:
    case Family::share:
    case Family::ratio:
    case Family::other:
      return Stroke::dotted;
  }
  return Stroke::plain;
}

void underline(Painter& paint, float x0, float x1, float y, Stroke stroke, Colour c, float unit) {
  switch (stroke) {
    case Stroke::plain:
      paint.fill({{x0, y}, {x1, y + unit * 1.6F}}, c);
      break;
    case Stroke::twin:
      paint.fill({{x0, y - unit}, {x1, y}}, c);
      paint.fill({{x0, y + unit}, {x1, y + unit * 2}}, c);
      break;
    case Stroke::dotted:
      for (float x = x0; x < x1; x += unit * 4) paint.fill({{x, y}, {std::min(x + unit * 2, x1), y + unit * 2}}, c);
      break;
    case Stroke::dashed:
      for (float x = x0; x < x1; x += unit * 9) paint.fill({{x, y}, {std::min(x + unit * 6, x1), y + unit * 1.6F}}, c);
      break;
    case Stroke::wavy: {
      auto& list = paint.list();
      for (float x = x0; x <= x1; x += unit * 1.5F) {
        list.PathLineTo({x, y + unit * 0.5F + std::sin((x - x0) / (unit * 2)) * unit * 1.3F});
      }
      list.PathStroke(c.packed(), 0, unit * 1.4F);
      break;
    }
  }
}

float width_of(const ImFont& font, std::string_view text) { return FontMeasure(font).width(text); }

/// The part of [from, until) that lies in a row, as x from the row's left edge.
std::optional<std::pair<float, float>> part_in_row(const ImFont& font, const std::string& text, TextRow row,
                                                   std::uint32_t from, std::uint32_t until) {
  const std::uint32_t begin = std::max(from, row.begin);
  const std::uint32_t end = std::min(until, row.end);
  if (begin >= end) return std::nullopt;
  const std::string_view all = text;
  const float x0 = width_of(font, all.substr(row.begin, begin - row.begin));
  return std::pair(x0, x0 + width_of(font, all.substr(begin, end - begin)));
}

std::string_view row_text(const std::string& text, TextRow row) {
  return std::string_view(text).substr(row.begin, row.end - row.begin);
}

void select_ground(Kit& kit, Painter& paint, const Rect& at, const BlockState& state) {
  const Theme& t = kit.theme();
  if (state.selected) {
    paint.fill(at, t.selection, kit.m().radius);
  } else if (state.hovered) {
    paint.fill(at, t.raised.faded(0.55F), kit.m().radius);
  }
}

/// Rows of small text; the last is cut where it was shortened.
void small_rows(Kit& kit, Painter& paint, ImVec2 at, float width, const std::string& text,
                const std::vector<TextRow>& rows, Colour c) {
  const float line = FontMeasure(*kit.fonts().small).line_height();
  for (const TextRow row : rows) {
    paint.text_in({at, {at.x + width, at.y + line}}, kit.fonts().small, c, row_text(text, row));
    at.y += line;
  }
}

}  // namespace

void dashed_frame(Painter& paint, const Rect& at, Colour c, float dash, float thick) {
  for (float x = at.min.x; x < at.max.x; x += dash * 2) {
    const float end = std::min(x + dash, at.max.x);
    paint.fill({{x, at.min.y}, {end, at.min.y + thick}}, c);
    paint.fill({{x, at.max.y - thick}, {end, at.max.y}}, c);
  }
  for (float y = at.min.y; y < at.max.y; y += dash * 2) {
    const float end = std::min(y + dash, at.max.y);
    paint.fill({{at.min.x, y}, {at.min.x + thick, end}}, c);
    paint.fill({{at.max.x - thick, y}, {at.max.x, end}}, c);
  }
}

void draw_line(Kit& kit, Painter& paint, const Rect& at, const LineShown& line, const BlockState& state,
               std::optional<model::Words> words) {
  const Theme& t = kit.theme();
  const ImFont& font = *kit.fonts().body;
  const FontMeasure measure(font);
  const float height = measure.line_height();
  const float inset = kit.m().inset;
  const float unit = std::max(1.0F, std::round(kit.m().px(1)));
  if (state.selected || state.hovered) {
    paint.fill({{at.min.x + unit * 2, at.min.y}, {at.min.x + unit * 4, at.max.y}},
               state.selected ? t.accent : t.strong_line);
  }
  float y = at.min.y;
  if (!line.speaker.empty()) {
    const float small = FontMeasure(*kit.fonts().small).line_height();
    paint.text_in({{at.min.x + inset, y}, {at.max.x, y + small}}, kit.fonts().small_strong, t.muted, line.speaker);
    y += small;
  }
  const Colour ink = line.noise || line.dimmed ? t.faint : t.text;
  for (const TextRow row : line.rows) {
    const float x = at.min.x + inset;
    if (words && words->line == line.id) {
      if (const auto part = part_in_row(font, line.text, row, words->begin, words->begin + words->length)) {
        paint.fill({{x + part->first - unit, y}, {x + part->second + unit, y + height}}, t.accent.faded(0.32F),
                   unit * 2);
      }
    }
    paint.text({x, y + std::floor((height - font.FontSize) / 2)}, kit.fonts().body, ink, row_text(line.text, row));
    for (const WordMark& mark : line.marks) {
      if (mark.begin >= row.end) break;
      const auto part = part_in_row(font, line.text, row, mark.begin, mark.end);
      if (!part) continue;
      const Colour tint = t.of(mark.family);
      if (mark.proposed) {
        dashed_frame(paint, {{x + part->first - unit, y + unit}, {x + part->second + unit, y + height}},
                     tint.faded(0.6F), unit * 3, unit);
      }
      underline(paint, x + part->first, x + part->second, y + height - unit * 3, stroke_of(mark.family), tint, unit);
    }
    y += height;
  }
}

std::size_t line_byte_at(const Kit& kit, const LineShown& line, ImVec2 spot) {
  const FontMeasure measure(*kit.fonts().body);
  const float above = line.speaker.empty() ? 0 : FontMeasure(*kit.fonts().small).line_height();
  const float row_number = std::floor((spot.y - above) / measure.line_height());
  const auto last = static_cast<float>(line.rows.size() - 1);
  const TextRow row = line.rows[static_cast<std::size_t>(std::clamp(row_number, 0.0F, last))];
  const float x = spot.x - kit.m().inset;
  if (x <= 0) return row.begin;
  const char* begin = line.text.data() + row.begin;
  const char* end = line.text.data() + row.end;
  const char* reached = end;
  kit.fonts().body->CalcTextSizeA(kit.fonts().body->FontSize, x, 0, begin, end, &reached);
  return static_cast<std::size_t>(reached - line.text.data());
}

void draw_note(Kit& kit, Painter& paint, const Rect& at, const NoteShown& note, const BlockState& state) {
  const Theme& t = kit.theme();
  const Metrics& m = kit.m();
  const Rect box{{at.min.x + m.inset, at.min.y}, {at.max.x - m.inset, at.max.y}};
  paint.fill(box, state.selected ? t.selection : t.raised, m.radius);
  const float line = FontMeasure(*kit.fonts().small).line_height();
  const float y = box.min.y + m.gap / 2;
  draw_icon(paint, square_in({{box.min.x + m.px(4), y}, {box.min.x + m.px(4) + m.icon, y + line}}, m.px(13)),
            Icon::note, t.muted);
  small_rows(kit, paint, {box.min.x + m.icon + m.gap, y}, box.width() - m.icon - m.gap * 2, note.text, note.rows,
             t.text);
}

void draw_chapter(Kit& kit, Painter& paint, const Rect& at, const ChapterShown& chapter, const BlockState& state) {
  const Theme& t = kit.theme();
  const Metrics& m = kit.m();
  paint.fill(at, state.selected ? t.selection : t.raised);
  paint.hline(at.min.y, at.min.x, at.max.x, t.strong_line, m.hair);
  draw_icon(paint, square_in({{at.min.x + m.px(4), at.min.y}, {at.min.x + m.px(4) + m.icon, at.max.y}}, m.px(14)),
            Icon::chapter, t.accent);
  paint.text_in({{at.min.x + m.icon + m.px(10), at.min.y}, {at.max.x - m.inset, at.max.y}}, kit.fonts().strong, t.text,
                chapter.title.empty() ? "Chapter" : std::string_view(chapter.title));
}

void draw_figure(Kit& kit, Painter& paint, const Rect& at, const FigureShown& figure, const BlockState& state) {
  const Theme& t = kit.theme();
  const Metrics& m = kit.m();
  select_ground(kit, paint, at, state);
  if (figure.proposed) dashed_frame(paint, at, t.of(figure.family).faded(0.9F), m.px(4), m.hair);
  if (state.picking && state.hovered) paint.frame(at, t.accent, m.ring, m.radius);
  const float body = FontMeasure(*kit.fonts().strong).line_height();
  const float small = FontMeasure(*kit.fonts().small).line_height();
  const float top = at.min.y + m.gap / 2;
  const float left = at.min.x + m.px(5);
  draw_glyph(paint, square_in({{left, top}, {left + m.icon, top + body}}, m.px(14)), figure.family,
             t.of(figure.family));
  const float text_left = left + m.icon + m.px(4);
  float right = at.max.x - m.px(4);
  float subject_right = right;
  if (figure.verdict) {
    // Beside the value; where that is too long, beside the subject.
    const bool below =
        !figure.subject.empty() && text_size(kit.fonts().strong, figure.title).x > right - m.px(17) - text_left;
    const float y = below ? top + body : top;
    const Rect mark{{right - m.px(15), y}, {right, y + (below ? small : body)}};
    draw_mark(paint, square_in(mark, m.px(14)), *figure.verdict, t.of(*figure.verdict));
    (below ? subject_right : right) = mark.min.x - m.px(2);
  }
  const Colour ink = figure.superseded ? t.faint : figure.verdict == Verdict::conflict ? t.bad : t.text;
  const bool tight = text_size(kit.fonts().strong, figure.title).x > right - text_left;
  const float used = paint.text_in({{text_left, top}, {right, top + body}},
                                   tight ? kit.fonts().small_strong : kit.fonts().strong, ink, figure.title);
  if (figure.superseded) paint.hline(std::round(top + body / 2), text_left, text_left + used, t.faint, m.hair);
  if (!figure.subject.empty()) {
    paint.text_in({{text_left, top + body}, {subject_right, top + body + small}}, kit.fonts().small, t.muted,
                  figure.subject);
  }
}

void draw_hazard(Kit& kit, Painter& paint, const Rect& at, const HazardShown& hazard, const BlockState& state) {
  const Theme& t = kit.theme();
  const Metrics& m = kit.m();
  select_ground(kit, paint, at, state);
  if (hazard.proposed) dashed_frame(paint, at, t.of(hazard.tone).ink, m.px(4), m.hair);
  const float line = FontMeasure(*kit.fonts().small).line_height();
  const float left = at.min.x + m.px(3);
  float y = at.min.y;
  draw_sign(paint, square_in({{left, y}, {left + m.px(15), y + line}}, m.px(14)), hazard.tone, t);
  const float used = paint.text_in({{left + m.px(19), y}, {at.max.x, y + line}}, kit.fonts().small_strong,
                                   t.of(hazard.tone).ink, word_of(hazard.tone));
  if (left + m.px(19) + used + m.px(17) <= at.max.x) {
    draw_harm(paint, square_in({{at.max.x - m.px(17), y}, {at.max.x - m.px(2), y + line}}, m.px(14)), hazard.harm,
              t.muted);
  }
  y += line;
  small_rows(kit, paint, {left, y}, at.max.x - left, hazard.cause, hazard.rows, t.text);
  y += line * static_cast<float>(hazard.rows.size());
  if (!hazard.gap_rows.empty()) {
    const Rect box{{left, y + m.px(1)}, {at.max.x - m.px(2), y + line * static_cast<float>(hazard.gap_rows.size())}};
    paint.hatch(box, t.of(hazard.tone).band, m.px(6), m.px(2));
    draw_icon(paint, square_in({{left, y}, {left + m.px(15), y + line}}, m.px(12)), Icon::broken_link, t.bad);
    for (const TextRow row : hazard.gap_rows) {
      paint.text_in({{left + m.px(18), y}, {at.max.x, y + line}}, kit.fonts().small_strong, t.bad,
                    row_text(hazard.gap_words, row));
      y += line;
    }
  }
}

void draw_callout(Kit& kit, Painter& paint, const Rect& at, const CalloutShown& callout, const BlockState& state) {
  const Theme& t = kit.theme();
  const Metrics& m = kit.m();
  const SafetyColours& c = t.of(callout.tone);
  const float line = FontMeasure(*kit.fonts().small).line_height();
  const Rect head{at.min, {at.max.x, at.min.y + line}};
  paint.fill(at, state.selected ? t.selection : t.raised, m.radius * 0.6F);
  paint.fill(head, c.fill, m.radius * 0.6F);
  if (callout.proposed) {
    dashed_frame(paint, at, c.ink, m.px(4), m.hair);
  } else {
    paint.frame(at, c.fill, m.hair, m.radius * 0.6F);
  }
  const float used = paint.text_in({{head.min.x + m.px(5), head.min.y}, {head.max.x, head.max.y}},
                                   kit.fonts().small_strong, c.on, word_of(callout.tone));
  const std::string_view given = callout.tied ? callout.delivery : std::string_view("ties nothing");
  const float room = head.width() - used - m.px(14);
  if (text_size(kit.fonts().small, given).x <= room) {
    paint.text_in({{head.max.x - room - m.px(4), head.min.y}, {head.max.x - m.px(4), head.max.y}}, kit.fonts().small,
                  c.on, given, Align::right);
  }
  small_rows(kit, paint, {at.min.x + m.px(5), head.max.y + m.gap / 2}, at.width() - m.px(8), callout.text, callout.rows,
             t.text);
}

void draw_hazard_band(Kit& kit, Painter& paint, const Rect& at, const HazardShown& hazard, bool begins, bool ends) {
  const Theme& t = kit.theme();
  const Metrics& m = kit.m();
  const SafetyColours& c = t.of(hazard.tone);
  paint.band(at, c.band, c.fill, std::max(2.0F, m.px(3)), ends && hazard.open_end);
  if (hazard.gap != safety::Gap::none) paint.hatch(at, c.fill.faded(0.55F), m.px(6), m.px(2));
  if (begins) paint.hline(at.min.y, at.min.x, at.max.x, c.fill, m.px(2));
  if (ends && !hazard.open_end) paint.hline(at.max.y - m.px(2), at.min.x, at.max.x, c.fill, m.px(2));
}

}  // namespace sash::desk
