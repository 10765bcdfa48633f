#pragma once
// Pen: the few strokes the demo's pictures are drawn with, over cairo. Not for the desk or the script. One thread a
// pen.

#include <memory>
#include <string>

typedef struct _cairo cairo_t;
typedef struct _cairo_surface cairo_surface_t;

namespace sash::demo {

struct Colour {
  double r = 0, g = 0, b = 0, a = 1;
};

/// Between `from` (share 0) and `to` (share 1).
Colour mix(Colour from, Colour to, double share);

class Pen {
 public:
  Pen(int width, int height);
  ~Pen();
  Pen(const Pen&) = delete;
  Pen& operator=(const Pen&) = delete;

  const unsigned char* pixels();  ///< rows of B, G, R, unused
  int stride() const;

  void fill_all(Colour c);
  void shade(Colour top, Colour bottom);  ///< the whole picture, from top to bottom
  void box(double x, double y, double w, double h, Colour c, double round = 0);
  void frame(double x, double y, double w, double h, Colour c, double line, double round = 0);
  void disc(double x, double y, double radius, Colour c);
  void cloud(double x, double y, double radius, Colour c);  ///< soft-edged disc
  void line(double x0, double y0, double x1, double y1, Colour c, double width);
  /// Text with its baseline starting at (x, y); `middle` centres it on x instead.
  void text(double x, double y, const std::string& words, double size, Colour c, bool bold = false,
            bool middle = false);
  /// Seven-segment digits, right-aligned at `right`, `height` tall, top at `y`.
  void readout(double right, double y, const std::string& digits, double height, Colour on, Colour off);
  void turn_about(double x, double y, double radians);  ///< until plain()
  void plain();

 private:
  void outline(double x, double y, double w, double h, double round);
  cairo_surface_t* surface_;
  cairo_t* cairo_;
};

}  // namespace sash::demo
