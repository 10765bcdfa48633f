#pragma once
// SpanIndex: which of many spans meet a stretch of time, found without looking at all of them. Pure values.

#include <algorithm>
#include <cstdint>
#include <vector>

#include "support/moment.h"

namespace sash::desk {

class SpanIndex {
 public:
  SpanIndex() = default;
  /// Requires: sorted by `from`.
  explicit SpanIndex(std::vector<Stretch> spans) : spans_(std::move(spans)) {
    Moment latest = spans_.empty() ? Moment() : spans_.front().until;
    for (const Stretch& s : spans_) {
      latest = std::max(latest, s.until);
      ends_until_.push_back(latest);
    }
  }

  /// Numbers of the spans that meet [from, until], ends included.
  std::vector<std::uint32_t> over(Moment from, Moment until) const {
    std::vector<std::uint32_t> out;
    const auto first = std::lower_bound(ends_until_.begin(), ends_until_.end(), from) - ends_until_.begin();
    for (auto i = static_cast<std::size_t>(first); i < spans_.size() && spans_[i].from <= until; ++i) {
      if (spans_[i].until >= from) out.push_back(static_cast<std::uint32_t>(i));
    }
    return out;
  }
  /// Numbers of the spans that hold the moment, their end not included.
  std::vector<std::uint32_t> at(Moment m) const {
    std::vector<std::uint32_t> out = over(m, m);
    std::erase_if(out, [&](std::uint32_t i) { return !spans_[i].holds(m); });
    return out;
  }
  std::size_t size() const { return spans_.size(); }

 private:
  std::vector<Stretch> spans_;
  std::vector<Moment> ends_until_;  // the latest end up to each
};

}  // namespace sash::desk
