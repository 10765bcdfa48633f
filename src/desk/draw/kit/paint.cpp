#include "desk/draw/kit/paint.h"

#include <algorithm>
#include <cmath>

namespace sash::desk {
namespace {

constexpr std::string_view ellipsis = "…";

ImVec2 whole(ImVec2 p) { return {std::round(p.x), std::round(p.y)}; }

}  // namespace

ImVec2 text_size(ImFont* font, std::string_view utf8) {
  return font->CalcTextSizeA(font->FontSize, FLT_MAX, 0, utf8.data(), utf8.data() + utf8.size());
}

std::string_view::size_type fitting_bytes(ImFont* font, std::string_view utf8, float width) {
  const char* rest = nullptr;
  font->CalcTextSizeA(font->FontSize, std::max(width, 0.0F), 0, utf8.data(), utf8.data() + utf8.size(), &rest);
  return static_cast<std::string_view::size_type>(rest - utf8.data());
}

void Painter::frame(const Rect& at, Colour c, float thick, float radius) {
  const float half = thick / 2;
  list_->AddRect({at.min.x + half, at.min.y + half}, {at.max.x - half, at.max.y - half}, c.packed(), radius, 0, thick);
}

void Painter::line(ImVec2 from, ImVec2 to, Colour c, float thick) { list_->AddLine(from, to, c.packed(), thick); }

void Painter::text(ImVec2 at, ImFont* font, Colour c, std::string_view utf8) {
  list_->AddText(font, font->FontSize, whole(at), c.packed(), utf8.data(), utf8.data() + utf8.size());
}

float Painter::text_in(const Rect& in, ImFont* font, Colour c, std::string_view utf8, Align align) {
  const float width = in.width();
  const float y = in.min.y + (in.height() - font->FontSize) / 2;
  ImVec2 size = text_size(font, utf8);
  if (size.x > width) {
    const float dots = text_size(font, ellipsis).x;
    if (dots > width) return 0;
    const auto shown = utf8.substr(0, fitting_bytes(font, utf8, width - dots));
    const float used = text_size(font, shown).x;
    text({in.min.x, y}, font, c, shown);
    text({in.min.x + used, y}, font, c, ellipsis);
    return used + dots;
  }
  float x = in.min.x;
  if (align == Align::centre) x += (width - size.x) / 2;
  if (align == Align::right) x += width - size.x;
  text({x, y}, font, c, utf8);
  return size.x;
}

void Painter::band(const Rect& at, Colour wash, Colour edge, float edge_width, bool no_end) {
  if (no_end) {
    const ImU32 from = wash.packed();
    const ImU32 to = wash.faded(0.15F).packed();
    list_->AddRectFilledMultiColor(at.min, at.max, from, from, to, to);
    const ImVec2 edge_max{at.min.x + edge_width, at.max.y};
    const ImU32 edge_to = edge.faded(0.2F).packed();
    list_->AddRectFilledMultiColor(at.min, edge_max, edge.packed(), edge.packed(), edge_to, edge_to);
    return;
  }
  fill(at, wash);
  fill({at.min, {at.min.x + edge_width, at.max.y}}, edge);
}

void Painter::card(const Rect& at, Colour inside, Colour border, Colour shadow, float radius) {
  constexpr int layers = 4;
  for (int i = layers; i > 0; --i) {
    const float spread = static_cast<float>(i) * 1.5F;
    fill({{at.min.x - spread, at.min.y - spread + 2}, {at.max.x + spread, at.max.y + spread + 2}},
         shadow.faded(1.0F / (layers + 1)), radius + spread);
  }
  fill(at, inside, radius);
  frame(at, border, 1, radius);
}

void Painter::hatch(const Rect& at, Colour c, float step, float thick) {
  clip(at);
  const float height = at.height();
  for (float x = at.min.x - height; x < at.max.x; x += step) {
    line({x, at.max.y}, {x + height, at.min.y}, c, thick);
  }
  unclip();
}

}  // namespace sash::desk
