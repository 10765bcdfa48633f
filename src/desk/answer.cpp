// Keys and asks become intents here: one place decides what each action of the key table does.
#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

#include "desk/app_state.h"
#include "desk/shown/editor.h"
#include "desk/shown/wiring.h"

namespace sash::desk {

void Answers::keys() {
  std::vector<Action> actions;
  for (const KeyEvent& event : kit_.keys().left()) {
    if (const auto action = action_of(event, kit_.typing())) actions.push_back(*action);
  }
  if (actions.empty()) return;
  kit_.keys().clear();
  for (const Action action : actions) act(action);
}

void Answers::take(const Asks& asks) {
  // What was pressed with the mouse keeps no keyboard: Space is play again, not the button pressed last. What the press
  // opens may still take it.
  const bool pressed = !asks.intents.empty() || !asks.actions.empty() || asks.select;
  if (pressed && ImGui::IsMouseReleased(0) && !kit_.typing() && !state_.sheet.editing) kit_.focus().let_go();
  for (const auto& intent : asks.intents) want(intent);
  for (const Action action : asks.actions) act(action);
  if (asks.select) {
    const auto figure = asks.select->as<model::FigureId>();
    if (state_.workings.wiring && figure) {  // figures are being picked: this one goes into the relation, or out of it
      pick_figure(*state_.workings.wiring, view_.record, *figure);
    } else {
      select(*asks.select);
      if (asks.go_there && asks.select->thing) go_to(*asks.select->thing);
    }
  }
  if (asks.look_at) go_to(*asks.look_at);
  if (asks.edit) act(Action::edit_pin);
}

void Answers::select(const Selection& selection) { state_.selection = selection; }

void Answers::go_to(const session::ThingRef& thing) {
  const auto place = place_of(view_.record, thing);
  if (!place) return;
  want(session::Seek{place->footage, place->from, true});
  if (has_sheet()) show_moment(state_.sheet, sheet(), sheet().film.to_film(*place), state_.sheet_height);
}

void Answers::seek_film(Moment film) {
  if (!has_sheet() || sheet().film.empty()) return;
  const auto spot = sheet().film.from_film(film);
  want(session::Seek{spot.footage, spot.at, true});
}

void Answers::act(Action action) {
  switch (action) {
    case Action::toggle_play:
    case Action::shuttle_back:
    case Action::shuttle_stop:
    case Action::shuttle_on:
    case Action::step_back:
    case Action::step_on:
    case Action::jump_back:
    case Action::jump_on:
    case Action::to_start:
    case Action::to_end:
    case Action::slower:
    case Action::faster:
    case Action::loop_pin:
    case Action::louder:
    case Action::softer:
      return play(action);
    case Action::pin_figure:
    case Action::pin_yield:
    case Action::pin_hazard:
    case Action::pin_note:
    case Action::pin_chapter:
    case Action::write_line:
    case Action::end_span:
    case Action::write_callout:
    case Action::edit_pin:
    case Action::remove_pin:
    case Action::move_pin_here:
    case Action::wire:
    case Action::keep_relation:
      return pin(action);
    case Action::previous_pin:
    case Action::next_pin:
    case Action::previous_finding:
    case Action::next_finding:
    case Action::search:
    case Action::follow:
    case Action::words_back:
    case Action::words_on:
    case Action::words_grow:
    case Action::words_shrink:
    case Action::line_here:
      return walk(action);
    case Action::previous_proposal:
    case Action::next_proposal:
    case Action::accept:
    case Action::refuse:
    case Action::accept_all:
    case Action::read_narration:
      return propose(action);
    case Action::undo:
      if (!view_.undo_name.empty()) want(session::Undo{});
      return;
    case Action::redo:
      if (!view_.redo_name.empty()) want(session::Redo{});
      return;
    case Action::close_record:
      if (view_.has_record) want(session::CloseRecord{});
      return;
    default:
      return arrange(action);
  }
}

void Answers::play(Action action) {
  if (!view_.has_record) return;
  const session::Transport& now = view_.transport;
  const Moment second = Moment::seconds(1);
  constexpr std::array speeds{0.25, 0.5, 1.0, 2.0, 4.0};
  const auto speed =
      std::find_if(speeds.begin(), speeds.end(), [&](double s) { return s >= std::abs(now.speed) - 1e-9; });
  switch (action) {
    case Action::toggle_play:
      return want(session::TogglePlay{});
    case Action::shuttle_back:
      return want(session::Shuttle{-1});
    case Action::shuttle_stop:
      return want(session::Shuttle{0});
    case Action::shuttle_on:
      return want(session::Shuttle{1});
    case Action::step_back:
      return want(session::StepFrames{-1});
    case Action::step_on:
      return want(session::StepFrames{1});
    case Action::jump_back:
      return want(session::Seek{now.footage, std::max(Moment(), now.at - second), true});
    case Action::jump_on:
      return want(session::Seek{now.footage, now.at + second, true});
    case Action::to_start:
      return seek_film(Moment());
    case Action::to_end:
      return seek_film(has_sheet() ? sheet().film.length() : Moment());
    case Action::slower:
      return want(
          session::SetSpeed{speed == speeds.begin() || speed == speeds.end() ? speeds.front() : *std::prev(speed)});
    case Action::faster:
      return want(session::SetSpeed{speed == speeds.end() || std::next(speed) == speeds.end() ? speeds.back()
                                                                                              : *std::next(speed)});
    case Action::louder:
    case Action::softer: {
      const double step = action == Action::louder ? 0.1 : -0.1;
      state_.settings.volume = std::clamp(std::round((now.volume + step) * 10) / 10, 0.0, 1.0);
      return want(session::SetVolume{state_.settings.volume});
    }
    case Action::loop_pin: {
      if (now.loop) return want(session::LoopOver{});
      if (!state_.selection.thing) return;
      const auto place = place_of(view_.record, *state_.selection.thing);
      if (place && place->until) want(session::LoopOver{place->stretch()});
      return;
    }
    default:
      return;
  }
}

void Answers::pin(Action action) {
  if (!may_change()) return;
  const auto& selected = state_.selection.thing;
  switch (action) {
    case Action::pin_figure:
      if (state_.selection.words) return want(session::PinWords{*state_.selection.words});
      return want(session::PinHere{session::PinKind::figure});
    case Action::pin_yield:
      return want(session::PinHere{session::PinKind::yield});
    case Action::pin_hazard: {
      // The second press ends the hazard that the first one began, unless something else was selected since.
      const auto* made = view_.just_made ? std::get_if<model::HazardId>(&*view_.just_made) : nullptr;
      const auto* h = made != nullptr ? model::find(view_.record, *made) : nullptr;
      const bool goes_on = !selected || selected == view_.just_made;
      if (h != nullptr && !h->place.until && goes_on) return want(session::EndSpanHere{h->id});
      return want(session::PinHere{session::PinKind::hazard});
    }
    case Action::pin_note:
      return want(session::PinHere{session::PinKind::note});
    case Action::pin_chapter:
      return want(session::PinHere{session::PinKind::chapter});
    case Action::write_line:
      state_.sheet.editing = SheetState::LineEdit{};
      if (has_sheet()) show_moment(state_.sheet, sheet(), film_now(view_, sheet().film), state_.sheet_height);
      return;
    case Action::write_callout: {
      const auto hazard = state_.selection.as<model::HazardId>();
      const auto* h = hazard ? model::find(view_.record, *hazard) : nullptr;
      if (h != nullptr) want(session::PutThing{callout_for(*h), "Write callout"});
      return;
    }
    case Action::wire: {
      const auto figure = state_.selection.as<model::FigureId>();
      if (!state_.workings.wiring) begin_wiring(state_.workings);
      if (figure) pick_figure(*state_.workings.wiring, view_.record, *figure);
      return;
    }
    case Action::keep_relation: {
      if (!state_.workings.wiring) return;
      const auto kept = kept_relation(*state_.workings.wiring);
      if (!kept) return;
      want(*kept);
      state_.workings.wiring.reset();
      return kit_.focus().let_go();
    }
    default:
      break;
  }
  if (!selected) return;
  switch (action) {
    case Action::end_span:
      return want(session::EndSpanHere{*selected});
    case Action::move_pin_here:
      if (place_of(view_.record, *selected)) want(session::MovePin{*selected, view_.transport.at});
      return;
    case Action::remove_pin:
      want(session::RemoveThings{{*selected}});
      return select({});
    case Action::edit_pin: {
      if (const auto line = state_.selection.as<model::LineId>()) {
        if (const auto* l = model::find(view_.record, *line))
          state_.sheet.editing = SheetState::LineEdit{l->id, l->text, true};
        return;
      }
      if (const auto relation = state_.selection.as<model::RelationId>()) {
        if (const auto* r = model::find(view_.record, *relation)) change_wiring(state_.workings, *r);
        return;
      }
      state_.editor.to_first_field = true;
      return;
    }
    default:
      return;
  }
}

void Answers::open_path(PathUse use) {
  PathState path;
  path.use = use;
  const std::filesystem::path record(view_.path);
  if (use == PathUse::export_script) path.text = (record.parent_path() / (record.stem().string() + " script")).string();
  if (use == PathUse::save_copy) path.text = (record.parent_path() / (record.stem().string() + " copy.sash")).string();
  path.to_end = true;
  state_.panels.path = std::move(path);
  state_.panels.open = Panel::path;
}

void Answers::arrange(Action action) {
  const auto toggle = [&](Panel panel) {
    state_.panels.open = state_.panels.open == panel ? Panel::none : panel;
    state_.panels.fresh = true;
  };
  const auto scale = [&](float by) {
    const float next = std::round((state_.settings.font_scale + by) * 20) / 20;
    state_.settings.font_scale = std::clamp(next, least_font_scale, most_font_scale);
  };
  switch (action) {
    case Action::export_script:
      if (view_.has_record) open_path(PathUse::export_script);
      return;
    case Action::save_copy:
      if (view_.has_record) open_path(PathUse::save_copy);
      return;
    case Action::add_files:
      return open_path(PathUse::open);
    case Action::paste: {
      const char* text = ImGui::GetClipboardText();
      if (text != nullptr && !std::string_view(text).empty()) want(intent_for_pasted(text));
      return;
    }
    case Action::find_action:
      return toggle(Panel::actions);
    case Action::show_keys:
      return toggle(Panel::keys);
    case Action::show_settings:
      return toggle(Panel::settings);
    case Action::scratch:
      return toggle(Panel::scratch);
    case Action::switch_theme:
      state_.settings.look = state_.settings.look == LookName::dim ? LookName::paper : LookName::dim;
      return;
    case Action::bigger:
      return scale(0.1F);
    case Action::smaller:
      return scale(-0.1F);
    case Action::next_pane:
    case Action::previous_pane: {
      const std::array<std::string_view, 4> firsts{
          "footage.play", "sheet.search", state_.workings.wiring ? "wire.type" : "workings.wire",
          state_.lower.page == LowerState::Page::findings ? "findings.list" : "proposals.list"};
      std::size_t at = firsts.size() - 1;
      for (std::size_t i = 0; i < firsts.size(); ++i) {
        if (kit_.focus().is_on(firsts[i])) at = i;
      }
      at = (at + (action == Action::next_pane ? 1 : firsts.size() - 1)) % firsts.size();
      return kit_.focus().move_to(firsts[at]);
    }
    case Action::leave:
      if (state_.panels.open != Panel::none) {
        state_.panels.open = Panel::none;
      } else if (!state_.notices.empty()) {
        state_.notices.put_away();
      } else if (state_.workings.wiring) {
        state_.workings.wiring.reset();
      } else if (!state_.sheet.search.empty()) {
        state_.sheet.search.clear();
      } else {
        select({});
        state_.lower.findings.chosen.forget();
      }
      return kit_.focus().let_go();
    default:
      return;
  }
}

}  // namespace sash::desk
