#include "plot/labels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "support/check.h"

namespace sash::plot {
namespace {

struct Spot {
  double x = 0;
  double y = 0;
};

// Whether any of the way from `a` to `b` lies in the box (Liang and Barsky's clipping).
bool crosses(const Box& box, Spot a, Spot b) {
  double from = 0;
  double until = 1;
  const auto cut = [&](double way, double room) {
    if (way == 0) return room >= 0;
    const double at = room / way;
    if (way < 0) {
      from = std::max(from, at);
    } else {
      until = std::min(until, at);
    }
    return from <= until;
  };
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  return cut(-dx, a.x - box.left) && cut(dx, box.right - a.x) && cut(-dy, a.y - box.top) && cut(dy, box.bottom - a.y);
}

class Placing {
 public:
  Placing(const Plot& plot, const Box& field, double off) : field_(field), off_(off) {
    for (const Series& s : plot.series) {
      for (std::size_t i = 1; i < s.points.size(); ++i) {
        ways_.push_back({spot(plot, s.points[i - 1].x, s.points[i - 1].y), spot(plot, s.points[i].x, s.points[i].y)});
      }
    }
    for (const Mark& m : plot.marks) marks_.push_back(spot(plot, m.x, m.y));
  }

  Label place(std::size_t mark, WordsSize words) {
    std::optional<Label> best;
    double least = 0;
    for (int far = 0; far < farthest; ++far) {
      for (std::size_t side = 0; side < sides.size(); ++side) {
        const Label label{box(marks_[mark], words, sides[side], far), far > 1};
        // Near and, of two that are equally free, the one named first.
        const double cost = hidden(label.at) + 0.6 * far + 0.01 * static_cast<double>(side);
        if (best && cost >= least) continue;
        best = label;
        least = cost;
      }
    }
    taken_.push_back(best->at);
    return *best;
  }

 private:
  struct Way {
    Spot from;
    Spot until;
  };
  struct Side {
    double across;  ///< -1: words end at the mark; 0: they are centred; 1: they begin there
    double down;
  };
  static constexpr int farthest = 6;
  static constexpr std::array sides{Side{-1, -1}, Side{1, -1}, Side{1, 1},  Side{-1, 1},
                                    Side{1, 0},   Side{-1, 0}, Side{0, -1}, Side{0, 1}};

  Spot spot(const Plot& plot, double x, double y) const {
    return {field_.left + (field_.right - field_.left) * plot.x.share(x),
            field_.bottom - (field_.bottom - field_.top) * plot.y.share(y)};
  }

  Box box(Spot at, WordsSize words, Side side, int far) const {
    const double away = off_ + far * words.height * 0.8;
    const double x = at.x + side.across * away - words.width * (1 - side.across) / 2;
    const double y = at.y + side.down * away - words.height * (1 - side.down) / 2;
    const double left = std::clamp(x, field_.left, std::max(field_.left, field_.right - words.width));
    const double top = std::clamp(y, field_.top, std::max(field_.top, field_.bottom - words.height));
    return {left, top, left + words.width, top + words.height};
  }

  // What words there would hide: other words first of all, then places that are pointed at, then curves.
  double hidden(const Box& box) const {
    const Box wider{box.left - off_ / 3, box.top - off_ / 3, box.right + off_ / 3, box.bottom + off_ / 3};
    const auto words = std::ranges::count_if(taken_, [&](const Box& other) { return other.meets(wider); });
    const auto marks = std::ranges::count_if(marks_, [&](Spot m) { return crosses(wider, m, m); });
    const auto ways = std::ranges::count_if(ways_, [&](const Way& w) { return crosses(wider, w.from, w.until); });
    return 100.0 * static_cast<double>(words) + 20.0 * static_cast<double>(marks) +
           (ways > 0 ? 5.0 + 0.1 * static_cast<double>(ways) : 0.0);
  }

  Box field_;
  double off_;
  std::vector<Way> ways_;
  std::vector<Spot> marks_;
  std::vector<Box> taken_;
};

}  // namespace

std::vector<Label> place_labels(const Plot& plot, const Box& field, std::span<const WordsSize> words, double off) {
  promise(words.size() == plot.marks.size(), "every mark's words were measured");
  Placing placing(plot, field, off);
  std::vector<Label> out;
  for (std::size_t i = 0; i < words.size(); ++i) out.push_back(placing.place(i, words[i]));
  return out;
}

}  // namespace sash::plot
