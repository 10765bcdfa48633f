#include "script/inner/plot_svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "plot/labels.h"
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

// About how wide words are at the size of the drawing's letters.
plot::WordsSize size_of(const std::string& words) {
  const auto characters = std::ranges::count_if(words, [](char c) { return (c & 0xC0) != 0x80; });
  return {6.4 * static_cast<double>(characters), 14};
}

std::string marks(const plot::Plot& p) {
  std::vector<plot::WordsSize> sizes;
  for (const plot::Mark& m : p.marks) sizes.push_back(size_of(m.text));
  const auto labels = plot::place_labels(p, {left, top, right, bottom}, sizes, 8);
  std::string out = "<g class=\"marks\">";
  for (std::size_t i = 0; i < p.marks.size(); ++i) {
    const double x = across(p, p.marks[i].x);
    const double y = down(p, p.marks[i].y);
    const plot::Box& box = labels[i].at;
    out += fmt::format("<path d=\"M{:.1f} {:.1f}V{}\"/>", x, y, bottom);
    if (labels[i].away) {
      out += fmt::format("<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\"/>", x, y, std::clamp(x, box.left, box.right),
                         std::clamp(y, box.top, box.bottom));
    }
    out += text((box.left + box.right) / 2, box.bottom - 3, "middle", p.marks[i].text);
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
