#include "desk/draw/footage.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/text_block.h"
#include "desk/draw/sheet_blocks.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

// The callouts of this moment over the foot of the picture, and what is being said below it, as a viewer will read
// them.
void messages_over(Kit& kit, Painter& paint, const Rect& picture, const TransportShown& shown) {
  const Metrics& m = kit.m();
  float bottom = picture.max.y - m.px(8);
  const float width = picture.width() * 0.86F;
  for (auto message = shown.messages.rbegin(); message != shown.messages.rend(); ++message) {
    const SafetyColours& c = kit.theme().of(message->tone);
    const float sign = m.px(22);
    const TextBlock block(kit.fonts().strong, message->text, width - sign - m.px(26), 3);
    const float height = block.height() + m.px(10);
    const float wide = std::min(width, block.widest() + sign + m.px(22));
    const Rect box{{std::round(picture.centre().x - wide / 2), bottom - height},
                   {std::round(picture.centre().x + wide / 2), bottom}};
    if (box.min.y < picture.min.y) return;
    paint.fill(box, c.fill, m.radius);
    draw_sign(paint, square_in({{box.min.x + m.px(6), box.min.y}, {box.min.x + m.px(6) + sign, box.max.y}}, m.px(18)),
              message->tone, kit.theme());
    block.draw(paint, {box.min.x + sign + m.px(10), box.min.y + m.px(5)}, c.on);
    bottom = box.min.y - m.px(4);
  }
}

void trouble_over(Kit& kit, const Rect& picture, const FootageFrame& frame, FootageState& state, Asks& asks) {
  const Pane pane(kit, "footage.trouble", picture, {.ground = false});
  paragraph(kit.fonts().body, kit.theme().text, frame.shown.trouble);
  if (frame.shown.missing) {
    gap(kit, 4);
    const FieldEdit e = field(kit, "footage.find", state.find_path,
                              {.hint = "Where is it now? Type or paste a path", .icon = Icon::folder});
    if (e.committed && !state.find_path.empty())
      asks.want(session::FindFootageAgain{frame.shown.which, state.find_path});
    if (button(kit, "footage.find.go", "Use this file", {.icon = Icon::film, .enabled = !state.find_path.empty()})) {
      asks.want(session::FindFootageAgain{frame.shown.which, state.find_path});
    }
    paragraph(kit.fonts().small, kit.theme().muted,
              "It is recognised by its content, so a renamed file will do. Or drop it on the window.");
  } else if (frame.shown.wants_clip) {
    gap(kit, 4);
    if (button(kit, "footage.add", "Add footage", {.icon = Icon::film, .chord = binding(Action::add_files).chord}))
      asks.want(Action::add_files);
  }
}

class Bar {
 public:
  Bar(Kit& kit, const Rect& at, const FootageFrame& frame, FootageState& state, Asks& asks)
      : kit_(kit), at_(at), frame_(frame), state_(state), asks_(asks) {}

  static float height(const Metrics& m) { return m.px(52); }

  void run() {
    const Metrics& m = kit_.m();
    const Pressed p = area(kit_, "footage.bar", at_, {.label = "position", .by_keyboard = false, .draggable = true});
    const float tick_bottom = at_.min.y + m.px(24);
    track_ = {{at_.min.x, tick_bottom}, {at_.max.x, at_.max.y - m.px(6)}};
    paint(p);
    answer(p);
  }

 private:
  float x(float share) const { return std::round(at_.min.x + share * at_.width()); }

  void paint(const Pressed& p) {
    const Metrics& m = kit_.m();
    const Theme& t = kit_.theme();
    Painter paint;
    paint.fill(track_, t.sunken, m.px(3));
    if (frame_.shown.loop) {
      const Rect loop{{x(frame_.shown.loop->first), track_.min.y}, {x(frame_.shown.loop->second), track_.max.y}};
      paint.fill(loop, t.accent.faded(0.25F));
      paint.frame(loop, t.accent, m.hair);
    }
    const float lane = track_.height() / static_cast<float>(std::max(1U, frame_.bar.lanes));
    for (const BarShown::Band& band : frame_.bar.bands) {
      const float top = track_.min.y + lane * static_cast<float>(band.lane);
      const Rect box{{x(band.from), top + m.px(1)},
                     {std::max(x(band.until), x(band.from) + m.px(3)), top + lane - m.px(1)}};
      paint.fill(box, t.of(band.tone).fill.faded(band.covered ? 0.85F : 0.35F), m.px(2));
      if (!band.covered) {
        paint.hatch(box, t.of(band.tone).fill, m.px(5), m.px(2));
        paint.frame(box, t.of(band.tone).fill, m.hair, m.px(2));
      }
    }
    for (const float seam : frame_.bar.seams)
      paint.vline(x(seam), track_.min.y - m.px(4), track_.max.y + m.px(3), t.muted, m.px(2));
    float label_free = at_.min.x;
    for (const BarShown::Flag& flag : frame_.bar.chapters) {
      const float left = x(flag.at);
      paint.vline(left, at_.min.y + m.px(1), track_.max.y, t.strong_line, m.hair);
      const float wide = text_size(kit_.fonts().small, flag.title).x;
      if (left < label_free || left + m.px(30) > at_.max.x) continue;
      const float room = std::min(wide, at_.max.x - left - m.px(4));
      paint.text_in({{left + m.px(3), at_.min.y - m.px(2)}, {left + m.px(4) + room, at_.min.y + m.px(12)}},
                    kit_.fonts().small, t.muted, flag.title);
      label_free = left + room + m.px(10);
    }
    const float glyph = m.px(9);
    for (const BarShown::Tick& tick : frame_.bar.ticks) {
      const float middle = x(tick.at);
      const Rect box{{middle - glyph / 2, track_.min.y - glyph - m.px(2)},
                     {middle + glyph / 2, track_.min.y - m.px(2)}};
      const Colour c = tick.conflict ? t.bad : t.of(tick.family).faded(tick.proposed ? 0.55F : 1.0F);
      if (tick.count > 2 && glyph > 6) {  // several: a small pile
        paint.fill({{box.min.x + 1, box.min.y + 1}, {box.max.x - 1, box.max.y}}, c.faded(0.8F), 1);
      } else {
        draw_glyph(paint, box, tick.family, c);
      }
      if (tick.conflict) paint.vline(middle, track_.min.y, track_.max.y, t.bad, m.px(2));
    }
    const float head = x(frame_.shown.share);
    paint.vline(head - m.px(1), track_.min.y - m.px(3), track_.max.y + m.px(5), t.accent, m.px(2));
    paint.list().AddTriangleFilled({head, track_.max.y + m.px(1)}, {head - m.px(5), track_.max.y + m.px(7)},
                                   {head + m.px(5), track_.max.y + m.px(7)}, t.accent.packed());
    if (p.hovered && !p.held) {
      const float share = std::clamp(p.mouse.x / std::max(1.0F, at_.width()), 0.0F, 1.0F);
      const Moment film = Moment::seconds(frame_.film.length().in_seconds() * static_cast<double>(share));
      std::string words = clock_text(film);
      for (const BarShown::Flag& flag : frame_.bar.chapters) {
        if (flag.film <= film) words = clock_text(film) + "  " + flag.title;
      }
      const float wide = text_size(kit_.fonts().small, words).x + m.px(10);
      const float left = std::clamp(at_.min.x + p.mouse.x - wide / 2, at_.min.x, std::max(at_.min.x, at_.max.x - wide));
      paint.vline(at_.min.x + p.mouse.x, track_.min.y, track_.max.y, t.text.faded(0.6F), m.hair);
      paint.fill({{left, at_.min.y - m.px(2)}, {left + wide, at_.min.y + m.px(15)}}, t.raised, m.px(3));
      paint.text_in({{left, at_.min.y - m.px(2)}, {left + wide, at_.min.y + m.px(15)}}, kit_.fonts().small, t.text,
                    words, Align::centre);
    }
  }

  void answer(const Pressed& p) {
    if (frame_.film.empty()) return;
    const auto seek = [&](bool settled) {
      const double share = static_cast<double>(std::clamp(p.mouse.x / std::max(1.0F, at_.width()), 0.0F, 1.0F));
      const auto spot = frame_.film.from_film(Moment::seconds(frame_.film.length().in_seconds() * share));
      asks_.want(session::Seek{spot.footage, spot.at, settled});
    };
    if (p.began) {
      state_.scrubbing = true;
      if (const BarShown::Tick* tick = tick_under(p.mouse)) {  // a figure's own sign goes exactly to it
        state_.scrubbing = false;
        asks_.go_to(tick->figure);
        return;
      }
      seek(false);
    } else if (p.held && state_.scrubbing && p.moved.x != 0) {
      seek(false);
    } else if (!p.held && state_.scrubbing) {
      state_.scrubbing = false;
      seek(true);
    }
  }

  const BarShown::Tick* tick_under(ImVec2 mouse) const {
    const Metrics& m = kit_.m();
    if (mouse.y < m.px(11) || at_.min.y + mouse.y > track_.min.y) return nullptr;
    for (const BarShown::Tick& tick : frame_.bar.ticks) {
      if (std::abs(x(tick.at) - (at_.min.x + mouse.x)) <= m.px(5)) return &tick;
    }
    return nullptr;
  }

  Kit& kit_;
  Rect at_;
  const FootageFrame& frame_;
  FootageState& state_;
  Asks& asks_;
  Rect track_{};
};

void transport(Kit& kit, const Rect& at, const FootageFrame& frame, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const TransportShown& s = frame.shown;
  const Pane pane(kit, "footage.transport", at, {.scrolls = false, .padded = false});
  // First row: where we are.
  const float line = m.row;
  Painter paint;
  float x = at.min.x;
  const float time_width = paint.text_in({{x, at.min.y}, {at.max.x, at.min.y + line}}, kit.fonts().digits,
                                         s.ready ? t.text : t.faint, s.time);
  kit.note("footage.time", {{x, at.min.y}, {x + time_width, at.min.y + line}}, s.time);
  x += time_width + m.px(8);
  const float length_width = paint.text_in({{x, at.min.y}, {at.max.x, at.min.y + line}}, kit.fonts().small_digits,
                                           t.muted, s.length.empty() ? "" : "of " + s.length);
  x += length_width + m.px(10);
  float right = at.max.x;
  if (!s.time_code.empty()) {
    const float wide = text_size(kit.fonts().small_digits, s.time_code).x;
    if (right - wide > x) {
      paint.text_in({{right - wide - 1, at.min.y}, {right, at.min.y + line}}, kit.fonts().small_digits, t.muted,
                    s.time_code, Align::right);
      kit.note("footage.timecode", {{right - wide, at.min.y}, {right, at.min.y + line}}, s.time_code);
      right -= wide + m.px(10);
    }
  }
  if (s.ready) {
    // A full dot: this very frame; a ring: a near picture stands in for it.
    const ImVec2 dot{x + m.px(4), at.min.y + line / 2};
    if (s.exact) {
      paint.list().AddCircleFilled(dot, m.px(3.5F), t.good.packed());
    } else {
      paint.list().AddCircle(dot, m.px(3.5F), t.open.packed(), 0, m.px(1.5F));
    }
    const std::string_view words = s.exact ? "exact" : "near";
    if (right - x > m.px(60))
      paint.text_in({{x + m.px(12), at.min.y}, {right, at.min.y + line}}, kit.fonts().small, t.muted, words);
    tip(kit, {{x, at.min.y}, {x + m.px(50), at.min.y + line}}, s.sureness);
  }

  // Second row: the buttons.
  ImGui::SetCursorScreenPos({at.min.x, at.min.y + line});
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {m.px(2), m.px(2)});
  const auto press = [&](std::string_view id, Icon icon, Action action, bool on = false,
                         ButtonKind kind = ButtonKind::quiet) {
    const KeyBinding& b = binding(action);
    if (button(kit, id, "",
               {.icon = icon, .kind = kind, .on = on, .enabled = s.ready, .tip = b.words, .chord = b.chord}))
      asks.want(action);
    ImGui::SameLine();
  };
  const bool roomy = at.width() >= m.row * 8 + m.px(60);  // narrow panes leave the jumps to the keyboard
  if (roomy) press("footage.jump_back", Icon::jump_back, Action::jump_back);
  press("footage.step_back", Icon::step_back, Action::step_back);
  press("footage.play", s.playing ? Icon::pause : Icon::play, Action::toggle_play, false, ButtonKind::primary);
  press("footage.step_on", Icon::step_forward, Action::step_on);
  if (roomy) press("footage.jump_on", Icon::jump_forward, Action::jump_on);
  press("footage.loop", Icon::loop, Action::loop_pin, s.loop.has_value());
  const KeyBinding& slower = binding(Action::slower);
  const KeyBinding& faster = binding(Action::faster);
  if (button(kit, "footage.slower", "",
             {.icon = Icon::minus,
              .kind = ButtonKind::quiet,
              .enabled = s.ready,
              .tip = slower.words,
              .chord = slower.chord}))
    asks.want(Action::slower);
  ImGui::SameLine();
  const Rect speed = take_place({m.px(34), m.row});
  Painter().text_in(speed, kit.fonts().body, s.ready ? t.text : t.faint, s.speed, Align::centre);
  kit.note("footage.speed", speed, s.speed);
  ImGui::SameLine();
  if (button(kit, "footage.faster", "",
             {.icon = Icon::plus,
              .kind = ButtonKind::quiet,
              .enabled = s.ready,
              .tip = faster.words,
              .chord = faster.chord}))
    asks.want(Action::faster);
  const float left_over = at.max.x - (ImGui::GetItemRectMax().x + m.px(30));
  if (left_over > m.px(44)) {
    ImGui::SameLine(0, m.px(6));
    const Rect sign = take_place({m.icon, m.row});
    Painter p;
    draw_icon(p, square_in(sign, m.icon), s.volume > 0 ? Icon::sound : Icon::muted, t.muted);
    ImGui::SameLine();
    double volume = s.volume;
    if (slider(kit, "footage.volume", volume, 0, 1, 0.1, std::min(left_over, m.px(110))))
      asks.want(session::SetVolume{volume});
  }
  ImGui::PopStyleVar();
}

}  // namespace

std::size_t bar_slots(const Metrics& m, float width) {
  return static_cast<std::size_t>(std::max(1.0F, width / m.px(7)));
}

float draw_footage(Kit& kit, const Rect& at, const FootageFrame& frame, FootageState& state, Surfaces& surfaces,
                   Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  Painter paint;
  paint.fill(at, t.panel);
  // 16:9 of the pane's width; less where the pane is too low for the pin editor below.
  const float below = m.px(150) + m.body * 14;
  const float picture_height =
      std::round(std::min(at.width() * 9 / 16, std::max(at.height() * 0.28F, at.height() - below)));
  const Rect picture{at.min, {at.max.x, at.min.y + picture_height}};
  paint.fill(picture, t.sunken);
  kit.note("footage.picture", picture);
  const bool playable = frame.shown.ready && frame.shown.trouble.empty();
  if (playable) {
    const Pressed p = area(kit, "footage.picture.press", picture, {.label = "picture", .by_keyboard = false});
    if (p.clicked) asks.want(Action::toggle_play);
    if (const Surface s = surfaces.video(frame.view.transport, picture.width(), picture.height()); s.there()) {
      const float fit = std::min(picture.width() / s.width, picture.height() / s.height);
      const ImVec2 half{std::round(s.width * fit / 2), std::round(s.height * fit / 2)};
      const ImVec2 c = picture.centre();
      paint.list().AddImage(s.texture, {c.x - half.x, c.y - half.y}, {c.x + half.x, c.y + half.y});
    } else {
      paint.text_in(picture, kit.fonts().body, t.faint, frame.shown.facts.empty() ? "Opening…" : "No picture",
                    Align::centre);
    }
    messages_over(kit, paint, picture, frame.shown);
  } else {
    trouble_over(kit, picture, frame, state, asks);
  }

  const float pad = m.px(8);
  float y = picture.max.y + m.px(8);
  Bar(kit, {{at.min.x + pad, y}, {at.max.x - pad, y + Bar::height(m)}}, frame, state, asks).run();
  y += Bar::height(m) + m.px(2);
  transport(kit, {{at.min.x + pad, y}, {at.max.x - pad, y + m.row * 2 + m.px(4)}}, frame, asks);
  y += m.row * 2 + m.px(6);
  const float small = FontMeasure(*kit.fonts().small).line_height();
  if (!frame.shown.footage.empty()) {
    const Rect row{{at.min.x + pad, y}, {at.max.x - pad, y + small}};
    std::string words = frame.shown.footage + (frame.shown.facts.empty() ? "" : "  ·  " + frame.shown.facts);
    float left = row.min.x;
    if (!frame.shown.remarks.empty()) {
      draw_icon(paint, square_in({{left, y}, {left + m.px(14), y + small}}, m.px(13)), Icon::info,
                t.of(Safety::notice).ink);
      left += m.px(18);
      std::string all;
      for (const auto& remark : frame.shown.remarks) all += (all.empty() ? "" : "\n") + remark;
      words = frame.shown.remarks.front() + "  ·  " + words;
      tip(kit, row, all);
    }
    paint.text_in({{left, row.min.y}, row.max}, kit.fonts().small, t.muted, words);
    y += small + m.px(4);
  }
  return y;
}

}  // namespace sash::desk
