#include "demo/apparatus.h"

#include <array>
#include <cmath>
#include <numbers>

namespace sash::demo {
namespace {

constexpr double width = 1280;
constexpr double height = 720;
constexpr double beaker_width = 220;
constexpr double beaker_height = 250;

constexpr Colour glass{0.62, 0.74, 0.80, 0.75};
constexpr Colour dark{0.13, 0.15, 0.17};
constexpr Colour steel{0.62, 0.65, 0.68};

// A number from 0 to 1 that is always the same for the same two: for bubbles and fume without a random generator.
double scatter(int a, int b) {
  const double s = std::sin(a * 127.1 + b * 311.7) * 43758.5453;
  return s - std::floor(s);
}

double top_of(const Beaker& b) { return b.floor - beaker_height; }

}  // namespace

void draw_bench(Pen& pen, bool in_hood) {
  if (in_hood) {
    pen.shade({0.78, 0.80, 0.79}, {0.69, 0.71, 0.70});
    for (double x = 40; x < width; x += 150) pen.line(x, 60, x, 560, {0.62, 0.64, 0.63}, 2);
    pen.box(0, 0, width, 74, {0.33, 0.37, 0.40});
    pen.box(0, 74, width, 10, {0.20, 0.23, 0.25});
    pen.text(28, 48, "FUME HOOD", 22, {0.80, 0.84, 0.86}, true);
    pen.box(1000, 22, 240, 30, {0.16, 0.30, 0.22}, 6);
    pen.text(1120, 44, "AIRFLOW NORMAL", 18, {0.55, 0.90, 0.62}, true, true);
  } else {
    pen.shade({0.91, 0.90, 0.87}, {0.83, 0.81, 0.77});
  }
  pen.box(0, 560, width, height - 560, {0.24, 0.25, 0.27});
  pen.box(0, 560, width, 8, {0.36, 0.37, 0.39});
}

void draw_beaker(Pen& pen, const Beaker& b) {
  const double left = b.x - beaker_width / 2;
  const double inner = beaker_height - 14;
  if (b.level > 0) {
    const double h = inner * b.level;
    pen.box(left + 6, b.floor - 6 - h, beaker_width - 12, h, b.liquid, 10);
    pen.box(left + 6, b.floor - 6 - h, beaker_width - 12, 4, mix(b.liquid, {1, 1, 1, b.liquid.a}, 0.35));
  }
  if (b.settled > 0)
    pen.box(left + 8, b.floor - 8 - inner * b.settled, beaker_width - 16, inner * b.settled, b.solid, 9);
  pen.frame(left, top_of(b), beaker_width, beaker_height, glass, 6, 14);
  pen.line(left - 8, top_of(b) + 2, left + beaker_width + 8, top_of(b) + 2, glass, 7);
  for (int i = 1; i <= 4; ++i) {
    const double y = b.floor - 6 - inner * 0.2 * i;
    pen.line(left + 18, y, left + 44, y, {0.20, 0.30, 0.36, 0.7}, 2);
    pen.text(left + 50, y + 5, std::to_string(i * 25), 14, {0.20, 0.30, 0.36, 0.8});
  }
  pen.box(left + beaker_width - 30, top_of(b) + 18, 8, beaker_height - 50, {1, 1, 1, 0.18}, 4);
}

void draw_bubbles(Pen& pen, const Beaker& b, double t, double many, Colour colour) {
  const double h = (beaker_height - 14) * b.level;
  for (int i = 0; i < static_cast<int>(60 * many); ++i) {
    const double rise = std::fmod(t * (0.35 + 0.5 * scatter(i, 1)) + scatter(i, 2), 1.0);
    const double x = b.x - beaker_width / 2 + 20 + scatter(i, 3) * (beaker_width - 40) + 4 * std::sin(t * 5 + i);
    pen.disc(x, b.floor - 12 - rise * (h - 8), 2 + 4 * scatter(i, 4) * (0.4 + rise), colour);
  }
}

void draw_fume(Pen& pen, const Beaker& b, double t, double thick, Colour colour) {
  for (int i = 0; i < 34; ++i) {
    const double rise = std::fmod(t * (0.10 + 0.08 * scatter(i, 11)) + scatter(i, 12), 1.0);
    const double x = b.x + (scatter(i, 13) - 0.5) * beaker_width * (0.8 + 1.4 * rise) + 22 * std::sin(t * 0.9 + i);
    const double y = top_of(b) + 70 - rise * 300;
    Colour c = colour;
    c.a = 0.30 * thick * (1 - rise);
    pen.cloud(x, y, 40 + 70 * rise, c);
  }
}

void draw_bottle(Pen& pen, const Beaker& b, const std::string& label, const std::string& strength, double tip,
                 bool pouring, Colour contents) {
  const double x = b.x + 250 - 70 * tip;
  const double y = top_of(b) - 40;
  if (pouring) pen.line(b.x + 38, top_of(b) - 46, b.x + 26, b.floor - 14 - (beaker_height - 14) * b.level, contents, 7);
  pen.turn_about(x, y, -1.25 * tip);
  pen.box(x - 62, y - 60, 124, 210, {0.36, 0.22, 0.10, 0.92}, 18);
  pen.box(x - 22, y - 120, 44, 66, {0.36, 0.22, 0.10, 0.92}, 6);
  pen.box(x - 55, y - 10, 110, 104, {0.97, 0.96, 0.91}, 4);
  pen.text(x, y + 30, label, 20, dark, true, true);
  pen.text(x, y + 58, strength, 18, dark, false, true);
  pen.box(x - 48, y + 70, 96, 16, {0.85, 0.16, 0.13}, 3);
  pen.text(x, y + 83, "CORROSIVE", 12, {1, 1, 1}, true, true);
  pen.plain();
}

void draw_wire(Pen& pen, double x, double y, double left) {
  const int turns = static_cast<int>(std::ceil(9 * left));
  for (int i = 0; i < turns; ++i) {
    const double cx = x - 52 + i * 13;
    pen.line(cx, y, cx + 16, y - 30, {0.78, 0.44, 0.22, 0.5 + 0.5 * left}, 5 * (0.4 + 0.6 * left));
    pen.line(cx + 16, y - 30, cx + 13, y, {0.65, 0.34, 0.16, 0.5 + 0.5 * left}, 5 * (0.4 + 0.6 * left));
  }
}

void draw_balance(Pen& pen, const std::string& grams, Colour heap, double heap_size) {
  pen.box(380, 400, 520, 160, {0.90, 0.91, 0.90}, 22);
  pen.box(380, 400, 520, 10, {0.98, 0.98, 0.97}, 5);
  pen.box(510, 360, 260, 16, steel, 8);
  pen.box(626, 372, 28, 30, {0.45, 0.47, 0.50});
  pen.box(560, 344, 160, 16, {0.80, 0.86, 0.90, 0.9}, 8);
  for (int i = 0; i < 14; ++i) {
    const double x = 640 + (scatter(i, 21) - 0.5) * 110 * heap_size;
    const double y = 342 - scatter(i, 22) * 26 * heap_size * (1 - std::abs(x - 640) / 90);
    pen.disc(x, y, 7 + 5 * scatter(i, 23), heap);
  }
  pen.box(470, 436, 300, 88, {0.66, 0.74, 0.62}, 8);
  pen.frame(470, 436, 300, 88, {0.30, 0.32, 0.30}, 4, 8);
  pen.readout(722, 452, grams, 54, {0.08, 0.11, 0.08}, {0.61, 0.69, 0.57});
  pen.text(732, 506, "g", 30, {0.08, 0.11, 0.08}, true);
  pen.disc(830, 480, 20, {0.75, 0.76, 0.76});
  pen.text(830, 530, "TARE", 14, {0.35, 0.36, 0.36}, true, true);
}

void draw_hot_plate(Pen& pen, const Beaker& b, bool hot, const std::string& celsius) {
  pen.box(b.x - 170, b.floor, 340, 22, hot ? Colour{0.50, 0.30, 0.26} : Colour{0.45, 0.46, 0.48}, 5);
  pen.box(b.x - 190, b.floor + 22, 380, 70, {0.86, 0.87, 0.88}, 10);
  pen.box(b.x - 120, b.floor + 36, 150, 44, {0.10, 0.12, 0.13}, 5);
  pen.readout(b.x + 18, b.floor + 43, celsius, 28, {0.98, 0.45, 0.20}, {0.18, 0.17, 0.16});
  pen.text(b.x + 44, b.floor + 66, "°C", 20, dark, true);
  pen.disc(b.x + 120, b.floor + 57, 9, hot ? Colour{0.95, 0.22, 0.12} : Colour{0.45, 0.20, 0.18});
  if (hot) pen.text(b.x + 138, b.floor + 64, "HOT", 16, {0.72, 0.12, 0.08}, true);
}

void draw_oven(Pen& pen, const std::string& celsius) {
  pen.box(380, 190, 520, 372, {0.80, 0.81, 0.82}, 14);
  pen.box(420, 236, 440, 240, {0.19, 0.15, 0.13}, 8);
  pen.box(440, 400, 400, 6, steel);
  pen.box(600, 376, 90, 22, {0.86, 0.92, 0.95, 0.8}, 6);
  pen.box(612, 370, 66, 12, {0.62, 0.28, 0.16}, 5);
  for (int i = 0; i < 5; ++i) pen.cloud(480 + i * 80, 460, 60, {0.95, 0.45, 0.15, 0.20});
  pen.box(560, 496, 170, 48, {0.10, 0.12, 0.13}, 5);
  pen.readout(700, 504, celsius, 32, {0.98, 0.45, 0.20}, {0.18, 0.17, 0.16});
  pen.text(742, 530, "°C", 22, dark, true);
  pen.text(640, 224, "DRYING OVEN", 20, dark, true, true);
}

void draw_waste_jar(Pen& pen, double level) {
  pen.box(540, 250, 200, 310, {0.86, 0.92, 0.95, 0.35}, 26);
  pen.box(550, 550 - 240 * level, 180, 240 * level, {0.70, 0.80, 0.84, 0.8}, 18);
  pen.frame(540, 250, 200, 310, glass, 6, 26);
  pen.box(570, 216, 140, 40, {0.80, 0.20, 0.16}, 8);
  pen.box(556, 360, 168, 120, {0.98, 0.83, 0.22}, 6);
  pen.text(640, 394, "METAL WASTE", 18, dark, true, true);
  pen.text(640, 422, "zinc, copper,", 16, dark, false, true);
  pen.text(640, 444, "sulfates, acid", 16, dark, false, true);
  pen.text(640, 470, "do not pour away", 14, dark, true, true);
}

void draw_cycle(Pen& pen, double share) {
  constexpr std::array<const char*, 5> names{"Cu", "Cu(NO₃)₂", "Cu(OH)₂", "CuO", "CuSO₄"};
  constexpr std::array<Colour, 5> tints{
      {{0.72, 0.38, 0.18}, {0.16, 0.50, 0.62}, {0.36, 0.62, 0.86}, {0.12, 0.12, 0.13}, {0.12, 0.36, 0.74}}};
  pen.shade({0.12, 0.15, 0.18}, {0.07, 0.08, 0.10});
  pen.text(640, 100, "The copper cycle", 52, {0.95, 0.93, 0.88}, true, true);
  constexpr double radius = 210;
  const auto place = [](double i) {
    const double angle = -std::numbers::pi / 2 + i * 2 * std::numbers::pi / 5;
    return std::pair(640 + radius * 1.35 * std::cos(angle), 400 + radius * std::sin(angle));
  };
  const double drawn = share * 5;
  for (double i = 0; i < drawn; i += 0.05) {
    const auto [x0, y0] = place(i);
    const auto [x1, y1] = place(std::min(i + 0.05, drawn));
    pen.line(x0, y0, x1, y1, {0.55, 0.58, 0.60}, 4);
  }
  for (int i = 0; i < 5; ++i) {
    if (i > drawn) break;
    const auto [x, y] = place(i);
    pen.box(x - 92, y - 32, 184, 64, tints[static_cast<std::size_t>(i)], 14);
    pen.text(x, y + 11, names[static_cast<std::size_t>(i)], 30, {1, 1, 1}, true, true);
  }
}

}  // namespace sash::demo
