#pragma once
// Moment: the one type in which time crosses rooms. A whole number of ticks, fine enough that every common frame rate
// (24, 25, 30, 50, 60, 120 and their 1000/1001 kin), container time base (1/90000, 1/15360, 1/1000) and sample rate
// (44.1, 48, 96 kHz) lands on a whole tick, so that equal times compare equal.
// A moment is relative to the start of its footage; which footage is said beside it. Pure values.

#include <compare>
#include <cstdint>

namespace sash {

__extension__ typedef __int128 WideInteger;  ///< for products of time bases that pass 64 bits

class Moment {
 public:
  /// Ticks in one second: 2^12 * 3^2 * 5^5 * 7^2. An int64 holds +-51 years of them.
  static constexpr std::int64_t per_second = 5'644'800'000;

  constexpr Moment() = default;
  static constexpr Moment ticks(std::int64_t n) { return Moment(n); }
  /// The tick nearest to `s` seconds. Requires: s finite, |s| < 1.6e9.
  static constexpr Moment seconds(double s) {
    const double t = s * static_cast<double>(per_second);
    return Moment(static_cast<std::int64_t>(t < 0 ? t - 0.5 : t + 0.5));
  }
  static constexpr Moment millis(std::int64_t ms) { return Moment(ms * (per_second / 1000)); }
  /// count * num/den seconds, rounded to the nearest tick (half away from zero). Requires: num > 0, den > 0.
  static constexpr Moment rational(std::int64_t count, std::int64_t num, std::int64_t den) {
    const WideInteger n = static_cast<WideInteger>(count) * num * per_second;
    const WideInteger half = den / 2;
    return Moment(static_cast<std::int64_t>(n < 0 ? (n - half) / den : (n + half) / den));
  }

  constexpr std::int64_t count() const { return ticks_; }
  constexpr double in_seconds() const { return static_cast<double>(ticks_) / static_cast<double>(per_second); }
  /// Whole milliseconds, rounded to nearest (half up). What captions are written in.
  constexpr std::int64_t in_millis() const {
    constexpr std::int64_t per_ms = per_second / 1000;
    const std::int64_t up = ticks_ + per_ms / 2;
    return up >= 0 ? up / per_ms : -((-up + per_ms - 1) / per_ms);
  }

  constexpr auto operator<=>(const Moment&) const = default;
  constexpr Moment operator+(Moment o) const { return Moment(ticks_ + o.ticks_); }
  constexpr Moment operator-(Moment o) const { return Moment(ticks_ - o.ticks_); }
  constexpr Moment operator-() const { return Moment(-ticks_); }

 private:
  explicit constexpr Moment(std::int64_t t) : ticks_(t) {}
  std::int64_t ticks_ = 0;
};

/// From `from` up to, not including, `until`. Empty when until <= from.
struct Stretch {
  Moment from;
  Moment until;
  constexpr bool operator==(const Stretch&) const = default;
  constexpr Moment length() const { return until > from ? until - from : Moment(); }
  constexpr bool holds(Moment m) const { return from <= m && m < until; }
  constexpr bool touches(const Stretch& o) const { return from < o.until && o.from < until; }
};

}  // namespace sash
