#include "desk/draw/sheet_grips.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/sheet_blocks.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

constexpr float reach = 5;  // pixels at scale one to either side of an end that still take it

}  // namespace

Rect Grips::band(const HazardShown& hazard) const {
  const float lane = SheetSizes::of(m()).lane;
  const float left = at_.min.x + shown_.columns.safety.x + m().px(2) + lane * static_cast<float>(hazard.lane);
  const float top = y(hazard.span.from);
  return {{left, top}, {left + lane - m().px(2), std::max(y(hazard.span.until), top + m().px(6))}};
}

std::optional<Grips::Bracket> Grips::bracket() const {
  const auto& thing = frame_.selection.thing;
  if (!thing || frame_.selection.words || std::holds_alternative<model::LineId>(*thing)) return std::nullopt;
  const auto place = place_of(frame_.view.record, *thing);
  if (!place || !place->until) return std::nullopt;
  return Bracket{*thing, shown_.film.stretch(*place)};
}

std::optional<PinGrip> Grips::end_at(ImVec2 spot) const {
  const float slack = m().px(reach);
  const auto near = [&](float edge) { return std::abs(spot.y - edge) <= slack; };
  if (const auto selected = bracket(); selected && spot.x >= right() - m().px(18) && spot.x <= right()) {
    if (near(y(selected->span.until))) return PinGrip{selected->thing, PinPart::end, {}};
    if (near(y(selected->span.from))) return PinGrip{selected->thing, PinPart::start, {}};
  }
  const Moment from = shown_.elastic.at(top_ + static_cast<double>(spot.y - slack - at_.min.y));
  const Moment until = shown_.elastic.at(top_ + static_cast<double>(spot.y + slack - at_.min.y));
  for (const std::uint32_t i : shown_.hazard_spans.over(from, until)) {
    const HazardShown& hazard = shown_.hazards[i];
    const Rect lane = band(hazard);
    if (spot.x < lane.min.x - m().px(1) || spot.x > lane.max.x + m().px(1)) continue;
    if (!hazard.open_end && near(lane.max.y)) return PinGrip{hazard.id, PinPart::end, {}};
    if (near(lane.min.y)) return PinGrip{hazard.id, PinPart::start, {}};
  }
  return std::nullopt;
}

std::optional<model::HazardId> Grips::band_at(ImVec2 spot) const {
  const Moment film = shown_.elastic.at(top_ + static_cast<double>(spot.y - at_.min.y));
  for (const std::uint32_t i : shown_.hazard_spans.over(film, film + Moment::millis(1))) {
    if (band(shown_.hazards[i]).holds(spot)) return shown_.hazards[i].id;
  }
  return std::nullopt;
}

bool Grips::on_line_edge(const Rect& line, ImVec2 spot) const {
  return line.holds(spot) && spot.x < line.min.x + m().px(7);
}

void Grips::paint_selected(Painter& paint) const {
  const auto selected = bracket();
  if (!selected) return;
  const Theme& t = kit_.theme();
  const float x = right() - m().px(3);
  const float top = y(selected->span.from);
  const float bottom = y(selected->span.until);
  paint.vline(x, top, bottom, t.accent, m().px(2));
  const auto end = [&](std::string_view id, float edge) {
    const Rect bar{{right() - m().px(15), edge - m().px(2)}, {right(), edge + m().px(2)}};
    paint.fill(bar, t.accent, m().px(2));
    kit_.note(id, bar);
  };
  end("sheet.span.start", top);
  end("sheet.span.end", bottom);
}

void Grips::time_line(Painter& paint, Moment film, float thick) const {
  const Theme& t = kit_.theme();
  const float at = std::round(y(film));
  paint.hline(at, at_.min.x + shown_.columns.scale.right(), right(), t.accent, thick);
  const std::string words = clock_text(film);
  const ImVec2 size = text_size(kit_.fonts().small_digits, words);
  const Rect flag{{right() - size.x - m().px(14), at - size.y / 2 - m().px(2)},
                  {right() - m().px(2), at + size.y / 2 + m().px(2)}};
  paint.fill(flag, t.accent, m().px(3));
  paint.text_in(flag, kit_.fonts().small_digits, t.on_accent, words, Align::centre);
}

void Grips::paint_dragged(Painter& paint, const PinGrip& grip, const model::Place& place) const {
  const Stretch span = shown_.film.stretch(place);
  const Theme& t = kit_.theme();
  if (place.until) {
    const Rect wash{{at_.min.x + shown_.columns.scale.right(), y(span.from)}, {right(), y(span.until)}};
    paint.fill(wash, t.accent.faded(0.10F));
  }
  const bool end_moves = grip.part == PinPart::end;
  if (place.until) time_line(paint, end_moves ? span.from : span.until, m().hair);
  time_line(paint, end_moves ? span.until : span.from, m().px(1.5F));
}

}  // namespace sash::desk
