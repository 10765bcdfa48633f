#include "safety/cover.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "safety/callout_text.h"
#include "safety/reading.h"
#include "support/check.h"

namespace sash::safety {
namespace {

using model::Callout;
using model::CalloutId;
using model::Hazard;
using model::Record;

// A callout that is gone this long before its hazard ends leaves late-comers unwarned. Common practice, no source.
constexpr double fade_seconds = 10.0;

std::string seconds_text(double s) { return fmt::format("{:.1f} s", s); }

bool counts(const model::Origin& origin) { return origin.standing != model::Standing::refused; }

std::vector<const Callout*> callouts_of(const Hazard& hazard, const Record& record) {
  std::vector<const Callout*> out;
  for (const Callout& callout : record.callouts) {
    if (!counts(callout.origin) || callout.place.footage != hazard.place.footage) continue;
    if (std::find(callout.hazards.begin(), callout.hazards.end(), hazard.id) != callout.hazards.end())
      out.push_back(&callout);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Callout* a, const Callout* b) { return a->place.from < b->place.from; });
  return out;
}

class Judge {
 public:
  Judge(const Hazard& hazard, const ReadingLimits& limits) : hazard_(hazard), limits_(limits) {}

  std::vector<CoverFinding> judge(const std::vector<const Callout*>& callouts) {
    if (callouts.empty()) {
      add(Gap::unannounced, {}, hazard_.place.from,
          fmt::format("Nobody announces {}; show or speak a callout at least {} before it begins.", name(),
                      seconds_text(limits_.lead_seconds)));
      return std::move(findings_);
    }
    judge_start(*callouts.front());
    for (const Callout* callout : callouts) judge_text(*callout);
    judge_end(callouts);
    if (findings_.empty()) {
      add(Gap::none, callouts.front()->id, hazard_.place.from, fmt::format("Announced in time: {}.", name()));
    }
    return std::move(findings_);
  }

 private:
  std::string name() const {
    const std::string& words = hazard_.cause.empty() ? hazard_.substance : hazard_.cause;
    return words.empty() ? "this hazard" : "'" + words + "'";
  }

  void add(Gap gap, std::optional<CalloutId> callout, Moment at, std::string sentence) {
    findings_.push_back({hazard_.id, callout, gap, std::move(sentence), at});
  }

  void judge_start(const Callout& first) {
    const double lead = (hazard_.place.from - first.place.from).in_seconds();
    if (lead < 0) {
      add(Gap::late, first.id, hazard_.place.from,
          fmt::format("The first callout for {} comes {} after the hazard begins; move it {} earlier.", name(),
                      seconds_text(-lead), seconds_text(limits_.lead_seconds - lead)));
    } else if (lead + 1e-9 < limits_.lead_seconds) {
      add(Gap::short_notice, first.id, first.place.from,
          fmt::format("The callout for {} comes only {} before the hazard; {} gives time to act on it.", name(),
                      seconds_text(lead), seconds_text(limits_.lead_seconds)));
    }
  }

  // Only what is shown has to be read; what is spoken takes the time it takes.
  void judge_text(const Callout& callout) {
    if (callout.delivery != model::Delivery::shown) return;
    const double shown = callout.place.stretch().length().in_seconds();
    const double needed = seconds_to_read(measure(read_text(callout)), limits_);
    if (shown + 1e-3 < needed) {
      add(Gap::unreadable, callout.id, callout.place.from,
          fmt::format("The callout '{}' is shown for {} but takes {} to read ({}).", callout.text, seconds_text(shown),
                      seconds_text(needed), limits_.name));
    }
  }

  void judge_end(const std::vector<const Callout*>& callouts) {
    if (!hazard_.place.until) return;
    Moment last;
    for (const Callout* callout : callouts) last = std::max(last, callout->place.until.value_or(callout->place.from));
    const double early = (*hazard_.place.until - last).in_seconds();
    if (early > fade_seconds) {
      add(Gap::ends_early, callouts.back()->id, last,
          fmt::format("The last callout for {} is gone {} before it ends; keep a short one on screen or repeat it.",
                      name(), seconds_text(early)));
    }
  }

  const Hazard& hazard_;
  const ReadingLimits& limits_;
  std::vector<CoverFinding> findings_;
};

}  // namespace

std::string_view gap_name(Gap gap) {
  switch (gap) {
    case Gap::unannounced:
      return "unannounced";
    case Gap::late:
      return "late";
    case Gap::short_notice:
      return "short_notice";
    case Gap::unreadable:
      return "unreadable";
    case Gap::ends_early:
      return "ends_early";
    case Gap::none:
      return "covered";
  }
  promise(false, "a known gap");
  return {};
}

std::string_view gap_label(Gap gap) {
  switch (gap) {
    case Gap::unannounced:
      return "not announced";
    case Gap::late:
      return "announced too late";
    case Gap::short_notice:
      return "short notice";
    case Gap::unreadable:
      return "too brief to read";
    case Gap::ends_early:
      return "callout ends early";
    case Gap::none:
      return "covered";
  }
  promise(false, "a known gap");
  return {};
}

Cover check_cover(const Record& record) {
  const ReadingLimits& limits = reading_profile(record.bench.reading_profile);
  Cover cover;
  for (const Hazard& hazard : record.hazards) {
    if (!counts(hazard.origin)) continue;
    auto found = Judge(hazard, limits).judge(callouts_of(hazard, record));
    ++cover.hazards;
    if (found.front().gap == Gap::none) ++cover.covered;
    std::move(found.begin(), found.end(), std::back_inserter(cover.findings));
  }
  std::stable_sort(cover.findings.begin(), cover.findings.end(), [&](const CoverFinding& a, const CoverFinding& b) {
    const auto key = [&](const CoverFinding& f) {
      const Hazard* hazard = find(record, f.hazard);
      return std::tuple(f.gap, hazard->level, model::film_start(record, hazard->place.footage) + f.at, f.hazard);
    };
    return key(a) < key(b);
  });
  return cover;
}

}  // namespace sash::safety
