#include "desk/app.h"

#include <algorithm>
#include <cmath>

#include "desk/app_state.h"
#include "desk/draw/edges.h"
#include "desk/draw/font_measure.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/sheet_blocks.h"

namespace sash::desk {
namespace {

constexpr std::size_t most_offers = 8;

RecordKey key_of(const session::SessionView& view) {
  return {view.path, view.revision, &view.report, view.report.findings.size(), view.report.test.statistic};
}

bool has_clips(const model::Record& record) {
  return std::ranges::any_of(record.footages, [](const model::Footage& f) { return !f.path.empty(); });
}

// The panes of a window with a record.
struct Layout {
  Rect top;
  Rect banner;
  Rect left;
  Rect middle;
  Rect workings;
  Rect findings;
  Rect foot;
  Rect left_grip;
  Rect right_grip;
  Rect lower_grip;
};

Layout lay_out(const Rect& window, const Metrics& m, const Splits& splits, bool banner) {
  Layout l;
  const float top = m.row + m.px(8);
  const float foot = m.tight_row;
  float y = window.min.y + top;
  l.top = {window.min, {window.max.x, y}};
  l.banner = {{window.min.x, y}, {window.max.x, y + (banner ? m.row : 0)}};
  y = l.banner.max.y;
  const float bottom = window.max.y - foot;
  l.foot = {{window.min.x, bottom}, window.max};
  const float whole = window.width();
  // With large text the sheet keeps a readable width; the sides give way down to theirs.
  const float sheet_least = std::min(m.body * 29, whole * 0.6F);
  const float side_least = m.body * 13;
  float left_width = whole * splits.left;
  float right_width = whole * splits.right;
  if (const float lack = sheet_least - (whole - left_width - right_width - 2 * m.grip); lack > 0) {
    const float from_left = std::clamp(lack / 2, 0.0F, std::max(0.0F, left_width - side_least));
    left_width -= from_left;
    right_width -= std::clamp(lack - from_left, 0.0F, std::max(0.0F, right_width - side_least));
  }
  const float left = std::round(left_width);
  const float right = std::round(whole - right_width);
  l.left = {{window.min.x, y}, {left, bottom}};
  l.left_grip = {{left, y}, {left + m.grip, bottom}};
  l.right_grip = {{right - m.grip, y}, {right, bottom}};
  l.middle = {{l.left_grip.max.x, y}, {l.right_grip.min.x, bottom}};
  const float lower = std::round(bottom - (bottom - y) * splits.lower);
  l.workings = {{right, y}, {window.max.x, lower - m.grip}};
  l.lower_grip = {{right, lower - m.grip}, {window.max.x, lower}};
  l.findings = {{right, lower}, {window.max.x, bottom}};
  return l;
}

void splitters(Kit& kit, const Rect& window, const Layout& l, Splits& splits) {
  const Splits usual;
  const float whole = window.width();
  float left = l.left_grip.min.x;
  if (splitter(kit, "split.left", Axis::upright, l.left_grip, left, whole * 0.18F, whole * 0.55F, whole * usual.left)) {
    splits.left = left / whole;
  }
  float right = l.right_grip.max.x;
  if (splitter(kit, "split.right", Axis::upright, l.right_grip, right, whole * 0.55F, whole * 0.82F,
               whole * (1 - usual.right))) {
    splits.right = 1 - right / whole;
  }
  const float top = l.workings.min.y;
  const float height = l.findings.max.y - top;
  float lower = l.lower_grip.max.y;
  if (splitter(kit, "split.lower", Axis::level, l.lower_grip, lower, top + height * 0.15F, top + height * 0.85F,
               top + height * (1 - usual.lower))) {
    splits.lower = 1 - (lower - top) / height;
  }
  splits = usable(splits);
}

// A fine line from each figure in the sheet that the workings speak of to its place there.
void leaders(Kit& kit, const Layout& l, const std::vector<FigureAnchor>& sheet,
             const std::vector<FigureAnchor>& workings, const Selection& selection) {
  const Theme& t = kit.theme();
  ImDrawList& list = *ImGui::GetForegroundDrawList();
  list.PushClipRect({l.middle.min.x, l.middle.min.y}, {l.findings.max.x, l.findings.max.y});
  for (const FigureAnchor& to : workings) {
    if (to.at.y < l.workings.min.y + kit.m().row || to.at.y > l.workings.max.y) continue;
    const auto from =
        std::find_if(sheet.begin(), sheet.end(), [&](const FigureAnchor& a) { return a.figure == to.figure; });
    if (from == sheet.end() || from->at.y < l.middle.min.y + kit.m().row * 2) continue;
    const bool selected = selection.as<model::FigureId>() == to.figure;
    const float bend = std::max(kit.m().px(30), (to.at.x - from->at.x) * 0.5F);
    list.AddBezierCubic(from->at, {from->at.x + bend, from->at.y}, {to.at.x - bend, to.at.y}, to.at,
                        t.accent.faded(selected ? 0.95F : 0.45F).packed(), selected ? kit.m().px(1.5F) : kit.m().hair);
    list.AddCircleFilled(from->at, kit.m().px(2), t.accent.packed());
  }
  list.PopClipRect();
}

void refresh_offers(PathState& path, const Host& host) {
  if (!std::exchange(path.changed, false)) return;
  path.offers.clear();
  if (path.text.empty() || !host.list_folder) return;
  const auto slash = path.text.find_last_of('/');
  const std::string folder = slash == std::string::npos ? "./" : path.text.substr(0, slash + 1);
  const std::string name = slash == std::string::npos ? path.text : path.text.substr(slash + 1);
  for (const std::string& entry : completions(name, host.list_folder(folder), most_offers)) {
    if (entry != name) path.offers.push_back(slash == std::string::npos ? entry : folder + entry);
  }
}

}  // namespace

struct App::Inner {
  AppState state;

  // Selects what was just made and opens its editor; drops what is gone.
  void follow_record(const session::SessionView& view) {
    if (state.record_path != view.path) {
      state.record_path = view.path;
      state.selection = {};
      state.editor = {};
      state.workings.wiring.reset();
      state.lower = {};
      state.proposals_seen.reset();
      state.sheet = {};
      state.last_made = view.just_made;
    }
    if (view.just_made != state.last_made) {
      state.last_made = view.just_made;
      if (view.just_made) made(view, *view.just_made);
    }
    if (state.selection.thing && !thing_of(view.record, *state.selection.thing)) state.selection = {};
    if (state.selection.words) {
      const auto* line = model::find(view.record, state.selection.words->line);
      if (line == nullptr || state.selection.words->begin + state.selection.words->length > line->text.size())
        state.selection = {};
    }
  }

  void made(const session::SessionView& view, const session::ThingRef& thing) {
    if (std::holds_alternative<model::PortionId>(thing)) {
      if (const auto figure = std::exchange(state.editor.portion_for, std::nullopt)) {
        if (const auto* f = model::find(view.record, *figure)) {
          model::Figure n = *f;
          n.portion = std::get<model::PortionId>(thing);
          pending.push_back(session::PutThing{n, "Put figure into portion"});
        }
      }
      return;
    }
    if (!thing_of(view.record, thing)) return;
    state.selection = {thing, std::nullopt};
    state.editor.fresh = true;
    state.editor.to_first_field =
        !std::holds_alternative<model::RelationId>(thing) && !std::holds_alternative<model::LineId>(thing);
  }

  void tell_news(const session::SessionView& view, double now) {
    state.notices.keep_only([&](std::uint64_t number) {
      return std::ranges::any_of(view.notices, [&](const session::Notice& n) { return n.number == number; });
    });
    for (const auto& notice : view.notices) {
      if (notice.number <= state.last_notice) continue;
      state.last_notice = notice.number;
      const bool in_banner = view.read_only == notice.sentence;
      if (notice.result) state.notices.say({.text = notice.sentence, .stays = 30.0, .number = notice.number}, now);
      if (notice.fault && !in_banner)
        state.notices.say({.text = notice.sentence, .tone = Safety::warning, .number = notice.number}, now);
    }
  }

  // What was done last is told at the foot for a while.
  bool news_fresh(Kit& kit, const session::SessionView& view) {
    constexpr double while_in_seconds = 20;
    const std::uint64_t newest = view.notices.empty() ? 0 : view.notices.back().number;
    if (newest != state.newest_notice) {
      state.newest_notice = newest;
      state.news_since = kit.now();
    }
    const double rest = state.news_since + while_in_seconds - kit.now();
    if (newest != 0 && rest > 0) kit.wake_in(rest);
    return rest > 0;
  }

  // Proposals are shown first when they have just come, and in a record that is hardly anything else; but what is wrong
  // among them comes before all of them.
  void turn_to_proposals(const SheetShown& shown, bool wrong) {
    const std::size_t count = shown.proposals.size();
    const bool come = state.proposals_seen ? *state.proposals_seen == 0 && count > 0 : count * 2 > shown.pins;
    if (come) state.lower.page = wrong ? LowerState::Page::findings : LowerState::Page::proposals;
    state.proposals_seen = count;
  }

  const SheetShown& sheet(Kit& kit, const session::SessionView& view, const FigureVerdicts& verdicts, float width) {
    const Metrics& m = kit.m();
    const SheetKey key{key_of(view), width, m.body, state.sheet.search};
    const bool had = state.kept_sheet.there();
    const Moment top = had ? state.kept_sheet.value().elastic.at(state.sheet.top) : Moment();
    const int made = state.kept_sheet.made();
    const SheetShown& shown = state.kept_sheet.get(key, [&] {
      const FontMeasure body(*kit.fonts().body);
      const FontMeasure small(*kit.fonts().small);
      const SheetSizes s = SheetSizes::of(m);
      return show_sheet(
          {view.record, view.cover, verdicts, state.sheet.search},
          {share_columns(width, m.body, has_clips(view.record)), body, small, s.gap, s.inset, s.lane, s.sign});
    });
    if (had && state.kept_sheet.made() != made) {  // the same moment stays at the upper edge
      state.sheet.top = shown.elastic.y(top);
      state.sheet.glide_to.reset();
      state.sheet.pressed_block.reset();
    }
    return shown;
  }

  void record_pages(Kit& kit, const session::SessionView& view, const Host& host, const Rect& window,
                    Answers& answers) {
    const Metrics& m = kit.m();
    Asks asks;
    const Layout l = lay_out(window, m, state.settings.splits, view.read_only.has_value());
    const RecordKey record = key_of(view);
    const auto& outlook = state.kept_outlook.get(record, [&] { return outlook_of(view.record); });
    const Judged judged = Judged::ahead(view, outlook);
    const auto& verdicts = state.kept_verdicts.get(record, [&] { return verdicts_of(judged.report); });
    const SheetShown& shown = sheet(kit, view, verdicts, l.middle.width() - m.scrollbar);
    const auto& findings = state.kept_findings.get(record, [&] { return show_findings(judged, shown.film); });
    state.lower.findings.chosen.follow(findings);
    const auto& proposals = state.kept_proposals.get(
        {record, 0, 0, state.sheet.search}, [&] { return show_proposals(view.record, shown.proposals, outlook); });
    turn_to_proposals(shown, brings_conflicts(outlook, view.report));
    const auto& bar = state.kept_bar.get({record, bar_slots(m, l.left.width() - m.px(16))}, [&] {
      return show_bar(view.record, view.cover, verdicts, shown.film, bar_slots(m, l.left.width() - m.px(16)));
    });
    const auto& workings =
        state.kept_workings.get({record, state.selection}, [&] { return show_workings(judged, state.selection); });
    const auto& editor = state.kept_editor.get({record, state.selection}, [&] {
      return show_editor(view.record, view.cover, state.selection, view.read_only.has_value());
    });

    draw_top(kit, l.top, show_top(view), &findings, asks);
    if (view.read_only) draw_read_only(kit, l.banner, *view.read_only);
    const TransportShown transport = show_transport(view, shown.film, bar);
    const float below = draw_footage(kit, l.left, {transport, bar, shown.film, view, state.selection}, state.footage,
                                     host.surfaces, asks);
    draw_editor(kit, {{l.left.min.x, below}, l.left.max}, editor, state.editor, asks);

    std::vector<FigureAnchor> sheet_anchors;
    std::vector<FigureAnchor> working_anchors;
    state.sheet_height = l.middle.height() - m.row * 2;
    draw_sheet(kit, l.middle,
               {shown, view, state.selection, film_now(view, shown.film), state.workings.wiring.has_value()},
               state.sheet, host.surfaces, asks, sheet_anchors);
    draw_workings(kit, l.workings, workings, view, state.workings, asks, working_anchors);
    draw_lower(kit, l.findings, {findings, proposals, state.selection, view.read_only.has_value()}, state.lower, asks);
    draw_foot(kit, l.foot, show_foot(view, news_fresh(kit, view)), asks);
    splitters(kit, window, l, state.settings.splits);
    if (state.panels.open == Panel::none) leaders(kit, l, sheet_anchors, working_anchors, state.selection);
    answers.take(asks);
  }

  void welcome_pages(Kit& kit, const session::SessionView& view, const Host& host, const Rect& window,
                     Answers& answers) {
    const Metrics& m = kit.m();
    Asks asks;
    const float top = m.row + m.px(8);
    draw_top(kit, {window.min, {window.max.x, window.min.y + top}}, {}, nullptr, asks);
    refresh_offers(state.welcome_path, host);
    draw_welcome(kit, {{window.min.x, window.min.y + top}, {window.max.x, window.max.y - m.tight_row}},
                 show_welcome(view, host.can_choose), state.welcome_path, asks);
    draw_foot(kit, {{window.min.x, window.max.y - m.tight_row}, window.max}, show_foot(view, news_fresh(kit, view)),
              asks);
    answers.take(asks);
  }

  std::vector<session::Intent> pending;  // made by what came back from the session
};

App::App(Settings settings) : inner_(std::make_unique<Inner>()) {
  inner_->state.settings = settings;
  inner_->state.welcome_path.fresh = false;
}

App::~App() = default;

const Settings& App::settings() const { return inner_->state.settings; }
Settings& App::settings() { return inner_->state.settings; }
const Selection& App::selection() const { return inner_->state.selection; }

FrameResult App::frame(Kit& kit, const session::SessionView& view, const Host& host) {
  FrameResult result;
  AppState& state = inner_->state;
  inner_->follow_record(view);
  inner_->tell_news(view, kit.now());
  result.intents = std::exchange(inner_->pending, {});
  Answers answers(state, view, kit, result);

  const Root root(kit);
  const Rect window = root.rect();
  if (view.has_record) {
    inner_->record_pages(kit, view, host, window, answers);
  } else {
    inner_->welcome_pages(kit, view, host, window, answers);
  }
  if (state.panels.open == Panel::path) refresh_offers(state.panels.path, host);
  Asks asks;
  const float edge = kit.m().row + kit.m().px(10);
  draw_panel(kit,
             {{window.min.x + kit.m().pad, window.min.y + edge}, {window.max.x - kit.m().pad, window.max.y - edge}},
             {view, host.can_choose}, state.panels, state.settings, asks);
  answers.take(asks);
  state.notices.draw(kit, {window.min, {window.max.x, window.max.y - kit.m().tight_row}});
  answers.keys();

  if (std::exchange(state.welcome_path.choose, false)) result.choose = Choosing::open;
  if (std::exchange(state.panels.path.choose, false)) {
    const PathUse use = state.panels.path.use;
    result.choose = use == PathUse::open        ? Choosing::open
                    : use == PathUse::save_copy ? Choosing::copy
                                                : Choosing::export_folder;
  }
  return result;
}

std::vector<session::Intent> App::chosen(Choosing what, const std::vector<std::string>& paths) {
  if (paths.empty()) return {};
  inner_->state.panels.open = Panel::none;
  switch (what) {
    case Choosing::open:
      return {intent_for(paths)};
    case Choosing::export_folder:
      return {session::ExportScript{paths.front()}};
    case Choosing::copy:
      return {session::SaveCopy{paths.front()}};
  }
  return {};
}

}  // namespace sash::desk
