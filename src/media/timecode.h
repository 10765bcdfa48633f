#pragma once
// SMPTE time code: the label hh:mm:ss:ff of a counted frame, with dropped labels (";") at 30000/1001 and 60000/1001.
// Whole numbers only. Says nothing about variable-rate footage, where no frame count fits: use the Moment itself.
// Pure values.
// Source: SMPTE ST 12-1:2014, 5.2 (drop-frame compensated mode), 5.1 (counting modes).

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "media/rate.h"
#include "support/moment.h"
#include "support/outcome.h"

namespace sash::media {

struct TimeCode {
  int hours = 0;
  int minutes = 0;
  int seconds = 0;
  int frames = 0;
  constexpr bool operator==(const TimeCode&) const = default;
};

/// How frames of one rate are labelled.
class TimeCodeCount {
 public:
  /// Drop-frame where it applies (30000/1001, 60000/1001 and their doubles), else plain counting.
  /// Fails: out_of_range (rate not positive, or over 999 frames a second).
  static Outcome<TimeCodeCount> usual(Rate rate);
  static Outcome<TimeCodeCount> plain(Rate rate);
  /// As the footage's first label counts ("01:00:00:00" plainly, "01:00:00;00" drop-frame); the usual way without one.
  /// Fails: as usual().
  static Outcome<TimeCodeCount> as_labelled(Rate rate, const std::optional<std::string>& first);

  bool drops() const { return dropped_ > 0; }
  Rate rate() const { return rate_; }
  int nominal() const { return nominal_; }  ///< whole frames in a labelled second
  std::int64_t frames_a_day() const;        ///< labels in 24 h

  /// The label of the frame numbered `n` from midnight; wraps every 24 h, also for negative n.
  TimeCode label(std::int64_t n) const;
  /// Fails: out_of_range (61 seconds, frame 30 of 30); impossible (a dropped label: no frame has it).
  Outcome<std::int64_t> number(const TimeCode& label) const;
  /// "01:00:00;02", ";" or "." before the frames meaning drop-frame.
  /// Fails: malformed; wrong_use (a separator of the other counting mode); and as number().
  Outcome<TimeCode> read(std::string_view text) const;
  std::string write(const TimeCode& label) const;

  /// When frame `n` begins, to the nearest tick, counting from frame 0.
  Moment begins(std::int64_t n) const;
  /// The number of the frame that begins nearest to `at`: exact for frame times, also when rounded to milliseconds.
  std::int64_t nearest(Moment at) const;

 private:
  TimeCodeCount(Rate rate, int nominal, int dropped) : rate_(rate), nominal_(nominal), dropped_(dropped) {}
  Rate rate_;
  int nominal_;
  int dropped_;  // labels left out each minute but every tenth
};

}  // namespace sash::media
