#include "desk/draw/sheet.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/font_measure.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/sheet_backdrop.h"
#include "desk/draw/sheet_blocks.h"
#include "desk/draw/sheet_grips.h"
#include "desk/draw/sheet_line_edit.h"
#include "desk/draw/sheet_scroll.h"
#include "desk/draw/sheet_tools.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

using Kind = SheetItem::Kind;

constexpr float drag_begins = 4;  // pixels

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
    SheetScroll scroll(kit_, at_, frame_, state_);
    scroll.move(pane.hovered());
    find_hovered();
    paint(scroll);
    answer();
    edit_line();
  }

 private:
  const Theme& t() const { return kit_.theme(); }
  const Metrics& m() const { return kit_.m(); }
  double view_height() const { return static_cast<double>(at_.height()); }
  float to_window(double y) const { return at_.min.y + static_cast<float>(y - state_.top); }
  double to_sheet(float y) const { return state_.top + static_cast<double>(y - at_.min.y); }
  float x(const SheetColumns::Column& c) const { return at_.min.x + c.x; }

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

  void paint(const SheetScroll& scroll) {
    Painter p;
    p.clip(at_);
    const Backdrop backdrop(kit_, p, at_, frame_, state_.top);
    backdrop.behind(surfaces_);
    each_visible([&](std::uint32_t block, const Rect& place) { block_of(p, block, place); });
    const Grips grips(kit_, at_, frame_, state_.top);
    if (!frame_.view.read_only) grips.paint_selected(p);
    backdrop.playhead();
    if (state_.drag == SheetState::Drag::pin && state_.dragged) grips.paint_dragged(p, *state_.grip, *state_.dragged);
    scroll.paint_bar(p);
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
    const auto under = may_move() ? grip_at(mouse) : std::nullopt;
    if (pressed_.hovered || pressed_.held) show_hand(under);
    if (pressed_.began) {
      state_.drag = SheetState::Drag::pressed;
      state_.press = mouse;
      state_.grip = under;
      state_.given_up = false;
      state_.pressed_block = hovered_ ? std::optional(hovered_->block) : std::nullopt;
      if (const LineShown* line = hovered_line()) {
        state_.pressed_byte = line_byte_at(kit_, *line, {mouse.x - hovered_->at.min.x, mouse.y - hovered_->at.min.y});
      }
    }
    if (pressed_.held && state_.drag == SheetState::Drag::pressed && !state_.given_up) begin_drag(mouse);
    const bool moved = pressed_.moved.x != 0 || pressed_.moved.y != 0;
    if (state_.drag == SheetState::Drag::words && pressed_.held) drag_words(mouse);
    if (state_.drag == SheetState::Drag::scrub && pressed_.held && moved) seek(mouse.y, false);
    if (state_.drag == SheetState::Drag::pin && pressed_.held) drag_pin(mouse, moved);
    if (state_.drag != SheetState::Drag::none && !pressed_.held) {
      if (state_.drag == SheetState::Drag::scrub) seek(mouse.y, true);
      if (state_.drag == SheetState::Drag::pin) drop_pin();
      if (state_.drag == SheetState::Drag::pressed && !state_.given_up) click(mouse);
      state_.drag = SheetState::Drag::none;
      state_.grip.reset();
      state_.dragged.reset();
    }
    if (pressed_.double_clicked && hovered_) double_click();
  }

  void begin_drag(ImVec2 mouse) {
    const ImVec2 way{std::abs(mouse.x - state_.press.x), std::abs(mouse.y - state_.press.y)};
    if (std::max(way.x, way.y) < drag_begins) return;
    const bool on_line = state_.pressed_block && *state_.pressed_block < shown_.items.size() &&
                         shown_.items[*state_.pressed_block].kind == Kind::line;
    if (state_.grip) {
      state_.drag = SheetState::Drag::pin;
      state_.follow = false;
    } else {
      state_.drag = on_line && way.x >= way.y ? SheetState::Drag::words : SheetState::Drag::scrub;
    }
  }

  // --- moving pins

  bool may_move() const { return !frame_.view.read_only && !frame_.picking; }

  /// What a drag from here would move: an end of a span, a pin by its block, a line by its left edge.
  std::optional<PinGrip> grip_at(ImVec2 mouse) const {
    const Grips grips(kit_, at_, frame_, state_.top);
    auto grip = grips.end_at(mouse);
    if (!grip && hovered_) {
      const SheetItem& item = shown_.items[hovered_->block];
      if (item.kind != Kind::line || grips.on_line_edge(hovered_->at, mouse))
        grip = PinGrip{ref_of_block(shown_, item), PinPart::whole, {}};
    }
    if (!grip) {
      if (const auto hazard = grips.band_at(mouse)) grip = PinGrip{*hazard, PinPart::whole, {}};
    }
    if (grip) grip->held = shown_.elastic.at(to_sheet(mouse.y));
    return grip;
  }

  void show_hand(const std::optional<PinGrip>& under) const {
    const bool dragging = state_.drag == SheetState::Drag::pin;
    const auto& grip = dragging ? state_.grip : under;
    if (!grip) return;
    const bool slides = grip->part != PinPart::whole || std::holds_alternative<model::LineId>(grip->thing);
    ImGui::SetMouseCursor(dragging || slides ? ImGuiMouseCursor_ResizeNS : ImGuiMouseCursor_Hand);
  }

  void drag_pin(ImVec2 mouse, bool moved) {
    if (kit_.keys().take({Key::escape, no_mods})) {
      state_.drag = SheetState::Drag::pressed;
      state_.given_up = true;
      state_.dragged.reset();
      return;
    }
    state_.dragged = dragged_place(frame_.view, shown_.film, *state_.grip, shown_.elastic.at(to_sheet(mouse.y)));
    // The footage shows the frame that the moved end comes to.
    if (!state_.dragged || !moved) return;
    const auto& place = *state_.dragged;
    asks_.want(session::Seek{place.footage, state_.grip->part == PinPart::end ? *place.until : place.from, false});
  }

  void drop_pin() {
    if (!state_.dragged) return;
    if (const auto intent = drop_of(frame_.view, *state_.grip, *state_.dragged)) asks_.want(*intent);
    asks_.select = Selection{state_.grip->thing, std::nullopt};
    const auto& place = *state_.dragged;
    asks_.want(session::Seek{place.footage, state_.grip->part == PinPart::end ? *place.until : place.from, true});
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
      if (const auto hazard = Grips(kit_, at_, frame_, state_.top).band_at(mouse)) {
        asks_.select = Selection{*hazard, std::nullopt};
        return seek(mouse.y, true);
      }
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

  void edit_line() {
    if (!state_.editing) return;
    const auto found = shown_.block_of_line.find(state_.editing->line.number);
    std::optional<Rect> place;
    if (!state_.editing->line.known()) {
      place = playhead_place();
    } else if (found != shown_.block_of_line.end()) {
      place = place_of_block(found->second, SheetShown::sound_column);
    }
    draw_line_edit(kit_, at_, place, frame_.view.record, state_.editing, asks_);
  }

  Rect playhead_place() const {
    const float y = std::clamp(to_window(shown_.elastic.y(frame_.now)), at_.min.y, at_.max.y);
    const float left = x(shown_.columns.sound);
    return {{left, y}, {left + shown_.columns.sound.width, y}};
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
};

}  // namespace

void draw_sheet(Kit& kit, const Rect& at, const SheetFrame& frame, SheetState& state, Surfaces& surfaces, Asks& asks,
                std::vector<FigureAnchor>& anchors) {
  const Metrics& m = kit.m();
  const float tools = m.row + m.px(10);
  const float heads = m.tight_row;
  Painter().fill(at, kit.theme().panel);
  draw_sheet_tools(kit, {at.min, {at.max.x, at.min.y + tools}}, frame, state, asks);
  draw_column_heads(kit, {{at.min.x, at.min.y + tools}, {at.max.x, at.min.y + tools + heads}}, frame.shown.columns);
  Body(kit, {{at.min.x, at.min.y + tools + heads}, at.max}, frame, state, surfaces, asks, anchors).run();
}

}  // namespace sash::desk
