#include "desk/draw/sheet.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/text_block.h"
#include "desk/draw/sheet_backdrop.h"
#include "desk/draw/sheet_blocks.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

using Kind = SheetItem::Kind;

constexpr double playhead_low = 0.72;   // share of the height past which the sheet moves on
constexpr double playhead_rest = 0.30;  // where it then puts the playhead
constexpr float drag_begins = 4;        // pixels

session::ThingRef ref_of_block(const SheetShown& shown, const SheetItem& item) {
  switch (item.kind) {
    case Kind::line:
      return shown.lines[item.index].id;
    case Kind::note:
      return shown.notes[item.index].id;
    case Kind::chapter:
      return shown.chapters[item.index].id;
    case Kind::figure:
      return shown.figures[item.index].id;
    case Kind::hazard:
      return shown.hazards[item.index].id;
    case Kind::callout:
      return shown.callouts[item.index].id;
    case Kind::gap:
      break;
  }
  return model::LineId{};
}

std::string block_id(const SheetShown& shown, const SheetItem& item) {
  static constexpr std::string_view names[] = {"line", "note", "chapter", "figure", "hazard", "callout", "gap"};
  const auto number = std::visit([](auto id) { return id.number; }, ref_of_block(shown, item));
  return "sheet." + std::string(names[static_cast<std::size_t>(item.kind)]) + "." + std::to_string(number);
}

// One frame of the sheet's body.
class Body {
 public:
  Body(Kit& kit, const Rect& at, const SheetFrame& frame, SheetState& state, Surfaces& surfaces, Asks& asks,
       std::vector<FigureAnchor>& anchors)
      : kit_(kit),
        at_(at),
        frame_(frame),
        shown_(frame.shown),
        state_(state),
        surfaces_(surfaces),
        asks_(asks),
        anchors_(anchors) {}

  void run() {
    const Pane pane(kit_, "sheet", at_, {.scrolls = false, .padded = false});
    pressed_ = area(kit_, "sheet.body", at_, {.label = "running sheet", .by_keyboard = false, .draggable = true});
    if (pane.hovered()) wheel();
    scroll_bar();
    follow();
    state_.top = std::clamp(state_.top, least_top(), most_top());
    find_hovered();
    paint();
    answer();
    edit_line();
  }

 private:
  const Theme& t() const { return kit_.theme(); }
  const Metrics& m() const { return kit_.m(); }
  double view_height() const { return static_cast<double>(at_.height()); }
  // Air above the first moment, so that the playhead's flag there is whole.
  double least_top() const { return -static_cast<double>(m().px(12)); }
  double most_top() const { return std::max(least_top(), shown_.elastic.height() - view_height() * 0.6); }
  float to_window(double y) const { return at_.min.y + static_cast<float>(y - state_.top); }
  double to_sheet(float y) const { return state_.top + static_cast<double>(y - at_.min.y); }
  float x(const SheetColumns::Column& c) const { return at_.min.x + c.x; }

  // --- moving

  void wheel() {
    const float notches = ImGui::GetIO().MouseWheel;
    if (notches == 0) return;
    const double from = state_.glide_to.value_or(state_.top);
    state_.glide_to = std::clamp(from - static_cast<double>(notches * m().px(72)), least_top(), most_top());
    state_.follow = false;
  }

  void follow() {
    if (state_.drag == SheetState::Drag::scrub) return;
    if (state_.follow) {
      const double y = shown_.elastic.y(frame_.now);
      const double target = state_.glide_to.value_or(state_.top);
      if (y < target + std::min(view_height() * 0.06, -least_top()) || y > target + view_height() * playhead_low) {
        state_.glide_to = std::clamp(y - view_height() * playhead_rest, least_top(), most_top());
      }
    }
    if (!state_.glide_to) return;
    const double way = *state_.glide_to - state_.top;
    if (std::abs(way) < 0.75 || std::abs(way) > view_height() * 3) {  // far jumps do not rush past
      state_.top = *state_.glide_to;
      state_.glide_to.reset();
      return;
    }
    const double step = 1 - std::exp(-static_cast<double>(std::clamp(ImGui::GetIO().DeltaTime, 0.001F, 0.05F)) * 16);
    state_.top += way * step;
    kit_.wake_in(0);
  }

  void scroll_bar() {
    const float width = m().scrollbar;
    const Rect track{{at_.max.x - width, at_.min.y}, at_.max};
    const double whole = std::max(1.0, shown_.elastic.height());
    if (whole <= view_height()) return;
    const float size = std::max(m().px(28), static_cast<float>(view_height() / whole) * track.height());
    const auto share = static_cast<float>(std::clamp(state_.top / std::max(1.0, most_top()), 0.0, 1.0));
    const Rect thumb{{track.min.x + m().px(3), track.min.y + share * (track.height() - size)},
                     {track.max.x - m().px(2), track.min.y + share * (track.height() - size) + size}};
    const Pressed p = area(kit_, "sheet.scroll", track, {.label = "scroll", .by_keyboard = false, .draggable = true});
    if (p.held) {
      const float mouse = ImGui::GetIO().MousePos.y - track.min.y - size / 2;
      state_.top =
          static_cast<double>(std::clamp(mouse / std::max(1.0F, track.height() - size), 0.0F, 1.0F)) * most_top();
      state_.glide_to.reset();
      state_.follow = false;
    }
    bar_ = thumb;
    bar_hot_ = p.held || p.hovered;
  }

  // --- what is where

  struct Placed {
    std::uint32_t block;
    Rect at;
  };

  template <class F>
  void each_visible(F&& use) const {
    for (const std::uint32_t column :
         {SheetShown::sound_column, SheetShown::figure_column, SheetShown::safety_column}) {
      const auto range = shown_.elastic.visible(column, state_.top, state_.top + view_height());
      const auto order = shown_.elastic.block_order(column);
      for (std::size_t k = range.first; k < range.last; ++k) {
        const std::uint32_t block = order[k];
        if (shown_.items[block].kind != Kind::gap) use(block, place_of_block(block, column));
      }
    }
  }

  Rect place_of_block(std::uint32_t block, std::uint32_t column) const {
    const SheetItem& item = shown_.items[block];
    const SheetColumns& c = shown_.columns;
    const float top = std::round(to_window(shown_.elastic.top(block)));
    const float bottom = top + item.height;
    if (item.kind == Kind::chapter) return {{x(c.picture), top}, {content_right(), bottom - m().gap}};
    if (column == SheetShown::sound_column)
      return {{x(c.sound), top}, {x(c.sound) + c.sound.width - m().px(4), bottom}};
    if (column == SheetShown::figure_column)
      return {{x(c.figures) + m().px(2), top}, {x(c.figures) + c.figures.width - m().px(6), bottom}};
    const float lanes = SheetSizes::of(m()).lane * static_cast<float>(std::max(1U, shown_.lanes));
    return {{x(c.safety) + lanes + m().px(5), top}, {content_right() - m().px(2), bottom}};
  }

  float content_right() const { return at_.min.x + shown_.columns.safety.right(); }

  void find_hovered() {
    if (!pressed_.hovered && !pressed_.held) return;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    each_visible([&](std::uint32_t block, const Rect& place) {
      if (place.holds(mouse)) hovered_ = Placed{block, place};
    });
  }

  bool selected(std::uint32_t block) const {
    return frame_.selection.thing && *frame_.selection.thing == ref_of_block(shown_, shown_.items[block]);
  }

  // --- painting

  void paint() {
    Painter p;
    p.clip(at_);
    const Backdrop backdrop(kit_, p, at_, frame_, state_.top);
    backdrop.behind(surfaces_);
    each_visible([&](std::uint32_t block, const Rect& place) { block_of(p, block, place); });
    backdrop.playhead();
    p.fill(bar_, bar_hot_ ? t().muted : t().strong_line, m().scrollbar / 2);
    p.unclip();
  }

  void block_of(Painter& p, std::uint32_t block, const Rect& place) {
    const SheetItem& item = shown_.items[block];
    const BlockState state{selected(block), hovered_ && hovered_->block == block, frame_.picking};
    kit_.note(block_id(shown_, item), place);
    switch (item.kind) {
      case Kind::line:
        draw_line(kit_, p, place, shown_.lines[item.index], state, frame_.selection.words);
        break;
      case Kind::note:
        draw_note(kit_, p, place, shown_.notes[item.index], state);
        break;
      case Kind::chapter:
        draw_chapter(kit_, p, place, shown_.chapters[item.index], state);
        break;
      case Kind::figure: {
        const FigureShown& figure = shown_.figures[item.index];
        draw_figure(kit_, p, place, figure, state);
        anchors_.push_back({figure.id, {place.max.x, place.min.y + place.height() / 2}});
        break;
      }
      case Kind::hazard:
        draw_hazard(kit_, p, place, shown_.hazards[item.index], state);
        break;
      case Kind::callout:
        draw_callout(kit_, p, place, shown_.callouts[item.index], state);
        break;
      case Kind::gap:
        break;
    }
  }

  // --- the mouse

  void seek(float mouse_y, bool settled) {
    const Moment film = shown_.elastic.at(to_sheet(mouse_y));
    const Film::Spot spot = shown_.film.from_film(film);
    if (shown_.film.empty()) return;
    asks_.want(session::Seek{spot.footage, spot.at, settled});
  }

  void answer() {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    if (pressed_.began) {
      state_.drag = SheetState::Drag::pressed;
      state_.press = mouse;
      state_.pressed_block = hovered_ ? std::optional(hovered_->block) : std::nullopt;
      if (const LineShown* line = hovered_line()) {
        state_.pressed_byte = line_byte_at(kit_, *line, {mouse.x - hovered_->at.min.x, mouse.y - hovered_->at.min.y});
      }
    }
    if (pressed_.held && state_.drag == SheetState::Drag::pressed) {
      const ImVec2 way{std::abs(mouse.x - state_.press.x), std::abs(mouse.y - state_.press.y)};
      if (std::max(way.x, way.y) >= drag_begins) {
        const bool on_line = state_.pressed_block && shown_.items[*state_.pressed_block].kind == Kind::line;
        state_.drag = on_line && way.x >= way.y ? SheetState::Drag::words : SheetState::Drag::scrub;
      }
    }
    if (state_.drag == SheetState::Drag::words && pressed_.held) drag_words(mouse);
    if (state_.drag == SheetState::Drag::scrub && pressed_.held && (pressed_.moved.x != 0 || pressed_.moved.y != 0)) {
      seek(mouse.y, false);
    }
    if (state_.drag != SheetState::Drag::none && !pressed_.held) {
      if (state_.drag == SheetState::Drag::scrub) seek(mouse.y, true);
      if (state_.drag == SheetState::Drag::pressed) click(mouse);
      state_.drag = SheetState::Drag::none;
    }
    if (pressed_.double_clicked && hovered_) double_click();
  }

  const LineShown* hovered_line() const {
    if (!hovered_ || shown_.items[hovered_->block].kind != Kind::line) return nullptr;
    return &shown_.lines[shown_.items[hovered_->block].index];
  }

  void drag_words(ImVec2 mouse) {
    if (!state_.pressed_block || *state_.pressed_block >= shown_.items.size()) return;
    const SheetItem& item = shown_.items[*state_.pressed_block];
    if (item.kind != Kind::line) return;
    const LineShown& line = shown_.lines[item.index];
    const auto* stored = model::find(frame_.view.record, line.id);
    if (stored == nullptr) return;
    const Rect place = place_of_block(*state_.pressed_block, SheetShown::sound_column);
    const std::size_t byte = line_byte_at(kit_, line, {mouse.x - place.min.x, mouse.y - place.min.y});
    if (const auto words =
            whole_words(*stored, std::min(byte, state_.pressed_byte), std::max(byte, state_.pressed_byte))) {
      asks_.select = Selection{line.id, words};
    }
  }

  void click(ImVec2 mouse) {
    if (!hovered_ || !state_.pressed_block || hovered_->block != *state_.pressed_block) {
      seek(mouse.y, true);
      asks_.select = Selection{};
      return;
    }
    const SheetItem& item = shown_.items[hovered_->block];
    if (const LineShown* line = hovered_line()) {
      // A click on a figure's words selects the figure; elsewhere on the line, it goes to where that word is said.
      const std::size_t byte = line_byte_at(kit_, *line, {mouse.x - hovered_->at.min.x, mouse.y - hovered_->at.min.y});
      for (const WordMark& mark : line->marks) {
        if (mark.begin <= byte && byte < mark.end) return asks_.go_to(mark.figure, !frame_.picking);
      }
      asks_.select = Selection{line->id, std::nullopt};
      if (const auto* stored = model::find(frame_.view.record, line->id)) {
        asks_.want(session::Seek{stored->footage, moment_of(*stored, byte), true});
      }
      return;
    }
    asks_.go_to(ref_of_block(shown_, item), !(frame_.picking && item.kind == Kind::figure));
  }

  void double_click() {
    const SheetItem& item = shown_.items[hovered_->block];
    if (frame_.picking) return;
    if (const LineShown* line = hovered_line()) {
      if (!frame_.view.read_only) state_.editing = SheetState::LineEdit{line->id, line->text, true};
      return;
    }
    asks_.select = Selection{ref_of_block(shown_, item), std::nullopt};
    asks_.edit = true;
  }

  // --- a line edited in its place

  void edit_line() {
    if (!state_.editing) return;
    auto& edit = *state_.editing;
    const auto found = shown_.block_of_line.find(edit.line.number);
    const auto* stored = model::find(frame_.view.record, edit.line);
    if (found == shown_.block_of_line.end() || stored == nullptr) {
      state_.editing.reset();
      return;
    }
    const Rect place = place_of_block(found->second, SheetShown::sound_column);
    const auto rows = std::max<std::size_t>(2, shown_.lines[shown_.items[found->second].index].rows.size() + 1);
    const float width = std::max(place.width(), m().px(240));
    const float height = FontMeasure(*kit_.fonts().body).line_height() * static_cast<float>(rows) + m().px(40);
    const Rect box{{place.min.x - m().px(4), place.min.y - m().px(4)},
                   {place.min.x + width + m().px(8), place.min.y + height}};
    Painter p;
    p.card(box, t().raised, t().accent, t().shadow, m().radius);
    const Pane pane(kit_, "sheet.edit", box.shrunk(m().px(4)), {.scrolls = false, .padded = false, .ground = false});
    if (edit.fresh) kit_.focus().move_to("sheet.edit.text", false);
    edit.fresh = false;
    const FieldEdit e = field(kit_, "sheet.edit.text", edit.text, {.lines = static_cast<int>(rows)});
    ImGui::PushFont(kit_.fonts().small);
    paragraph(kit_.fonts().small, t().muted, "Ctrl+Enter keeps, Esc leaves as it was");
    ImGui::PopFont();
    if (e.committed || (e.left && edit.text != stored->text)) {
      model::NarrationLine line = *stored;
      line.text = edit.text;
      if (line.text != stored->text) line.words.clear();  // word times no longer fit the text
      asks_.want(session::PutThing{line, "Edit narration"});
      state_.editing.reset();
    } else if (e.escaped || e.left) {
      state_.editing.reset();
    }
  }

  Kit& kit_;
  Rect at_;
  const SheetFrame& frame_;
  const SheetShown& shown_;
  SheetState& state_;
  Surfaces& surfaces_;
  Asks& asks_;
  std::vector<FigureAnchor>& anchors_;
  Pressed pressed_;
  std::optional<Placed> hovered_;
  Rect bar_{};
  bool bar_hot_ = false;
};

void column_heads(Kit& kit, const Rect& at, const SheetColumns& c) {
  Painter p;
  const Theme& t = kit.theme();
  p.fill(at, t.panel);
  p.hline(at.max.y - kit.m().hair, at.min.x, at.max.x, t.line, kit.m().hair);
  const auto head = [&](const SheetColumns::Column& column, std::string_view words, float extra = 0) {
    if (column.width <= 0) return;
    const Rect place{{at.min.x + column.x + kit.m().px(5), at.min.y}, {at.min.x + column.right() + extra, at.max.y}};
    p.text_in(place, kit.fonts().small_strong, t.muted, words);
  };
  head(c.scale, "Time");
  head(c.picture, "Picture");
  head(c.wave, "Sound", c.sound.width);
  head(c.figures, "Figures");
  head(c.safety, "Safety");
}

void tool_row(Kit& kit, const Rect& at, const SheetFrame& frame, SheetState& state, Asks& asks) {
  const Metrics& m = kit.m();
  const Pane pane(kit, "sheet.tools", at, {.scrolls = false, .padded = false});
  ImGui::SetCursorScreenPos({at.min.x + m.px(6), at.min.y + std::round((at.height() - m.row) / 2)});
  const bool proposals = !frame.shown.proposals.empty();
  const float buttons = m.row * 2 + m.gap * 3;
  const float follow_width = state.follow ? 0 : button_width(kit, "Follow") + m.gap;
  const std::string proposed = count_text(frame.shown.proposals.size(), "proposal", "proposals");
  const float proposal_width = proposals ? button_width(kit, proposed) + m.gap : 0;
  const std::string hits = state.search.empty() ? std::string() : count_text(frame.shown.hits, "hit", "hits");
  const float hits_width = hits.empty() ? 0 : text_size(kit.fonts().small, hits).x + m.gap * 2;
  const float width = std::max(m.px(90), at.width() - buttons - follow_width - proposal_width - hits_width - m.px(14));
  if (std::exchange(state.to_search, false)) kit.focus().move_to("sheet.search", false);
  const FieldEdit e = field(
      kit, "sheet.search", state.search,
      {.hint = "Search: kind, substance, words, conflict…", .icon = Icon::search, .width = width, .select_all = true});
  if (e.escaped) state.search.clear();
  if (e.committed) asks.want(Action::next_pin);
  if (!hits.empty()) {
    ImGui::SameLine();
    const Rect place = take_place({hits_width - m.gap, m.row});
    Painter().text_in(place, kit.fonts().small, kit.theme().muted, hits, Align::centre);
  }
  ImGui::SameLine();
  if (button(kit, "sheet.previous", "",
             {.icon = Icon::chevron_up,
              .kind = ButtonKind::quiet,
              .tip = "Previous pin",
              .chord = binding(Action::previous_pin).chord})) {
    asks.want(Action::previous_pin);
  }
  ImGui::SameLine();
  if (button(kit, "sheet.next", "",
             {.icon = Icon::chevron_down,
              .kind = ButtonKind::quiet,
              .tip = "Next pin",
              .chord = binding(Action::next_pin).chord})) {
    asks.want(Action::next_pin);
  }
  if (proposals) {
    ImGui::SameLine();
    if (button(kit, "sheet.proposals", proposed,
               {.tip = "Walk the proposals: A accepts, X refuses", .chord = binding(Action::next_proposal).chord})) {
      asks.want(Action::next_proposal);
    }
  }
  if (!state.follow) {
    ImGui::SameLine();
    if (button(kit, "sheet.follow", "Follow",
               {.tip = "Keep the playhead in sight", .chord = binding(Action::follow).chord})) {
      asks.want(Action::follow);
    }
  }
}

}  // namespace

void show_moment(SheetState& state, const SheetShown& shown, Moment film, float height) {
  const double y = shown.elastic.y(film);
  const double top = state.glide_to.value_or(state.top);
  const auto room = static_cast<double>(height);
  if (y >= top + room * 0.05 && y <= top + room * playhead_low) return;
  state.glide_to = y - room * playhead_rest;
}

void draw_sheet(Kit& kit, const Rect& at, const SheetFrame& frame, SheetState& state, Surfaces& surfaces, Asks& asks,
                std::vector<FigureAnchor>& anchors) {
  const Metrics& m = kit.m();
  const float tools = m.row + m.px(10);
  const float heads = m.tight_row;
  Painter().fill(at, kit.theme().panel);
  tool_row(kit, {at.min, {at.max.x, at.min.y + tools}}, frame, state, asks);
  column_heads(kit, {{at.min.x, at.min.y + tools}, {at.max.x, at.min.y + tools + heads}}, frame.shown.columns);
  Body(kit, {{at.min.x, at.min.y + tools + heads}, at.max}, frame, state, surfaces, asks, anchors).run();
}

}  // namespace sash::desk
