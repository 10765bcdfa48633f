#include "desk/draw/kit/plot_view.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "desk/draw/kit/area.h"
#include "desk/draw/kit/text_block.h"
#include "plot/labels.h"
#include "quantity/show.h"

namespace sash::desk {
namespace {

// Tints that are told apart on both grounds; the shapes tell them apart without colour.
Colour tint(const Theme& t, std::size_t series) {
  const std::array tints{t.accent,           t.of(Family::temperature), t.of(Family::gas),
                         t.of(Family::mass), t.of(Family::acidity),     t.of(Family::energy)};
  return tints[series % tints.size()];
}

void draw_shape(Painter& paint, plot::Shape shape, ImVec2 at, float r, Colour c, Colour ground, float thick) {
  ImDrawList& list = paint.list();
  const ImU32 ink = c.packed();
  switch (shape) {
    case plot::Shape::circle:
      list.AddCircleFilled(at, r, ink);
      return;
    case plot::Shape::ring:
      list.AddCircleFilled(at, r, ground.packed());
      list.AddCircle(at, r, ink, 0, thick);
      return;
    case plot::Shape::square:
      list.AddRectFilled({at.x - r, at.y - r}, {at.x + r, at.y + r}, ink);
      return;
    case plot::Shape::triangle:
      list.AddTriangleFilled({at.x, at.y - r * 1.15F}, {at.x + r * 1.1F, at.y + r}, {at.x - r * 1.1F, at.y + r}, ink);
      return;
    case plot::Shape::diamond:
      list.AddQuadFilled({at.x, at.y - r * 1.3F}, {at.x + r * 1.3F, at.y}, {at.x, at.y + r * 1.3F},
                         {at.x - r * 1.3F, at.y}, ink);
      return;
    case plot::Shape::cross:
      list.AddLine({at.x - r, at.y - r}, {at.x + r, at.y + r}, ink, thick);
      list.AddLine({at.x - r, at.y + r}, {at.x + r, at.y - r}, ink, thick);
      return;
  }
}

/// The frame of one drawing: where numbers stand on it.
class Drawing {
 public:
  Drawing(Kit& kit, const plot::Plot& plot, const Rect& whole) : kit_(kit), plot_(plot) {
    const float line = text_size(kit.fonts().small, "0").y;
    float widest = 0;
    for (const plot::Tick& t : plot.y.ticks) widest = std::max(widest, text_size(kit.fonts().small, t.text).x);
    const Metrics& m = kit.m();
    field_ = {{whole.min.x + std::ceil(widest) + m.px(8), whole.min.y + line + m.px(4)},
              {whole.max.x - m.px(8), whole.max.y - 2 * line - m.px(10)}};
    whole_ = whole;
    line_ = line;
  }

  const Rect& field() const { return field_; }
  float x(double v) const { return field_.min.x + field_.width() * static_cast<float>(plot_.x.share(v)); }
  float y(double v) const { return field_.max.y - field_.height() * static_cast<float>(plot_.y.share(v)); }

  void axes(Painter& paint) const {
    const Theme& t = kit_.theme();
    const Metrics& m = kit_.m();
    ImFont* font = kit_.fonts().small;
    paint.fill(field_, t.sunken.faded(0.5F));
    float free_from = -1e9F;
    for (const plot::Tick& tick : plot_.x.ticks) {
      const float at = std::round(x(tick.at));
      paint.vline(at, field_.min.y, field_.max.y + m.px(3), t.line, m.hair);
      const float wide = text_size(font, tick.text).x;
      if (at - wide / 2 < free_from) continue;  // narrow panes leave every other number out
      paint.text({std::round(at - wide / 2), field_.max.y + m.px(4)}, font, t.muted, tick.text);
      free_from = at + wide / 2 + m.px(6);
    }
    for (const plot::Tick& tick : plot_.y.ticks) {
      const float at = std::round(y(tick.at));
      paint.hline(at, field_.min.x - m.px(3), field_.max.x, t.line, m.hair);
      const float wide = text_size(font, tick.text).x;
      paint.text({field_.min.x - m.px(6) - wide, std::round(at - line_ / 2)}, font, t.muted, tick.text);
    }
    paint.text({whole_.min.x, whole_.min.y}, font, t.muted, plot_.y.title());
    paint.text_in({{field_.min.x, whole_.max.y - line_ - m.px(2)}, {field_.max.x, whole_.max.y}}, font, t.muted,
                  plot_.x.title(), Align::right);
  }

  void curves(Painter& paint) const {
    const Metrics& m = kit_.m();
    paint.clip({{field_.min.x - m.px(6), field_.min.y - m.px(6)}, {field_.max.x + m.px(6), field_.max.y + m.px(6)}});
    for (std::size_t i = 0; i < plot_.series.size(); ++i) {
      const plot::Series& s = plot_.series[i];
      const Colour c = tint(kit_.theme(), i);
      std::vector<ImVec2> line;
      for (const plot::Point& p : s.points) line.push_back({x(p.x), y(p.y)});
      paint.list().AddPolyline(line.data(), static_cast<int>(line.size()), c.packed(), ImDrawFlags_None, m.px(1.6F));
      for (const std::size_t at : plot::shaped_points(plot_, i)) {
        draw_shape(paint, s.shape, line[at], m.px(4), c, kit_.theme().panel, m.px(1.6F));
      }
    }
    paint.unclip();
  }

  void marks(Painter& paint) const {
    const Theme& t = kit_.theme();
    const Metrics& m = kit_.m();
    std::vector<plot::WordsSize> sizes;
    for (const plot::Mark& mark : plot_.marks) sizes.push_back({text_size(kit_.fonts().small, mark.text).x, line_});
    const plot::Box over{field_.min.x, field_.min.y, field_.max.x, field_.max.y};
    const std::vector<plot::Label> labels = plot::place_labels(plot_, over, sizes, m.px(9));
    for (std::size_t i = 0; i < plot_.marks.size(); ++i) {
      const plot::Mark& mark = plot_.marks[i];
      const ImVec2 at{x(mark.x), y(mark.y)};
      for (float down = at.y; down < field_.max.y; down += m.px(6)) {
        paint.vline(at.x, down, std::min(down + m.px(3), field_.max.y), t.text, m.hair);
      }
      paint.list().AddCircle(at, m.px(6), t.text.packed(), 0, m.px(1.2F));
      const auto& box = labels[i].at;
      const Rect words{{static_cast<float>(box.left), static_cast<float>(box.top)},
                       {static_cast<float>(box.right), static_cast<float>(box.bottom)}};
      if (labels[i].away) {
        const ImVec2 nearest{std::clamp(at.x, words.min.x, words.max.x), std::clamp(at.y, words.min.y, words.max.y)};
        paint.line(at, nearest, t.muted, m.hair);
      }
      paint.fill({{words.min.x - m.px(2), words.min.y}, {words.max.x + m.px(2), words.max.y}}, t.panel.faded(0.75F),
                 m.radius);
      paint.text({std::round(words.min.x), std::round(words.min.y)}, kit_.fonts().small, t.text, mark.text);
    }
  }

  void reading(Painter& paint, double share) const {
    const Theme& t = kit_.theme();
    const Metrics& m = kit_.m();
    const double at = plot_.x.low + (plot_.x.high - plot_.x.low) * share;
    paint.vline(x(at), field_.min.y, field_.max.y, t.accent, m.px(1));
    for (std::size_t i = 0; i < plot_.series.size(); ++i) {
      const auto value = value_at(plot_.series[i], at);
      if (value) paint.list().AddCircleFilled({x(at), y(*value)}, m.px(2.5F), t.text.packed());
    }
  }

 private:
  Kit& kit_;
  const plot::Plot& plot_;
  Rect whole_;
  Rect field_;
  float line_ = 0;
};

// One line for each series: its line and shape, its name, and its value where the reading line stands.
void legend(Kit& kit, const plot::Plot& plot, std::optional<double> reading) {
  const Theme& t = kit.theme();
  const Metrics& m = kit.m();
  ImFont* font = kit.fonts().small;
  const float line = text_size(font, "0").y + m.px(2);
  const auto x = reading ? std::optional(plot.x.low + (plot.x.high - plot.x.low) * *reading) : std::nullopt;
  if (x) {
    const Rect at = take_place({ImGui::GetContentRegionAvail().x, line});
    Painter().text_in(at, kit.fonts().small_strong, t.accent, "at " + quantity::show_with_unit(*x, plot.x.unit, 3));
  }
  for (std::size_t i = 0; i < plot.series.size(); ++i) {
    const plot::Series& s = plot.series[i];
    const Rect at = take_place({ImGui::GetContentRegionAvail().x, line});
    Painter paint;
    const float middle = at.centre().y;
    paint.line({at.min.x, middle}, {at.min.x + m.px(24), middle}, tint(t, i), m.px(1.6F));
    draw_shape(paint, s.shape, {at.min.x + m.px(12), middle}, m.px(4), tint(t, i), t.panel, m.px(1.6F));
    float right = at.max.x;
    if (x) {
      const auto value = value_at(s, *x);
      const std::string words = value ? quantity::show_with_unit(*value, plot.y.unit, 3) : "none";
      right -= text_size(font, words).x + m.px(6);
      paint.text_in({{right, at.min.y}, {at.max.x + 1, at.max.y}}, font, t.text, words);
    }
    paint.text_in({{at.min.x + m.px(30), at.min.y}, {right, at.max.y}}, font, t.text, s.name);
  }
}

}  // namespace

std::optional<double> value_at(const plot::Series& series, double x) {
  const auto& points = series.points;
  if (points.empty() || x < points.front().x || x > points.back().x) return std::nullopt;
  const auto after = std::ranges::lower_bound(points, x, {}, &plot::Point::x);
  if (after == points.begin()) return after->y;
  const plot::Point& before = *(after - 1);
  const double wide = after->x - before.x;
  return wide > 0 ? before.y + (after->y - before.y) * (x - before.x) / wide : after->y;
}

void plot_view(Kit& kit, std::string_view id, const plot::Plot& plot, std::optional<double>& reading) {
  const Metrics& m = kit.m();
  const float wide = ImGui::GetContentRegionAvail().x;
  const Rect at = take_place({wide, std::clamp(wide * 0.62F, m.px(150), m.px(300))});
  const Pressed p = area(kit, id, at, {.label = plot.reading});
  const Drawing drawing(kit, plot, at);
  if (p.hovered) {
    const float across = (at.min.x + p.mouse.x - drawing.field().min.x) / std::max(drawing.field().width(), 1.0F);
    reading = std::clamp(static_cast<double>(across), 0.0, 1.0);
  } else if (!p.focused) {
    reading.reset();
  }
  if (p.focused) {
    constexpr double step = 1.0 / 40;
    if (kit.keys().take({Key::right, no_mods}, true)) reading = std::min(1.0, reading.value_or(-step) + step);
    if (kit.keys().take({Key::left, no_mods}, true)) reading = std::max(0.0, reading.value_or(1 + step) - step);
  }
  Painter paint;
  drawing.axes(paint);
  if (reading) drawing.reading(paint, *reading);
  drawing.curves(paint);
  drawing.marks(paint);
  legend(kit, plot, reading);
}

}  // namespace sash::desk
