#include "desk/shown/footage_page.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <map>

#include "desk/shown/words.h"

namespace sash::desk {
namespace {

constexpr std::uint32_t most_bar_lanes = 2;

float share_of(Moment at, Moment length) {
  if (length <= Moment()) return 0;
  return static_cast<float>(std::clamp(at.in_seconds() / length.in_seconds(), 0.0, 1.0));
}

// The first finding of a hazard is its worst.
std::map<model::HazardId, bool> covered_hazards(const safety::Cover& cover) {
  std::map<model::HazardId, bool> covered;
  for (const auto& f : cover.findings) covered.try_emplace(f.hazard, f.gap == safety::Gap::none);
  return covered;
}

std::string fine_clock(Moment m) {
  const std::int64_t hundredths = m.count() / (Moment::per_second / 100);
  const std::int64_t rest = hundredths % 100;
  return short_clock_text(m) + "." + (rest < 10 ? "0" : "") + std::to_string(rest);
}

std::string rate_text(media::Rate rate) {
  char buffer[32];
  const double hundred = std::round(rate.per_second() * 100) / 100;
  std::snprintf(buffer, sizeof buffer, "%g", hundred);
  return std::string(buffer) + " fps";
}

std::string facts_text(const media::FootageFacts& facts) {
  std::string out;
  const auto add = [&](const std::string& part) {
    if (part.empty()) return;
    if (!out.empty()) out += " · ";
    out += part;
  };
  if (facts.video) {
    add(std::to_string(facts.video->shown.width) + " × " + std::to_string(facts.video->shown.height));
    if (facts.video->rate) add(rate_text(*facts.video->rate) + (facts.video->variable_rate ? ", varying" : ""));
    add(facts.video->codec);
    if (facts.video->hdr != media::Hdr::none) add("HDR, tone-mapped");
  } else {
    add("sound only");
  }
  add(facts.audio ? facts.audio->codec + " " + facts.audio->layout : "silent");
  return out;
}

// Sorts by start; the ids follow their spans.
template <class Id>
SpanIndex index_of(std::vector<std::pair<Stretch, Id>> spans, std::vector<Id>& ids) {
  std::stable_sort(spans.begin(), spans.end(),
                   [](const auto& a, const auto& b) { return a.first.from < b.first.from; });
  std::vector<Stretch> sorted;
  for (const auto& [span, id] : spans) {
    sorted.push_back(span);
    ids.push_back(id);
  }
  return SpanIndex(std::move(sorted));
}

}  // namespace

BarShown show_bar(const model::Record& record, const safety::Cover& cover, const FigureVerdicts& verdicts,
                  const Film& film, std::size_t slots) {
  BarShown bar;
  const Moment length = film.length();
  const auto covered = covered_hazards(cover);

  std::vector<const model::Hazard*> hazards;
  for (const auto& h : record.hazards) {
    if (h.origin.standing != model::Standing::refused) hazards.push_back(&h);
  }
  std::stable_sort(hazards.begin(), hazards.end(),
                   [&](const auto* a, const auto* b) { return film.to_film(a->place) < film.to_film(b->place); });
  std::vector<Moment> lane_ends;
  std::array<std::optional<std::size_t>, most_bar_lanes> last_in_lane;
  const float nearness = 0.2F / static_cast<float>(std::max<std::size_t>(slots, 1));
  for (const auto* h : hazards) {
    const Stretch span = film.stretch(h->place, true);
    auto lane = static_cast<std::uint32_t>(
        std::find_if(lane_ends.begin(), lane_ends.end(), [&](Moment end) { return end <= span.from; }) -
        lane_ends.begin());
    if (lane == lane_ends.size() && lane_ends.size() < most_bar_lanes) {
      lane_ends.push_back(span.until);
    } else {
      lane = std::min(lane, most_bar_lanes - 1);
      lane_ends[lane] = std::max(lane_ends[lane], span.until);
    }
    const auto found = covered.find(h->id);
    const bool is_covered = found == covered.end() || found->second;
    const BarShown::Band band{
        share_of(span.from, length), share_of(span.until, length), lane, tone_of(h->level), is_covered, h->id};
    // What cannot be told apart at this width is one band, so that there are never more than can be seen.
    auto& before = last_in_lane[lane];
    if (before && band.from - bar.bands[*before].until < nearness && bar.bands[*before].tone == band.tone &&
        bar.bands[*before].covered == band.covered) {
      bar.bands[*before].until = std::max(bar.bands[*before].until, band.until);
      continue;
    }
    before = bar.bands.size();
    bar.bands.push_back(band);
  }
  bar.lanes = static_cast<std::uint32_t>(lane_ends.size());

  slots = std::max<std::size_t>(slots, 1);
  std::vector<std::int32_t> tick_of(slots + 1, -1);
  for (const auto& f : record.figures) {
    if (f.origin.standing == model::Standing::refused) continue;
    const float at = share_of(film.to_film(f.place), length);
    const auto verdict = verdicts.find(f.id);
    const bool conflict = verdict != verdicts.end() && verdict->second == Verdict::conflict;
    std::int32_t& tick = tick_of[static_cast<std::size_t>(at * static_cast<float>(slots))];
    if (tick < 0) {
      tick = static_cast<std::int32_t>(bar.ticks.size());
      bar.ticks.push_back({at, family_of(f.kind), conflict, f.origin.standing == model::Standing::proposed, 1, f.id});
      continue;
    }
    auto& there = bar.ticks[static_cast<std::size_t>(tick)];
    ++there.count;
    if (conflict && !there.conflict) {  // the worst one is what a click should reach
      there.conflict = true;
      there.figure = f.id;
      there.family = family_of(f.kind);
    }
  }
  std::sort(bar.ticks.begin(), bar.ticks.end(), [](const auto& a, const auto& b) { return a.at < b.at; });

  for (const auto& c : record.chapters) {
    const Moment at = film.to_film(c.place);
    bar.chapters.push_back({share_of(at, length), c.title, at});
  }
  std::sort(bar.chapters.begin(), bar.chapters.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  for (const auto& reel : film.reels().subspan(film.empty() ? 0 : 1)) bar.seams.push_back(share_of(reel.start, length));

  std::vector<std::pair<Stretch, model::LineId>> lines;
  for (const auto& line : record.lines) {
    if (line.noise) continue;
    lines.push_back(
        {{film.to_film(line.footage, line.when.from), film.to_film(line.footage, line.when.until)}, line.id});
  }
  bar.line_spans = index_of(std::move(lines), bar.lines);
  std::vector<std::pair<Stretch, model::CalloutId>> messages;
  for (const auto& c : record.callouts) {
    if (c.delivery != model::Delivery::shown || c.origin.standing == model::Standing::refused) continue;
    messages.push_back({film.stretch(c.place), c.id});
  }
  bar.message_spans = index_of(std::move(messages), bar.messages);
  return bar;
}

Moment film_now(const session::SessionView& view, const Film& film) {
  return film.to_film(view.transport.footage, view.transport.at);
}

TransportShown show_transport(const session::SessionView& view, const Film& film, const BarShown& bar) {
  TransportShown t;
  const session::Transport& now = view.transport;
  t.which = now.footage;
  t.playing = now.playing;
  t.speed = speed_text(now.speed);
  t.volume = now.volume;
  t.exact = now.exact;
  t.time = fine_clock(now.at);
  t.time_code = now.time_code;
  t.share = share_of(film_now(view, film), film.length());
  if (now.loop) {
    t.loop = std::pair(share_of(film.to_film(now.footage, now.loop->from), film.length()),
                       share_of(film.to_film(now.footage, now.loop->until), film.length()));
  }

  const auto* footage = model::find(view.record, now.footage);
  if (footage == nullptr) {
    t.wants_clip = view.record.footages.empty();
    t.trouble = t.wants_clip ? "No footage yet. Drop a video on the window, or press Ctrl+O." : "No footage is open.";
    return t;
  }
  t.ready = true;
  const std::string name =
      footage->title.empty() ? std::filesystem::path(footage->path).filename().string() : footage->title;
  t.footage = name;
  if (view.record.footages.size() > 1) {
    const auto order = model::in_order(view.record);
    const auto place = std::find(order.begin(), order.end(), footage) - order.begin();
    t.footage += " (" + std::to_string(place + 1) + " of " + std::to_string(order.size()) + ")";
  }
  if (const auto* reel = film.reel(now.footage)) t.length = short_clock_text(reel->length);

  if (const auto state = view.footage.find(now.footage); state != view.footage.end()) {
    t.missing = state->second.missing;
    if (state->second.fault) t.trouble = state->second.fault->sentence;
    if (t.missing && t.trouble.empty()) t.trouble = "The footage is not where it was: " + footage->path + ".";
    if (state->second.facts) {
      t.facts = facts_text(*state->second.facts);
      if (state->second.facts->has_location) t.remarks.emplace_back("Carries a place on earth; nothing exported will.");
      for (const auto& remark : state->second.facts->remarks) t.remarks.push_back(remark);
    }
  }
  if (footage->path.empty()) {
    t.wants_clip = true;
    t.trouble = "The clip that this narration belongs to is not here yet. Drop it on the window, or press Ctrl+O.";
  }
  t.sureness = t.wants_clip ? "" : now.exact ? "exact frame" : "near picture, refining";

  const Moment film_at = film_now(view, film);
  if (const auto lines = bar.line_spans.at(film_at); !lines.empty()) {
    if (const auto* line = model::find(view.record, bar.lines[lines.back()])) t.spoken = line->text;
  }
  for (const std::uint32_t i : bar.message_spans.at(film_at)) {
    if (const auto* c = model::find(view.record, bar.messages[i])) t.messages.push_back({tone_of(c->level), c->text});
  }
  return t;
}

}  // namespace sash::desk
