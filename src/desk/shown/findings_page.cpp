#include "desk/shown/findings_page.h"

#include <algorithm>

#include "desk/shown/words.h"
#include "workings/to_look_at.h"

namespace sash::desk {
namespace {

FindingGroup group_of(const workings::Finding& f) {
  if (!f.remark.empty() && f.verdict != workings::Verdict::conflicts) return FindingGroup::cannot_be;
  switch (f.verdict) {
    case workings::Verdict::conflicts:
      return FindingGroup::conflict;
    case workings::Verdict::unsettled:
      return FindingGroup::unsettled;
    case workings::Verdict::worked_out:
      return FindingGroup::worked_out;
    case workings::Verdict::agrees_as_rounded:
    case workings::Verdict::agrees:
      return FindingGroup::agrees;
  }
  return FindingGroup::agrees;
}

// What is not looked at yet is not checked either.
std::size_t open_proposals(const model::Record& record) {
  std::size_t open = 0;
  const auto count = [&](const auto& list) {
    open += static_cast<std::size_t>(std::count_if(
        list.begin(), list.end(), [](const auto& each) { return each.origin.standing == model::Standing::proposed; }));
  };
  count(record.figures);
  count(record.relations);
  count(record.hazards);
  count(record.callouts);
  return open;
}

}  // namespace

std::string group_text(FindingGroup group, std::size_t count) {
  static constexpr std::array<std::string_view, finding_groups> one{"conflict",  "cover gap",  "impossible",
                                                                    "unsettled", "worked out", "in order"};
  static constexpr std::array<std::string_view, finding_groups> many{"conflicts", "cover gaps", "impossible",
                                                                     "unsettled", "worked out", "in order"};
  return count_text(count, one[static_cast<std::size_t>(group)], many[static_cast<std::size_t>(group)]);
}

Verdict tone_of(workings::Verdict v) {
  switch (v) {
    case workings::Verdict::conflicts:
      return Verdict::conflict;
    case workings::Verdict::unsettled:
      return Verdict::unsettled;
    case workings::Verdict::worked_out:
    case workings::Verdict::agrees:
      return Verdict::agrees;
    case workings::Verdict::agrees_as_rounded:
      return Verdict::agrees_rounded;
  }
  return Verdict::unsettled;
}

Verdict tone_of(const workings::Finding& finding) {
  const bool doubtful = !finding.remark.empty() && finding.verdict != workings::Verdict::conflicts;
  return doubtful ? Verdict::unsettled : tone_of(finding.verdict);
}

FigureVerdicts verdicts_of(const workings::Report& report) {
  FigureVerdicts verdicts;
  verdicts.reserve(report.figures.size());
  for (const auto& state : report.figures) {
    if (state.blame == workings::Blame::culprit) verdicts.emplace(state.figure, Verdict::conflict);
  }
  // Findings come worst first, so the first verdict of a figure stays. A figure that was only worked out gets none.
  for (const auto& f : report.findings) {
    if (f.verdict == workings::Verdict::conflicts) continue;
    if (!f.remark.empty() && f.said) verdicts.try_emplace(f.said->figure, tone_of(f));
    if (f.verdict == workings::Verdict::worked_out) continue;
    for (const auto figure : f.figures) verdicts.try_emplace(figure, tone_of(f.verdict));
  }
  return verdicts;
}

FindingsShown show_findings(const Judged& judged, const Film& film) {
  FindingsShown shown;
  const auto film_of = [&](model::FigureId id) -> std::optional<Moment> {
    const auto* figure = model::find(judged.record, id);
    return figure == nullptr ? std::nullopt : std::optional(film.to_film(figure->place));
  };
  for (const auto& f : judged.report.findings) {
    FindingRow row;
    row.group = group_of(f);
    row.mark = tone_of(f);
    row.verdict = workings::label_of(f);
    row.about = f.type ? std::string(words_of(*f.type)) : "several relations";
    if (f.relation) {
      if (const auto* relation = model::find(judged.record, *f.relation);
          relation != nullptr && !relation->label.empty()) {
        row.about = relation->label;
      }
      row.thing = *f.relation;
    }
    if (rests_on_proposals(judged.record, f)) row.about = "if accepted \u00B7 " + row.about;
    row.sentence = f.remark.empty() ? f.sentence : f.sentence + " " + f.remark;
    if (const auto figure = workings::figure_to_look_at(f)) {
      row.film = film_of(*figure);
      row.look_at = *figure;
      if (!row.thing) row.thing = *figure;
    }
    shown.rows.push_back(std::move(row));
  }
  for (const auto& f : judged.cover.findings) {
    const auto* hazard = model::find(judged.record, f.hazard);
    if (hazard == nullptr) continue;
    FindingRow row;
    row.group = f.gap == safety::Gap::none ? FindingGroup::agrees : FindingGroup::cover_gap;
    row.mark = f.gap == safety::Gap::none ? Verdict::agrees : Verdict::conflict;
    row.safety = tone_of(hazard->level);
    row.verdict = std::string(safety::gap_label(f.gap));
    row.about = hazard->cause.empty() ? "hazard" : hazard->cause;
    row.sentence = f.sentence;
    row.film = film.to_film(hazard->place.footage, f.at);
    row.thing = f.hazard;
    row.look_at = f.hazard;
    shown.rows.push_back(std::move(row));
  }
  std::stable_sort(shown.rows.begin(), shown.rows.end(),
                   [](const auto& a, const auto& b) { return a.group < b.group; });
  for (const auto& row : shown.rows) ++shown.counts[static_cast<std::size_t>(row.group)];
  for (const FindingGroup g :
       {FindingGroup::conflict, FindingGroup::cover_gap, FindingGroup::cannot_be, FindingGroup::unsettled}) {
    const std::size_t n = shown.counts[static_cast<std::size_t>(g)];
    if (n > 0) shown.summary += (shown.summary.empty() ? "" : ", ") + group_text(g, n);
  }
  if (shown.summary.empty()) {
    const std::size_t open = open_proposals(judged.record);
    shown.summary = shown.rows.empty() ? "Nothing checked yet" : open > 0 ? "Nothing wrong so far" : "Nothing is wrong";
    if (open > 0) shown.summary += ", " + count_text(open, "proposal", "proposals") + " to look at";
  }
  return shown;
}

void ChosenFinding::choose(const FindingsShown& shown, std::size_t which) {
  row = place = which;
  thing_ = shown.rows[which].thing;
  verdict_ = shown.rows[which].verdict;
}

void ChosenFinding::forget() { *this = {}; }

void ChosenFinding::follow(const FindingsShown& shown) {
  if (!row) return;
  const auto same = [&](const FindingRow& r) { return r.thing == thing_ && r.verdict == verdict_; };
  if (*row < shown.rows.size() && same(shown.rows[*row])) return;
  const auto at = std::find_if(shown.rows.begin(), shown.rows.end(), same);
  if (at == shown.rows.end()) {
    row.reset();
  } else {
    row = place = static_cast<std::size_t>(at - shown.rows.begin());
  }
}

std::optional<std::size_t> step_finding(const FindingsShown& shown, const ChosenFinding& chosen, int by,
                                        std::optional<FindingGroup> only) {
  const auto size = static_cast<std::ptrdiff_t>(shown.rows.size());
  const auto place = static_cast<std::ptrdiff_t>(chosen.place);
  // What was chosen may be settled: then the one that took its place comes next.
  std::ptrdiff_t at = chosen.row || by < 0 ? place + by : place;
  if (!chosen.row && by < 0 && place == 0) at = size - 1;
  for (; at >= 0 && at < size; at += by) {
    if (!only || shown.rows[static_cast<std::size_t>(at)].group == *only) return static_cast<std::size_t>(at);
  }
  return chosen.row;
}

}  // namespace sash::desk
