#include "draw/kit/gallery.h"

#include <cmath>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/list.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/text_block.h"
#include "desk/draw/kit/typeset.h"

namespace sash::testing {
namespace {

using namespace desk;

constexpr std::array<std::string_view, 6> kinds = {
    "mass", "volume", "amount of substance", "molar concentration", "temperature", "duration"};
constexpr std::array<std::string_view, 3> views = {"Figures", "Hazards", "Chapters"};

void next_to(Kit& kit) { ImGui::SameLine(0, kit.m().gap); }

}  // namespace

void Gallery::draw(Kit& kit) {
  const Root root(kit);
  const Metrics& m = kit.m();
  const float foot = m.tight_row;
  const Rect all{root.rect().min, {root.rect().max.x, root.rect().max.y - foot}};
  const float third = std::floor((all.width() - 2 * m.grip) / 3);
  {
    const Pane pane(kit, "left", {all.min, {third, all.max.y}});
    controls(kit);
  }
  {
    const Pane pane(kit, "middle", {{third + m.grip, 0}, {2 * third + m.grip, all.max.y}});
    typeset(kit);
    signs(kit);
  }
  {
    const Pane pane(kit, "right", {{2 * third + 2 * m.grip, 0}, all.max}, {.scrolls = false});
    rows(kit);
  }
  float place = third;
  splitter(kit, "split.a", Axis::upright, {{third, 0}, {third + m.grip, all.max.y}}, place, 100, 900, third);
  splitter(kit, "split.b", Axis::upright, {{2 * third + m.grip, 0}, {2 * third + 2 * m.grip, all.max.y}}, place, 100,
           900, third);
  status_line(kit, {{0, all.max.y}, root.rect().max}, "Saved 14:02 · 41 pins · 3 conflicts", "1280 × 720 · 29.97 fps");
  notices.draw(kit, all);
}

void Gallery::controls(Kit& kit) {
  const Metrics& m = kit.m();
  heading(kit, "Controls");
  button(kit, "export", "Export script", {.icon = Icon::script, .kind = ButtonKind::primary});
  next_to(kit);
  button(kit, "open", "Open…", {.icon = Icon::folder, .tip = "Open footage or a record", .chord = {Key::o, ctrl}});
  next_to(kit);
  button(kit, "remove", "Remove", {.kind = ButtonKind::grave});
  button(kit, "quiet", "Quiet", {.kind = ButtonKind::quiet});
  next_to(kit);
  button(kit, "on", "Loop", {.icon = Icon::loop, .on = true});
  next_to(kit);
  button(kit, "off", "Not now", {.icon = Icon::undo, .enabled = false});
  gap(kit, 4);
  for (int i = 1; i < static_cast<int>(Icon::count_); ++i) {
    const std::string id = "icon." + std::to_string(i);
    button(kit, id, "", {.icon = static_cast<Icon>(i), .kind = ButtonKind::quiet});
    if (i % 11 != 0) ImGui::SameLine(0, m.px(2));
  }
  ImGui::NewLine();
  segments(kit, "view", views, segment_);
  gap(kit, 2);
  tick_box(kit, "loop", "Loop over the pin", loop_);
  next_to(kit);
  tick_box(kit, "follow", "Follow", follow_);
  slider(kit, "volume", volume_, 0, 1, 0.05, m.px(240), "70 %");
  progress_bar(kit, 0.4, m.px(240));
  gap(kit, 4);
  choice(kit, "kind", kinds, kind_, m.px(240));
  gap(kit, 2);
  field(kit, "pin", pin_, {.label = "Figure", .icon = Icon::pin});
  field(kit, "search", empty_, {.hint = "Search figures, words, hazards", .icon = Icon::search});
  field(kit, "faulty", faulty_, {.label = "Amount", .fault = "“mk” is no unit; did you mean “mL”?"});
  wrapped_field(kit, "note", note_, {.field = {.label = "Note"}, .least_rows = 3});
}

void Gallery::typeset(Kit& kit) {
  const Theme& t = kit.theme();
  heading(kit, "Workings");
  paragraph(
      kit.fonts().body, t.text,
      "Twenty millilitres of six molar nitric acid hold 0.12 mol; the copper needs 0.105 mol, so acid is in excess.");
  gap(kit, 2);
  Typeset::formula("3 Cu + 8 HNO3 → 3 Cu(NO3)2 + 2 NO + 4 H2O").put(kit.fonts(), t.text);
  Typeset::row({Typeset::from_markup("n(Cu) = "),
                Typeset::over(Typeset::text("2.50 g"), Typeset::from_markup("63.546 g·mol^{−1}")),
                Typeset::from_markup(" = *39.3 mmol*")})
      .put(kit.fonts(), t.text);
  Typeset::row({Typeset::from_markup("Δ_{r}H° = −92.2 kJ·mol^{−1}   "), Typeset::formula("SO4^2-"),
                Typeset::text("   "), Typeset::struck(Typeset::coloured(Typeset::text("20 g"), t.bad)),
                Typeset::text(" → 2.0 g")})
      .put(kit.fonts(), t.text);
  Painter paint;
  const Rect at = take_place({200, kit.m().row});
  paint.text_in(at, kit.fonts().digits, t.muted, "00:12:03.450   63.546(3)");
  paragraph(kit.fonts().small, t.muted,
            "Small: IUPAC 2021 abridged weights; k = 2; T = 298.15 K; ρ = 1.19 g·cm⁻³; 20 °C ± 0.5 °C");
}

void Gallery::signs(Kit& kit) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  heading(kit, "Signs");
  for (const Safety s : {Safety::danger, Safety::warning, Safety::caution, Safety::notice, Safety::safe}) {
    signal_panel(kit, s);
    if (s != Safety::caution && s != Safety::safe) next_to(kit);
  }
  for (const Safety s : {Safety::danger, Safety::warning, Safety::caution, Safety::notice, Safety::safe}) {
    const Rect at = take_place({m.px(34), m.px(34)});
    Painter paint;
    draw_sign(paint, square_in(at, m.px(30)), s, t);
    ImGui::SameLine(0, m.gap);
  }
  ImGui::NewLine();
  for (const Verdict v : {Verdict::agrees, Verdict::agrees_rounded, Verdict::conflict, Verdict::unsettled}) {
    tag(kit, word_of(v), {.verdict = v});
    if (v != Verdict::unsettled) ImGui::SameLine(0, m.px(4));
  }
  for (int f = 0; f <= static_cast<int>(Family::other); ++f) {
    const Rect at = take_place({m.px(22), m.px(22)});
    Painter paint;
    draw_glyph(paint, square_in(at, m.px(16)), static_cast<Family>(f), t.of(static_cast<Family>(f)));
    ImGui::SameLine(0, m.px(4));
  }
  ImGui::NewLine();
  for (int k = 0; k <= static_cast<int>(Harm::other); ++k) {
    const Rect at = take_place({m.px(22), m.px(22)});
    Painter paint;
    draw_harm(paint, square_in(at, m.px(17)), static_cast<Harm>(k), t.text);
    ImGui::SameLine(0, m.px(4));
  }
  ImGui::NewLine();
  tag(kit, "20 mL", {.family = Family::volume});
  next_to(kit);
  tag(kit, "6 mol/L", {.family = Family::strength});
  next_to(kit);
  tag(kit, "announced late", {.safety = Safety::warning});
  key_chip(kit, {Key::z, ctrl_shift});
  next_to(kit);
  key_chip(kit, {Key::space, no_mods});
  next_to(kit);
  key_chip(kit, {Key::left, shift});
}

void Gallery::rows(Kit& kit) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  heading(kit, "Bands and rows");
  bands(kit, take_place({ImGui::GetContentRegionAvail().x, m.px(150)}));
  gap(kit, 4);
  rule(kit);
  list(kit, "rows", 400, row_, {}, [&](Painter& paint, const ListRow& row) {
    const auto family = static_cast<Family>(row.index % 13);
    const Rect sign{row.at.min, {row.at.min.x + m.row, row.at.max.y}};
    draw_glyph(paint, square_in(sign, m.icon * 0.9F), family, t.of(family));
    const float digits = m.px(84);
    paint.text_in({{sign.max.x, row.at.min.y}, {row.at.max.x - digits, row.at.max.y}}, kit.fonts().body, t.text,
                  row.index % 3 == 0 ? "copper(II) sulfate pentahydrate, dried" : "nitric acid, concentrated");
    paint.text_in({{row.at.max.x - digits, row.at.min.y}, {row.at.max.x - m.gap, row.at.max.y}}, kit.fonts().body,
                  t.muted, "0:" + std::to_string(10 + row.index % 50) + ".25", Align::right);
  });
}

void Gallery::bands(Kit& kit, const Rect& in) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  Painter paint;
  paint.fill(in, t.sunken, m.radius);
  float x = in.min.x + m.pad;
  for (const Safety s : {Safety::danger, Safety::warning, Safety::caution, Safety::notice, Safety::safe}) {
    const Rect at{{x, in.min.y + m.pad}, {x + m.px(44), in.max.y - m.pad}};
    paint.band(at, t.of(s).band, t.of(s).fill, m.px(4), s == Safety::caution);
    draw_sign(paint, square_in({{at.min.x + m.px(6), at.min.y + m.px(4)}, {at.max.x, at.min.y + m.px(26)}}, m.icon), s,
              t);
    x = at.max.x + m.gap;
  }
  const Rect bare{{x, in.min.y + m.pad}, {in.max.x - m.pad, in.max.y - m.pad}};
  paint.hatch(bare, t.of(Safety::danger).fill.faded(0.6F), m.px(9), 1.5F);
  paint.frame(bare, t.of(Safety::danger).fill, m.hair);
}

}  // namespace sash::testing
