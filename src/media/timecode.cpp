#include "media/timecode.h"

#include <fmt/format.h>

#include <array>
#include <optional>

namespace sash::media {
namespace {

constexpr std::int64_t minutes_a_day = 24 * 60;

std::optional<int> digits(std::string_view s, std::size_t& at, std::size_t at_least, std::size_t at_most) {
  int value = 0;
  std::size_t read = 0;
  while (read < at_most && at < s.size() && s[at] >= '0' && s[at] <= '9') {
    value = value * 10 + (s[at] - '0');
    ++at;
    ++read;
  }
  if (read < at_least) return std::nullopt;
  return value;
}

}  // namespace

Outcome<TimeCodeCount> TimeCodeCount::plain(Rate rate) {
  if (rate.num <= 0 || rate.den <= 0 || rate.num > 1'000'000'000 || rate.den > 1'000'000'000 ||
      rate.num / rate.den > 999) {
    return Fault::of(Code::out_of_range,
                     fmt::format("No time code counts {}/{} frames a second; give a rate above 0 and "
                                 "up to 999.",
                                 rate.num, rate.den));
  }
  // Labels count the whole number of frames next to the rate: 30 for 29.97, 24 for 23.976.
  const auto nominal = static_cast<int>((rate.num + rate.den / 2) / rate.den);
  return TimeCodeCount(rate, nominal == 0 ? 1 : nominal, 0);
}

Outcome<TimeCodeCount> TimeCodeCount::usual(Rate rate) {
  Outcome<TimeCodeCount> count = plain(rate);
  if (!count) return count;
  // 29.97 and its multiples lose 108 frames an hour against the labels, made up by leaving out 2 labels a minute (4
  // at 59.94).
  const bool thousandth_slow = rate.num * 1001 == static_cast<std::int64_t>(count->nominal_) * 1000 * rate.den;
  if (thousandth_slow && count->nominal_ % 30 == 0) count->dropped_ = count->nominal_ / 15;
  return count;
}

Outcome<TimeCodeCount> TimeCodeCount::as_labelled(Rate rate, const std::optional<std::string>& first) {
  Outcome<TimeCodeCount> count = usual(rate);
  if (!count || !first) return count;
  const auto label = count->read(*first);
  return !label && label.fault().code == Code::wrong_use ? plain(rate) : count;
}

std::int64_t TimeCodeCount::frames_a_day() const {
  return minutes_a_day * 60 * nominal_ - (minutes_a_day - minutes_a_day / 10) * dropped_;
}

TimeCode TimeCodeCount::label(std::int64_t n) const {
  const std::int64_t day = frames_a_day();
  n %= day;
  if (n < 0) n += day;
  if (dropped_ > 0) {
    const std::int64_t short_minute = 60LL * nominal_ - dropped_;
    const std::int64_t ten_minutes = 10 * short_minute + dropped_;
    const std::int64_t tens = n / ten_minutes;
    const std::int64_t rest = n % ten_minutes;
    // The first minute of ten is whole; each of the nine that follow skips its first labels.
    const std::int64_t skips = rest < short_minute + dropped_ ? 0 : 1 + (rest - short_minute - dropped_) / short_minute;
    n += dropped_ * (9 * tens + skips);
  }
  const auto part = [](std::int64_t v) { return static_cast<int>(v); };
  return {part(n / (3600LL * nominal_)), part(n / (60LL * nominal_) % 60), part(n / nominal_ % 60), part(n % nominal_)};
}

Outcome<std::int64_t> TimeCodeCount::number(const TimeCode& l) const {
  const auto beyond = [](int v, int limit) { return v < 0 || v >= limit; };
  if (beyond(l.hours, 24) || beyond(l.minutes, 60) || beyond(l.seconds, 60) || beyond(l.frames, nominal_)) {
    return Fault::of(Code::out_of_range,
                     fmt::format("The time code {} is beyond 23:59:59{}{:02}; give a label inside one day.", write(l),
                                 drops() ? ';' : ':', nominal_ - 1),
                     write(l));
  }
  if (l.minutes % 10 != 0 && l.seconds == 0 && l.frames < dropped_) {
    return Fault::of(
        Code::impossible,
        fmt::format("No frame is labelled {}: drop-frame counting leaves out frames 00 to {:02} of this minute; "
                    "the next label is {}.",
                    write(l), dropped_ - 1, write({l.hours, l.minutes, 0, dropped_})),
        write(l));
  }
  const std::int64_t minutes = 60LL * l.hours + l.minutes;
  return (minutes * 60 + l.seconds) * nominal_ + l.frames - dropped_ * (minutes - minutes / 10);
}

Outcome<TimeCode> TimeCodeCount::read(std::string_view text) const {
  const std::string given(text);
  const Fault malformed =
      Fault::of(Code::malformed,
                fmt::format("\"{}\" is no time code; write it as 01:02:03{}04.", given, drops() ? ';' : ':'), given);
  std::array<int, 4> parts{};
  char before_frames = 0;
  std::size_t at = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) {
      if (at >= text.size()) return malformed;
      const char mark = text[at++];
      if (i < 3 ? mark != ':' : mark != ':' && mark != ';' && mark != '.') return malformed;
      before_frames = mark;
    }
    const auto part = digits(text, at, i == 0 ? 1 : 2, i == 3 ? 3 : 2);
    if (!part) return malformed;
    parts[i] = *part;
  }
  if (at != text.size()) return malformed;
  const bool says_drop = before_frames != ':';
  if (says_drop != drops()) {
    return Fault::of(
        Code::wrong_use,
        drops() ? fmt::format("\"{}\" counts every frame, but this footage is counted drop-frame; write ';' before "
                              "the frames.",
                              given)
                : fmt::format("\"{}\" is drop-frame, but this footage is counted without dropping; write ':' before "
                              "the frames.",
                              given),
        given);
  }
  const TimeCode label{parts[0], parts[1], parts[2], parts[3]};
  if (const auto n = number(label); !n) return n.fault();
  return label;
}

std::string TimeCodeCount::write(const TimeCode& l) const {
  return fmt::format("{:02}:{:02}:{:02}{}{:02}", l.hours, l.minutes, l.seconds, drops() ? ';' : ':', l.frames);
}

Moment TimeCodeCount::begins(std::int64_t n) const { return Moment::rational(n, rate_.den, rate_.num); }

std::int64_t TimeCodeCount::nearest(Moment at) const {
  const WideInteger frames = static_cast<WideInteger>(at.count()) * rate_.num;
  const WideInteger per_frame = static_cast<WideInteger>(Moment::per_second) * rate_.den;
  const WideInteger up = 2 * frames + per_frame;  // floor(x + 1/2), also below zero
  WideInteger n = up / (2 * per_frame);
  if (up % (2 * per_frame) < 0) --n;
  return static_cast<std::int64_t>(n);
}

}  // namespace sash::media
