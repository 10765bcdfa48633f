#include "demo/pen.h"

#include <cairo.h>

#include <array>
#include <cmath>
#include <numbers>

namespace sash::demo {

Colour mix(Colour from, Colour to, double share) {
  const double s = share < 0 ? 0 : share > 1 ? 1 : share;
  const auto between = [s](double a, double b) { return a + (b - a) * s; };
  return {between(from.r, to.r), between(from.g, to.g), between(from.b, to.b), between(from.a, to.a)};
}

Pen::Pen(int width, int height)
    : surface_(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height)), cairo_(cairo_create(surface_)) {
  cairo_save(cairo_);
}

Pen::~Pen() {
  cairo_destroy(cairo_);
  cairo_surface_destroy(surface_);
}

const unsigned char* Pen::pixels() {
  cairo_surface_flush(surface_);
  return cairo_image_surface_get_data(surface_);
}

int Pen::stride() const { return cairo_image_surface_get_stride(surface_); }

void Pen::fill_all(Colour c) {
  cairo_set_source_rgb(cairo_, c.r, c.g, c.b);
  cairo_paint(cairo_);
}

void Pen::shade(Colour top, Colour bottom) {
  cairo_pattern_t* fade = cairo_pattern_create_linear(0, 0, 0, cairo_image_surface_get_height(surface_));
  cairo_pattern_add_color_stop_rgb(fade, 0, top.r, top.g, top.b);
  cairo_pattern_add_color_stop_rgb(fade, 1, bottom.r, bottom.g, bottom.b);
  cairo_set_source(cairo_, fade);
  cairo_paint(cairo_);
  cairo_pattern_destroy(fade);
}

void Pen::outline(double x, double y, double w, double h, double round) {
  cairo_new_path(cairo_);
  if (round <= 0) {
    cairo_rectangle(cairo_, x, y, w, h);
    return;
  }
  constexpr double quarter = std::numbers::pi / 2;
  cairo_arc(cairo_, x + w - round, y + round, round, -quarter, 0);
  cairo_arc(cairo_, x + w - round, y + h - round, round, 0, quarter);
  cairo_arc(cairo_, x + round, y + h - round, round, quarter, 2 * quarter);
  cairo_arc(cairo_, x + round, y + round, round, 2 * quarter, 3 * quarter);
  cairo_close_path(cairo_);
}

void Pen::box(double x, double y, double w, double h, Colour c, double round) {
  outline(x, y, w, h, round);
  cairo_set_source_rgba(cairo_, c.r, c.g, c.b, c.a);
  cairo_fill(cairo_);
}

void Pen::frame(double x, double y, double w, double h, Colour c, double line, double round) {
  outline(x, y, w, h, round);
  cairo_set_source_rgba(cairo_, c.r, c.g, c.b, c.a);
  cairo_set_line_width(cairo_, line);
  cairo_stroke(cairo_);
}

void Pen::disc(double x, double y, double radius, Colour c) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, x, y, radius, 0, 2 * std::numbers::pi);
  cairo_set_source_rgba(cairo_, c.r, c.g, c.b, c.a);
  cairo_fill(cairo_);
}

void Pen::cloud(double x, double y, double radius, Colour c) {
  cairo_pattern_t* soft = cairo_pattern_create_radial(x, y, 0, x, y, radius);
  cairo_pattern_add_color_stop_rgba(soft, 0, c.r, c.g, c.b, c.a);
  cairo_pattern_add_color_stop_rgba(soft, 1, c.r, c.g, c.b, 0);
  cairo_set_source(cairo_, soft);
  cairo_arc(cairo_, x, y, radius, 0, 2 * std::numbers::pi);
  cairo_fill(cairo_);
  cairo_pattern_destroy(soft);
}

void Pen::line(double x0, double y0, double x1, double y1, Colour c, double width) {
  cairo_new_path(cairo_);
  cairo_move_to(cairo_, x0, y0);
  cairo_line_to(cairo_, x1, y1);
  cairo_set_source_rgba(cairo_, c.r, c.g, c.b, c.a);
  cairo_set_line_width(cairo_, width);
  cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_ROUND);
  cairo_stroke(cairo_);
}

void Pen::text(double x, double y, const std::string& words, double size, Colour c, bool bold, bool middle) {
  cairo_select_font_face(cairo_, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                         bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(cairo_, size);
  if (middle) {
    cairo_text_extents_t extents;
    cairo_text_extents(cairo_, words.c_str(), &extents);
    x -= extents.x_advance / 2;
  }
  cairo_move_to(cairo_, x, y);
  cairo_set_source_rgba(cairo_, c.r, c.g, c.b, c.a);
  cairo_show_text(cairo_, words.c_str());
}

void Pen::readout(double right, double y, const std::string& digits, double height, Colour on, Colour off) {
  // Segments a to g of 0 to 9: a top, b and c right, d bottom, e and f left, g middle.
  constexpr std::array<unsigned, 10> lit{0b0111111, 0b0000110, 0b1011011, 0b1001111, 0b1100110,
                                         0b1101101, 0b1111101, 0b0000111, 0b1111111, 0b1101111};
  const double w = height * 0.5;
  const double t = height * 0.1;
  double x = right;
  for (auto it = digits.rbegin(); it != digits.rend(); ++it) {
    if (*it == '.') {
      x -= 1.6 * t;
      disc(x + 0.6 * t, y + height - t / 2, 0.7 * t, on);
      continue;
    }
    x -= w + 2.2 * t;
    const unsigned segments = *it >= '0' && *it <= '9' ? lit[static_cast<std::size_t>(*it - '0')] : 0;
    const auto stroke = [&](int bit, double x0, double y0, double x1, double y1) {
      line(x + x0, y + y0, x + x1, y + y1, ((segments >> bit) & 1U) != 0 ? on : off, t);
    };
    const double m = height / 2;
    stroke(0, t, 0, w - t, 0);
    stroke(1, w, t, w, m - t);
    stroke(2, w, m + t, w, height - t);
    stroke(3, t, height, w - t, height);
    stroke(4, 0, m + t, 0, height - t);
    stroke(5, 0, t, 0, m - t);
    stroke(6, t, m, w - t, m);
  }
}

void Pen::turn_about(double x, double y, double radians) {
  cairo_translate(cairo_, x, y);
  cairo_rotate(cairo_, radians);
  cairo_translate(cairo_, -x, -y);
}

void Pen::plain() { cairo_identity_matrix(cairo_); }

}  // namespace sash::demo
