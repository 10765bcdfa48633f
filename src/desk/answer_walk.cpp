// Finding the way by key: pins, findings, proposals, words and lines, one after the other.
#include <algorithm>
#include <iterator>

#include "desk/app_state.h"
#include "desk/shown/wiring.h"

namespace sash::desk {

void Answers::walk_stops(const std::vector<PinStop>& stops, int by) {
  auto stop = step_stop(stops, state_.selection, film_now(view_, sheet().film), by);
  // Among the hits of a search the last one is followed by the first.
  if (!stop && !stops.empty() && !state_.sheet.search.empty()) stop = by > 0 ? stops.front() : stops.back();
  if (!stop) return;
  go_to_stop(*stop);
}

void Answers::go_to_stop(const PinStop& stop) {
  select({stop.thing, std::nullopt});
  if (place_of(view_.record, stop.thing)) return go_to(stop.thing);
  seek_film(stop.at);
  if (has_sheet()) show_moment(state_.sheet, sheet(), stop.at, state_.sheet_height);
}

void Answers::walk(Action action) {
  if (!has_sheet()) return;
  switch (action) {
    case Action::previous_pin:
    case Action::next_pin: {
      const int by = action == Action::next_pin ? 1 : -1;
      if (!state_.workings.wiring) return walk_stops(sheet().stops, by);
      std::vector<PinStop> figures;  // nothing else goes into a relation
      std::copy_if(sheet().stops.begin(), sheet().stops.end(), std::back_inserter(figures),
                   [](const PinStop& s) { return std::holds_alternative<model::FigureId>(s.thing); });
      return walk_stops(figures, by);
    }
    case Action::previous_finding:
    case Action::next_finding: {
      const auto& findings = state_.kept_findings.value();
      FindingsState& list = state_.lower.findings;
      state_.lower.page = LowerState::Page::findings;
      const auto next = step_finding(findings, list.chosen, action == Action::next_finding ? 1 : -1, list.only);
      if (!next || findings.rows.empty()) return;
      list.chosen.choose(findings, *next);
      list.follow = true;
      Asks asks;
      go_to_finding(findings.rows[*next], asks);
      return take(asks);
    }
    case Action::search:
      state_.sheet.to_search = true;
      return;
    case Action::follow:
      state_.sheet.follow = true;
      state_.sheet.glide_to.reset();
      return;
    case Action::words_back:
    case Action::words_on: {
      const model::Place here{view_.transport.footage, view_.transport.at, std::nullopt};
      const auto words = step_words(view_.record, state_.selection.words, action == Action::words_on ? 1 : -1, here);
      if (!words) return;
      select({words->line, words});
      if (const auto* line = model::find(view_.record, words->line)) {
        show_moment(state_.sheet, sheet(), sheet().film.to_film(line->footage, line->when.from), state_.sheet_height);
      }
      return;
    }
    case Action::line_here:
      return time_line();
    case Action::words_grow:
    case Action::words_shrink: {
      if (!state_.selection.words) return;
      const auto words = grow_words(view_.record, *state_.selection.words, action == Action::words_grow ? 1 : -1);
      return select({words.line, words});
    }
    default:
      return;
  }
}

// Script that was typed or pasted without times: each press gives the selected line its moment.
void Answers::time_line() {
  if (!may_change()) return;
  const auto& lines = sheet().lines;
  const auto selected = state_.selection.as<model::LineId>();
  auto line = std::find_if(lines.begin(), lines.end(), [&](const LineShown& l) { return selected == l.id; });
  if (line == lines.end()) {  // none selected yet: the next to be said is
    const Moment now = film_now(view_, sheet().film);
    line = std::find_if(lines.begin(), lines.end(), [&](const LineShown& l) { return l.when.from >= now; });
  } else {
    const auto* stored = model::find(view_.record, line->id);
    if (stored == nullptr || stored->footage != view_.transport.footage) return;
    want(session::MovePin{line->id, view_.transport.at});
    ++line;
  }
  if (line != lines.end()) select({line->id, std::nullopt});
}

void Answers::show_proposal_list() {
  state_.lower.page = LowerState::Page::proposals;
  state_.lower.follow_proposal = true;
}

void Answers::propose(Action action) {
  if (!has_sheet()) return;
  const auto& selected = state_.selection.thing;
  switch (action) {
    case Action::previous_proposal:
    case Action::next_proposal:
      show_proposal_list();
      return walk_stops(sheet().proposals, action == Action::next_proposal ? 1 : -1);
    case Action::accept:
    case Action::refuse: {
      if (!may_change()) return;
      show_proposal_list();
      if (!selected || standing_of(view_.record, *selected) != model::Standing::proposed)
        return walk_stops(sheet().proposals, 1);
      const auto thing = *selected;
      if (action == Action::accept) {
        want(session::Accept{{thing}});
      } else {
        want(session::Refuse{{thing}});
        select({});
      }
      const auto next = step_stop(sheet().proposals, Selection{thing, std::nullopt}, film_now(view_, sheet().film), 1);
      if (!next) return;
      return go_to_stop(*next);
    }
    case Action::accept_all: {
      const auto& sure = state_.kept_proposals.value().sure;
      if (may_change() && !sure.empty()) want(session::Accept{sure});
      return;
    }
    case Action::read_narration:
      if (may_change()) want(session::ReadNarration{});
      return;
    default:
      return;
  }
}

}  // namespace sash::desk
