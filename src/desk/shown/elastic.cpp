#include "desk/shown/elastic.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>

#include "support/check.h"

namespace sash::desk {
namespace {

// A block's demand: from breakpoint `from` to `to` at least `height`.
struct Demand {
  std::uint32_t from;
  std::uint32_t to;
  double height;
};

double least_gap(Moment length, const ElasticScale& scale) {
  const double seconds = length.in_seconds();
  const double full = std::min(seconds, scale.shrink_after);
  return full * scale.pixels_per_second + (seconds - full) * scale.shrunk_per_second;
}

// Demands grouped by breakpoint: where group k begins in `order`.
std::vector<std::uint32_t> group_starts(std::span<const Demand> demands, std::size_t breakpoints,
                                        std::uint32_t Demand::*key) {
  std::vector<std::uint32_t> starts(breakpoints + 1, 0);
  for (const Demand& d : demands) ++starts[d.*key + 1];
  std::partial_sum(starts.begin(), starts.end(), starts.begin());
  return starts;
}

std::vector<std::uint32_t> grouped(std::span<const Demand> demands, const std::vector<std::uint32_t>& starts,
                                   std::uint32_t Demand::*key) {
  std::vector<std::uint32_t> next(starts.begin(), starts.end() - 1);
  std::vector<std::uint32_t> order(demands.size());
  for (std::uint32_t i = 0; i < demands.size(); ++i) order[next[demands[i].*key]++] = i;
  return order;
}

}  // namespace

Elastic::Elastic(Stretch extent, std::span<const ElasticBlock> blocks, ElasticScale scale) : extent_(extent) {
  promise(scale.pixels_per_second > 0 && scale.shrunk_per_second > 0 && scale.shrink_after > 0,
          "a sheet scale is positive");
  if (extent_.until <= extent_.from) extent_.until = extent_.from + Moment::ticks(1);
  const auto inside = [&](Moment m) { return std::clamp(m, extent_.from, extent_.until); };

  std::size_t columns = 0;
  for (const ElasticBlock& b : blocks) columns = std::max<std::size_t>(columns, b.column + 1);
  columns_.resize(columns);
  heights_.reserve(blocks.size());
  for (std::uint32_t i = 0; i < blocks.size(); ++i) {
    promise(blocks[i].height >= 0 && std::isfinite(blocks[i].height), "a block's height is finite and not negative");
    columns_[blocks[i].column].push_back(i);
    heights_.push_back(blocks[i].height);
  }

  times_.reserve(blocks.size() + 2);
  times_.push_back(extent_.from);
  times_.push_back(extent_.until);
  for (const ElasticBlock& b : blocks) times_.push_back(inside(b.at));
  std::sort(times_.begin(), times_.end());
  times_.erase(std::unique(times_.begin(), times_.end()), times_.end());
  const auto breakpoint = [&](Moment m) {
    return static_cast<std::uint32_t>(std::lower_bound(times_.begin(), times_.end(), m) - times_.begin());
  };

  // Stacks at one moment become one demand each; the last stack of a column hangs below the end of the extent.
  std::vector<Demand> demands;
  std::vector<double> within(blocks.size());  // offset of a block in its stack
  double tail = 0;                            // room below the last breakpoint
  std::vector<Demand> hanging;                // last stacks: to is the end
  const auto last = static_cast<std::uint32_t>(times_.size() - 1);
  for (auto& column : columns_) {
    std::stable_sort(column.begin(), column.end(),
                     [&](std::uint32_t a, std::uint32_t b) { return inside(blocks[a].at) < inside(blocks[b].at); });
    for (std::size_t i = 0; i < column.size();) {
      const Moment at = inside(blocks[column[i]].at);
      const std::uint32_t from = breakpoint(at);
      double stack = 0;
      for (; i < column.size() && inside(blocks[column[i]].at) == at; ++i) {
        within[column[i]] = stack;
        stack += blocks[column[i]].height;
      }
      const std::uint32_t to = i < column.size() ? breakpoint(inside(blocks[column[i]].at)) : last;
      if (from == to) {
        tail = std::max(tail, stack);
      } else {
        demands.push_back({from, to, stack});
      }
    }
  }

  const std::size_t n = times_.size();
  std::vector<double> early(n, 0);
  const auto into = group_starts(demands, n, &Demand::to);
  const auto by_end = grouped(demands, into, &Demand::to);
  for (std::size_t k = 1; k < n; ++k) {
    early[k] = early[k - 1] + least_gap(times_[k] - times_[k - 1], scale);
    for (std::uint32_t j = into[k]; j < into[k + 1]; ++j) {
      const Demand& d = demands[by_end[j]];
      early[k] = std::max(early[k], early[d.from] + d.height);
    }
  }
  std::vector<double> late(n, early.back());
  const auto out_of = group_starts(demands, n, &Demand::from);
  const auto by_start = grouped(demands, out_of, &Demand::from);
  for (std::size_t k = n - 1; k-- > 0;) {
    late[k] = late[k + 1] - least_gap(times_[k + 1] - times_[k], scale);
    for (std::uint32_t j = out_of[k]; j < out_of[k + 1]; ++j) {
      const Demand& d = demands[by_start[j]];
      late[k] = std::min(late[k], late[d.to] - d.height);
    }
  }
  ys_.resize(n);
  for (std::size_t k = 0; k < n; ++k) ys_[k] = (early[k] + late[k]) / 2;

  tops_.resize(blocks.size());
  for (std::size_t i = 0; i < blocks.size(); ++i) tops_[i] = ys_[breakpoint(inside(blocks[i].at))] + within[i];
  if (tail > 0) {  // blocks at the very end: one tick more of time takes their room
    times_.push_back(times_.back() + Moment::ticks(1));
    ys_.push_back(ys_.back() + tail);
  }
}

double Elastic::y(Moment at) const {
  if (times_.empty() || at <= times_.front()) return 0;
  if (at >= extent_.until)
    return ys_[static_cast<std::size_t>(std::lower_bound(times_.begin(), times_.end(), extent_.until) -
                                        times_.begin())];
  const auto k = static_cast<std::size_t>(std::upper_bound(times_.begin(), times_.end(), at) - times_.begin());
  const double share =
      static_cast<double>((at - times_[k - 1]).count()) / static_cast<double>((times_[k] - times_[k - 1]).count());
  return ys_[k - 1] + share * (ys_[k] - ys_[k - 1]);
}

Moment Elastic::at(double y) const {
  if (times_.empty() || y <= 0) return extent_.from;
  const auto k = static_cast<std::size_t>(std::upper_bound(ys_.begin(), ys_.end(), y) - ys_.begin());
  if (k >= ys_.size()) return extent_.until;
  const double share = (y - ys_[k - 1]) / (ys_[k] - ys_[k - 1]);
  const auto ticks = std::llround(share * static_cast<double>((times_[k] - times_[k - 1]).count()));
  return std::min(times_[k - 1] + Moment::ticks(ticks), extent_.until);
}

Elastic::Range Elastic::visible(std::uint32_t column, double from, double until) const {
  if (column >= columns_.size()) return {};
  const auto& order = columns_[column];
  // Boxes of a column do not overlap, so their bottoms rise with their tops.
  const auto first =
      std::partition_point(order.begin(), order.end(), [&](std::uint32_t i) { return tops_[i] + heights_[i] <= from; });
  const auto last = std::partition_point(first, order.end(), [&](std::uint32_t i) { return tops_[i] < until; });
  return {static_cast<std::size_t>(first - order.begin()), static_cast<std::size_t>(last - order.begin())};
}

std::span<const std::uint32_t> Elastic::block_order(std::uint32_t column) const {
  if (column >= columns_.size()) return {};
  return columns_[column];
}

std::vector<Moment> time_marks(const Elastic& sheet, double gap) {
  constexpr std::array steps{3600.0, 1800.0, 900.0, 600.0, 300.0, 120.0, 60.0, 30.0, 15.0, 10.0, 5.0, 2.0, 1.0};
  const Moment start = sheet.extent().from;
  std::vector<Moment> marks;
  for (double y = 0; y < sheet.height();) {
    // The roundest time of the next stretch of sheet: dense talk gets seconds, long silence minutes.
    const double since = (sheet.at(y) - start).in_seconds();
    std::optional<Moment> mark;
    for (const double step : steps) {
      const Moment round = start + Moment::seconds(std::ceil(since / step - 1e-9) * step);
      const double reach = step >= 5 ? gap * 1.5 : gap;  // a round time is worth waiting for
      if (round >= sheet.extent().until || sheet.y(round) >= y + reach) continue;
      mark = round;
      break;
    }
    if (mark) marks.push_back(*mark);
    y = mark ? std::max(y, sheet.y(*mark)) + gap : y + gap / 2;
  }
  return marks;
}

}  // namespace sash::desk
