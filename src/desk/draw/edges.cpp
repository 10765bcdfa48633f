#include "desk/draw/edges.h"

#include <algorithm>
#include <array>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/signs.h"

namespace sash::desk {
namespace {

struct Tool {
  std::string_view id;
  std::string_view label;
  Icon icon;
  Action action;
};

}  // namespace

void draw_top(Kit& kit, const Rect& at, const TopShown& shown, const FindingsShown* findings, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const Pane pane(kit, "top", at, {.scrolls = false, .padded = false, .ground = false});
  Painter paint;
  const float y = at.min.y + std::round((at.height() - m.row) / 2);
  ImGui::SetCursorScreenPos({at.min.x + m.px(6), y});
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {m.px(2), 0});
  const auto tool = [&](std::string_view id, Icon icon, Action action, std::string_view tip_words,
                        bool enabled = true) {
    if (button(kit, id, "",
               {.icon = icon,
                .kind = ButtonKind::quiet,
                .enabled = enabled,
                .tip = tip_words,
                .chord = binding(action).chord}))
      asks.want(action);
    ImGui::SameLine();
  };
  tool("top.open", Icon::folder, Action::add_files, binding(Action::add_files).words);
  if (findings != nullptr) {
    tool("top.undo", Icon::undo, Action::undo,
         shown.undo_tip.empty() ? std::string_view("Nothing to undo") : std::string_view(shown.undo_tip),
         !shown.undo_tip.empty());
    tool("top.redo", Icon::redo, Action::redo,
         shown.redo_tip.empty() ? std::string_view("Nothing to redo") : std::string_view(shown.redo_tip),
         !shown.redo_tip.empty());
  }
  const float name_left = ImGui::GetCursorScreenPos().x + m.px(6);

  static constexpr std::array tools{Tool{"top.script", "Script", Icon::script, Action::export_script},
                                    Tool{"top.scratch", "", Icon::pencil, Action::scratch},
                                    Tool{"top.settings", "", Icon::gear, Action::show_settings},
                                    Tool{"top.keys", "", Icon::keyboard, Action::show_keys}};
  float wide = 0;
  for (const Tool& b : tools) {
    if (findings != nullptr || b.action != Action::export_script) wide += button_width(kit, b.label, b.icon) + m.px(2);
  }
  ImGui::SetCursorScreenPos({at.max.x - wide - m.px(4), y});
  for (const Tool& b : tools) {
    if (findings == nullptr && b.action == Action::export_script) continue;
    const bool words = !b.label.empty();
    if (button(kit, b.id, b.label,
               {.icon = b.icon,
                .kind = words ? ButtonKind::plain : ButtonKind::quiet,
                .tip = binding(b.action).words,
                .chord = binding(b.action).chord})) {
      asks.want(b.action);
    }
    ImGui::SameLine();
  }
  ImGui::PopStyleVar();
  float right = at.max.x - wide - m.px(14);
  if (findings != nullptr) {
    const auto count = [&](FindingGroup g) { return findings->counts[static_cast<std::size_t>(g)]; };
    const bool bad = count(FindingGroup::conflict) + count(FindingGroup::cover_gap) > 0;
    const bool open = count(FindingGroup::cannot_be) + count(FindingGroup::unsettled) > 0;
    const Verdict mark = bad ? Verdict::conflict : open ? Verdict::unsettled : Verdict::agrees;
    const float text = text_size(kit.fonts().body, findings->summary).x;
    const Rect box{{right - text - m.px(34), y}, {right, y + m.row}};
    const Pressed p = area(kit, "top.summary", box, {.label = findings->summary});
    paint.fill(box, p.hovered ? t.raised_over : t.raised, m.radius);
    draw_mark(paint, square_in({box.min, {box.min.x + m.px(26), box.max.y}}, m.px(15)), mark, t.of(mark));
    paint.text_in({{box.min.x + m.px(26), box.min.y}, box.max}, kit.fonts().body, t.text, findings->summary);
    if (p.clicked) asks.want(Action::next_finding);
    tip(kit, box, binding(Action::next_finding).words, binding(Action::next_finding).chord);
    right = box.min.x - m.px(8);
  }
  paint.text_in({{name_left, at.min.y}, {right, at.max.y}}, kit.fonts().strong, t.text, shown.name);
  kit.note("top.name", {{name_left, at.min.y}, {right, at.max.y}}, shown.name);
}

void draw_read_only(Kit& kit, const Rect& at, const std::string& why) {
  const Metrics& m = kit.m();
  const SafetyColours& c = kit.theme().of(Safety::notice);
  Painter paint;
  paint.fill(at, c.fill);
  draw_icon(paint, square_in({at.min, {at.min.x + m.px(30), at.max.y}}, m.icon), Icon::info, c.on);
  paint.text_in({{at.min.x + m.px(30), at.min.y}, at.max}, kit.fonts().body, c.on, "Reading only: " + why);
  kit.note("top.read_only", at, why);
  tip(kit, at, why);
}

void draw_foot(Kit& kit, const Rect& at, const FootShown& shown, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  Painter paint;
  float right = at.max.x - m.px(10);
  if (shown.share && !shown.stoppable.empty()) {
    const Rect cross{{right - at.height(), at.min.y}, {right, at.max.y}};
    const Pressed p = area(kit, "foot.stop", cross, {.label = "Stop: " + shown.stoppable});
    draw_icon(paint, square_in(cross, m.px(12)), Icon::cross, p.hovered ? t.text : t.muted);
    tip(kit, cross, "Stop: " + shown.stoppable);
    if (p.clicked) asks.want(session::StopWork{shown.stoppable});
    right = cross.min.x - m.px(4);
  }
  if (shown.share) {
    const float wide = text_size(kit.fonts().small, shown.work).x;
    paint.text_in({{right - wide - 1, at.min.y}, {right, at.max.y}}, kit.fonts().small, t.muted, shown.work);
    kit.note("foot.work", {{right - wide, at.min.y}, {right, at.max.y}}, shown.work);
    right -= wide + m.px(8);
    const Rect track{{right - m.px(90), at.centre().y - m.px(3)}, {right, at.centre().y + m.px(3)}};
    paint.fill(track, t.sunken, m.px(3));
    paint.fill({track.min,
                {track.min.x + track.width() * static_cast<float>(std::clamp(*shown.share, 0.0, 1.0)), track.max.y}},
               t.accent, m.px(3));
    right = track.min.x - m.px(12);
  }
  const Rect news{{at.min.x + m.px(10), at.min.y}, {right, at.max.y}};
  paint.text_in(news, kit.fonts().small, shown.fault ? t.bad : t.muted, shown.news);
  kit.note("foot.news", news, shown.news);
}

}  // namespace sash::desk
