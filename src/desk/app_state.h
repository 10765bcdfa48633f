#pragma once
// What the desk remembers between frames, and what it shows of the session, made anew only when something it depends on
// changed. For app.cpp, answer.cpp and answer_walk.cpp only.

#include <optional>
#include <tuple>

#include "desk/app.h"
#include "desk/draw/editor.h"
#include "desk/draw/footage.h"
#include "desk/draw/kit/notices.h"
#include "desk/draw/lower_pane.h"
#include "desk/draw/panels.h"
#include "desk/draw/sheet.h"
#include "desk/draw/workings.h"
#include "desk/shown/asks.h"

namespace sash::desk {

/// A value with what it was made from; made again when that changes.
template <class Key, class Value>
class Kept {
 public:
  template <class Make>
  const Value& get(const Key& key, Make&& make) {
    if (!value_ || !(key_ == key)) {
      value_ = make();
      key_ = key;
      ++made_;
    }
    return *value_;
  }
  bool there() const { return value_.has_value(); }
  const Value& value() const { return *value_; }
  int made() const { return made_; }  ///< how often; for tests of the cost

 private:
  Key key_{};
  std::optional<Value> value_;
  int made_ = 0;
};

/// The record as of one state: changes with every edit, every new report and every other record.
struct RecordKey {
  std::string path;
  std::uint64_t revision = 0;
  const void* report = nullptr;
  std::size_t findings = 0;
  double statistic = 0;
  bool operator==(const RecordKey&) const = default;
};

struct SheetKey {
  RecordKey record;
  float width = 0;
  float em = 0;
  std::string search;
  bool operator==(const SheetKey&) const = default;
};

struct BarKey {
  RecordKey record;
  std::size_t slots = 0;
  bool operator==(const BarKey&) const = default;
};

struct SelectedKey {
  RecordKey record;
  Selection selection;
  bool operator==(const SelectedKey&) const = default;
};

struct AppState {
  Settings settings;
  Selection selection;
  SheetState sheet;
  FootageState footage;
  EditorState editor;
  WorkingsState workings;
  LowerState lower;
  std::optional<std::size_t> proposals_seen;  ///< how many there were in the last frame
  PanelState panels;
  PathState welcome_path;
  Notices notices;
  std::uint64_t last_notice = 0;    // of those that became cards
  std::uint64_t newest_notice = 0;  // of those told at the foot
  double news_since = 0;
  std::optional<session::ThingRef> last_made;
  std::string record_path;

  Kept<RecordKey, FigureVerdicts> kept_verdicts;
  Kept<RecordKey, FindingsShown> kept_findings;
  Kept<SheetKey, SheetShown> kept_sheet;
  Kept<BarKey, BarShown> kept_bar;
  Kept<RecordKey, std::optional<Outlook>> kept_outlook;
  Kept<SheetKey, ProposalsShown> kept_proposals;
  Kept<SelectedKey, WorkingsShown> kept_workings;
  Kept<SelectedKey, EditorShown> kept_editor;

  float sheet_height = 400;  ///< of the last frame
};

/// Turns what pages and keys ask into intents and changes of `state`.
class Answers {
 public:
  Answers(AppState& state, const session::SessionView& view, Kit& kit, FrameResult& result)
      : state_(state), view_(view), kit_(kit), result_(result) {}

  void keys();
  void take(const Asks& asks);
  void act(Action action);

 private:
  void play(Action action);
  void pin(Action action);
  void walk(Action action);
  void propose(Action action);
  void time_line();
  void show_proposal_list();
  void arrange(Action action);

  void want(session::Intent intent) { result_.intents.push_back(std::move(intent)); }
  void select(const Selection& selection);
  void go_to(const session::ThingRef& thing);
  void seek_film(Moment film);
  void go_to_stop(const PinStop& stop);
  void walk_stops(const std::vector<PinStop>& stops, int by);
  void open_path(PathUse use);
  bool may_change() const { return !view_.read_only && view_.has_record; }
  const SheetShown& sheet() const { return state_.kept_sheet.value(); }
  bool has_sheet() const { return view_.has_record && state_.kept_sheet.there(); }

  AppState& state_;
  const session::SessionView& view_;
  Kit& kit_;
  FrameResult& result_;
};

}  // namespace sash::desk
