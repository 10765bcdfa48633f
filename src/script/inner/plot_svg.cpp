#include "script/inner/plot_svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "script/inner/html.h"

namespace sash::script::inner {
namespace {

// All in px of the drawing, which scales as a whole.
constexpr double width = 560;
constexpr double height = 260;
constexpr double left = 62;
constexpr double right = 548;
constexpr double top = 12;
constexpr double bottom = 212;
constexpr double size = 4.5;  // half of a shape

double across(const plot::Plot& p, double x) { return left + (right - left) * p.x.share(x); }
double down(const plot::Plot& p, double y) { return bottom - (bottom - top) * p.y.share(y); }

std::string shape(plot::Shape which, double x, double y) {
  switch (which) {
    case plot::Shape::circle:
      return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{}\"/>", x, y, size);
    case plot::Shape::ring:
      return fmt::format("<circle class=\"hollow\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{}\"/>", x, y, size);
    case plot::Shape::square:
      return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{}\" height=\"{}\"/>", x - size, y - size, 2 * size,
                         2 * size);
    case plot::Shape::triangle:
      return fmt::format("<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}L{:.1f} {:.1f}Z\"/>", x, y - size, x + size, y + size,
                         x - size, y + size);
    case plot::Shape::diamond:
      return fmt::format("<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}L{:.1f} {:.1f}L{:.1f} {:.1f}Z\"/>", x, y - size - 1,
                         x + size + 1, y, x, y + size + 1, x - size - 1, y);
    case plot::Shape::cross:
      return fmt::format("<path class=\"hollow\" d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}M{:.1f} {:.1f}L{:.1f} {:.1f}\"/>",
                         x - size, y - size, x + size, y + size, x - size, y + size, x + size, y - size);
  }
  return {};
}

std::string text(double x, double y, const char* anchor, const std::string& words) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\">{}</text>", x, y, anchor, escaped(words));
}

std::string axes(const plot::Plot& p) {
  std::string out = "<g class=\"axes\">";
  for (const plot::Tick& t : p.x.ticks) {
    const double x = across(p, t.at);
    out += fmt::format("<path d=\"M{:.1f} {}V{}\"/>", x, top, bottom + 4) + text(x, bottom + 17, "middle", t.text);
  }
  for (const plot::Tick& t : p.y.ticks) {
    const double y = down(p, t.at);
    out += fmt::format("<path d=\"M{} {:.1f}H{}\"/>", left - 4, y, right) + text(left - 8, y + 4, "end", t.text);
  }
  out += text((left + right) / 2, height - 10, "middle", p.x.title());
  const double middle = (top + bottom) / 2;
  out += fmt::format("<text transform=\"translate(14 {:.1f}) rotate(-90)\" text-anchor=\"middle\">{}</text>", middle,
                     escaped(p.y.title()));
  return out + "</g>";
}

std::string curves(const plot::Plot& p) {
  std::string out;
  for (std::size_t i = 0; i < p.series.size(); ++i) {
    const plot::Series& s = p.series[i];
    out += fmt::format("<g class=\"series s{}\"><polyline points=\"", i % plot::shape_count);
    for (const plot::Point& at : s.points) out += fmt::format("{:.1f},{:.1f} ", across(p, at.x), down(p, at.y));
    out += "\"/>";
    for (const std::size_t at : plot::shaped_points(p, i)) {
      out += shape(s.shape, across(p, s.points[at].x), down(p, s.points[at].y));
    }
    out += "</g>";
  }
  return out;
}

std::string marks(const plot::Plot& p) {
  constexpr double character = 6.4;  // about, at the size of the drawing's letters
  constexpr double line = 14;
  struct Words {
    double from, until, y;
  };
  std::vector<Words> taken;
  std::string out = "<g class=\"marks\">";
  for (const plot::Mark& m : p.marks) {
    const double x = across(p, m.x);
    const double wide = character * static_cast<double>(m.text.size());
    const bool room_before = x > left + (right - left) / 4;  // most curves rise: before and above is free
    Words words{room_before ? x - 6 - wide : x + 6, room_before ? x - 6 : x + 6 + wide,
                std::max(down(p, m.y) - 8, top + 10)};
    const auto hides = [&words](const Words& other) {
      return words.from < other.until && other.from < words.until && std::abs(words.y - other.y) < line;
    };
    const double step = words.y > top + 3 * line ? -line : line;  // above where there is room, off the curve
    while (std::ranges::any_of(taken, hides) && words.y > top + line && words.y < bottom - line) words.y += step;
    taken.push_back(words);
    out += fmt::format("<path d=\"M{:.1f} {:.1f}V{}\"/>", x, down(p, m.y), bottom) +
           text(room_before ? words.until : words.from, words.y, room_before ? "end" : "start", m.text);
  }
  return out + "</g>";
}

std::string legend(const plot::Plot& p) {
  std::string out = "<div class=\"legend\">";
  for (std::size_t i = 0; i < p.series.size(); ++i) {
    out += fmt::format(
        "<span class=\"s{}\"><svg viewBox=\"0 0 26 14\" width=\"26\" height=\"14\" aria-hidden=\"true\"><g "
        "class=\"series s{}\"><polyline points=\"1,7 25,7\"/>{}</g></svg> {}</span> ",
        i % plot::shape_count, i % plot::shape_count, shape(p.series[i].shape, 13, 7), escaped(p.series[i].name));
  }
  return out + "</div>";
}

}  // namespace

std::string plot_svg(const plot::Plot& p) {
  return fmt::format("<figure class=\"plot\"><svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\">", width, height,
                     escaped(p.title + ". " + p.reading)) +
         axes(p) + curves(p) + marks(p) + "</svg>" + legend(p) + "<figcaption>" + escaped(p.reading) +
         "</figcaption></figure>";
}

}  // namespace sash::script::inner
