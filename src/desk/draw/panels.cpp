#include "desk/draw/panels.h"

#include <imgui_internal.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "desk/draw/action_panel.h"
#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/text_block.h"
#include "desk/draw/panel_frame.h"
#include "desk/draw/sheet_blocks.h"
#include "desk/shown/settings_page.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

// --- keys

void keys_panel(Kit& kit, const Rect& in, PanelState& state) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const auto sections = key_sections();
  const float row = m.tight_row - m.px(2);
  const int columns = in.width() >= m.px(1050) ? 3 : in.width() >= m.px(700) ? 2 : 1;
  const float column_width = (std::min(in.width(), m.px(1180)) - m.pad * 2) / static_cast<float>(columns);
  // Each section goes whole into the column that is shortest so far.
  std::vector<std::size_t> column_of;
  std::vector<float> heights(static_cast<std::size_t>(columns), 0);
  for (const KeySection& s : sections) {
    const auto shortest = std::min_element(heights.begin(), heights.end());
    column_of.push_back(static_cast<std::size_t>(shortest - heights.begin()));
    *shortest += (static_cast<float>(s.rows.size()) + 1.6F) * row;
  }
  const float height = *std::max_element(heights.begin(), heights.end());
  const Rect at = middle_of(in, column_width * static_cast<float>(columns) + m.pad * 2, height + m.row + m.pad * 2);
  const PanelFrameBox sheet(kit, "panel.keys", at, "Every key", state);
  const ImVec2 top = ImGui::GetCursorScreenPos();
  std::vector<float> used(static_cast<std::size_t>(columns), 0);
  Painter paint;
  std::size_t number = 0;
  for (std::size_t i = 0; i < sections.size(); ++i) {
    const float x = top.x + column_width * static_cast<float>(column_of[i]);
    float y = top.y + used[column_of[i]];
    paint.text_in({{x, y}, {x + column_width, y + row}}, kit.fonts().small_strong, t.accent, sections[i].title);
    y += row;
    for (const KeyRow& key : sections[i].rows) {
      const float chords = column_width * 0.35F;
      const Rect whole{{x, y}, {x + column_width - m.gap, y + row}};
      kit.note("key." + std::to_string(number++), whole, key.words);
      paint.text_in({{x, y}, {x + chords - m.gap, y + row}}, kit.fonts().small_strong, t.text, key.chords);
      paint.text_in({{x + chords, y}, whole.max}, kit.fonts().small, t.muted, key.words);
      y += row;
    }
    used[column_of[i]] = y + row * 0.6F - top.y;
  }
  ImGui::Dummy({1, height});
}

// --- settings

void setting_label(Kit& kit, std::string_view words) {
  const Metrics& m = kit.m();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float wide = m.px(170);
  Painter().text_in({at, {at.x + wide, at.y + m.row}}, kit.fonts().body, kit.theme().muted, words);
  ImGui::SetCursorScreenPos({at.x + wide, at.y});
}

void bench_settings(Kit& kit, const session::SessionView& view, Asks& asks) {
  const Metrics& m = kit.m();
  rule(kit);
  paragraph(kit.fonts().strong, kit.theme().text, "This record");
  const bool may = !view.read_only;
  const model::Bench& bench = view.record.bench;
  const auto change = [&](auto&& set) {
    model::Bench n = bench;
    set(n);
    if (may && !(n == bench)) asks.want(session::PutBench{n});
  };
  setting_label(kit, "Reading profile");
  ProfilesShown profiles = show_profiles(bench);
  if (choice(kit, "settings.profile", profiles.names, profiles.chosen)) {
    change([&](model::Bench& n) { n.reading_profile = std::string(profiles.names[profiles.chosen]); });
  }
  setting_label(kit, "Room temperature");
  double celsius = bench.room_celsius;
  if (slider(kit, "settings.celsius", celsius, 0, 40, 0.5, m.px(200),
             number_text(std::round(celsius * 2) / 2) + " °C")) {
    change([&](model::Bench& n) { n.room_celsius = std::round(celsius * 2) / 2; });
  }
  setting_label(kit, "Air pressure");
  double pressure = bench.pressure_kpa;
  if (slider(kit, "settings.pressure", pressure, 60, 110, 0.1, m.px(200),
             number_text(std::round(pressure * 10) / 10) + " kPa")) {
    change([&](model::Bench& n) { n.pressure_kpa = std::round(pressure * 10) / 10; });
  }
  setting_label(kit, "Humidity");
  double humidity = bench.relative_humidity;
  if (slider(kit, "settings.humidity", humidity, 0, 1, 0.01, m.px(200),
             number_text(std::round(humidity * 100)) + " %")) {
    change([&](model::Bench& n) { n.relative_humidity = std::round(humidity * 100) / 100; });
  }
}

void settings_panel(Kit& kit, const Rect& in, const PanelFrame& frame, PanelState& state, Settings& settings,
                    Asks& asks) {
  const Metrics& m = kit.m();
  const float rows = frame.view.has_record ? 10.5F : 5.0F;
  const Rect at = middle_of(in, m.px(470), rows * (m.row + m.gap) + m.pad * 2);
  const PanelFrameBox sheet(kit, "panel.settings", at, "Settings", state);
  setting_label(kit, "Theme");
  constexpr std::array<std::string_view, 2> looks{"dim", "paper"};
  auto look = static_cast<std::size_t>(settings.look);
  if (segments(kit, "settings.look", looks, look)) settings.look = static_cast<LookName>(look);
  setting_label(kit, "Text size");
  if (button(kit, "settings.smaller", "",
             {.icon = Icon::minus, .tip = binding(Action::smaller).words, .chord = binding(Action::smaller).chord}))
    asks.want(Action::smaller);
  ImGui::SameLine();
  const Rect size = take_place({m.px(56), m.row});
  Painter().text_in(size, kit.fonts().body, kit.theme().text,
                    number_text(std::round(static_cast<double>(settings.font_scale) * 100)) + " %", Align::centre);
  ImGui::SameLine();
  if (button(kit, "settings.bigger", "",
             {.icon = Icon::plus, .tip = binding(Action::bigger).words, .chord = binding(Action::bigger).chord}))
    asks.want(Action::bigger);
  setting_label(kit, "Volume");
  double volume = settings.volume;
  if (slider(kit, "settings.volume", volume, 0, 1, 0.05, m.px(200), number_text(std::round(volume * 100)) + " %")) {
    settings.volume = volume;
    asks.want(session::SetVolume{volume});
  }
  if (frame.view.has_record) bench_settings(kit, frame.view, asks);
}

// --- paths

struct PathWords {
  std::string_view title;
  std::string_view hint;
  std::string_view verb;
};

PathWords words_of_use(PathUse use) {
  switch (use) {
    case PathUse::open:
      return {"Open or add", "path of a record, footage or captions", "Open"};
    case PathUse::export_script:
      return {"Export the script", "folder to write the script, captions and data to", "Export"};
    case PathUse::save_copy:
      return {"Save a copy", "path of the copy", "Save"};
  }
  return {};
}

void path_panel(Kit& kit, const Rect& in, const PanelFrame& frame, PanelState& state, Asks& asks) {
  const Metrics& m = kit.m();
  const PathWords words = words_of_use(state.path.use);
  const Rect at = middle_of(in, m.px(560), m.row * 3 + m.tight_row * 8 + m.pad * 4);
  const PanelFrameBox sheet(kit, "panel.path", at, words.title, state);
  bool done = draw_path(kit, "panel.path.field", state.path, words.hint, 0);
  if (button(kit, "panel.path.go", words.verb, {.kind = ButtonKind::primary, .enabled = !state.path.text.empty()}))
    done = true;
  if (frame.can_choose) {
    ImGui::SameLine();
    if (button(kit, "panel.path.choose", "Choose…", {.icon = Icon::folder})) state.path.choose = true;
  }
  if (!done || state.path.text.empty()) return;
  switch (state.path.use) {
    case PathUse::open:
      asks.want(intent_for({state.path.text}));
      break;
    case PathUse::export_script:
      asks.want(session::ExportScript{state.path.text});
      break;
    case PathUse::save_copy:
      asks.want(session::SaveCopy{state.path.text});
      break;
  }
  state.open = Panel::none;
}

// --- scratch

void scratch_panel(Kit& kit, const Rect& in, PanelState& state) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  if (state.scratched != state.scratch) {
    state.scratched = state.scratch;
    state.scratch_lines = scratch(state.scratch);
  }
  const float rows = static_cast<float>(std::max<std::size_t>(state.scratch_lines.size(), 3)) + 3;
  const Rect at = middle_of(in, m.px(560), rows * m.row + m.pad * 3);
  const PanelFrameBox sheet(kit, "panel.scratch", at, "Scratch page", state);
  if (std::exchange(state.fresh, false)) kit.focus().move_to("scratch.text", false);
  field(kit, "scratch.text", state.scratch,
        {.hint = "CuSO4·5H2O, 25 mL 6 M nitric acid, 4 g CuO; CuO + HCl -> CuCl2 + H2O", .select_all = true});
  if (state.scratch_lines.empty()) {
    paragraph(
        kit.fonts().small, t.muted,
        "A formula or a name gives its molar mass; a quantity of a substance its amount; a strength its other "
        "strengths; an equation is balanced, and with amounts and a semicolon before it, worked out. Also: 250 mL "
        "2 M HCl from 12 M; 70 °F in °C; 9.2 g of 12.6 g. Nothing is kept.");
  }
  for (const ScratchLine& line : state.scratch_lines) {
    const ImVec2 place = ImGui::GetCursorScreenPos();
    const float label = m.px(120);
    if (line.bad || line.words.empty()) {
      paragraph(line.bad ? kit.fonts().body : kit.fonts().small, line.bad ? t.bad : t.muted, line.value);
      continue;
    }
    Painter().text_in({place, {place.x + label, place.y + m.tight_row}}, kit.fonts().small, t.muted, line.words);
    ImGui::SetCursorScreenPos({place.x + label, place.y});
    paragraph(kit.fonts().body, t.text, line.value);
  }
}

void recent_rows(Kit& kit, const WelcomeShown& shown, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  paragraph(kit.fonts().strong, t.text, "Opened lately");
  std::size_t number = 0;
  for (const RecentRow& row : shown.recent) {
    if (number >= 8) break;
    const Rect at = take_place({ImGui::GetContentRegionAvail().x, m.row});
    const Pressed p = area(kit, "welcome.recent." + std::to_string(number++), at, {.label = row.name});
    Painter paint;
    if (p.hovered) paint.fill(at, t.raised, m.radius);
    draw_icon(paint, square_in({at.min, {at.min.x + m.px(26), at.max.y}}, m.px(15)), Icon::script, t.accent);
    const float used = paint.text_in({{at.min.x + m.px(28), at.min.y}, at.max}, kit.fonts().body, t.text, row.name);
    paint.text_in({{at.min.x + m.px(38) + used, at.min.y}, at.max}, kit.fonts().small, t.muted, row.folder);
    if (p.clicked) asks.want(session::OpenRecord{row.path});
  }
}

}  // namespace

bool draw_path(Kit& kit, std::string_view id, PathState& state, std::string_view hint, float width) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  if (std::exchange(state.fresh, false)) kit.focus().move_to(id, false);
  const FieldEdit e =
      field(kit, id, state.text,
            {.hint = hint, .icon = Icon::folder, .width = width, .cursor_at_end = std::exchange(state.to_end, false)});
  if (e.changed) state.changed = true;
  const auto take = [&](const std::string& offer) {
    state.text = offer;
    state.changed = state.to_end = true;
    ImGui::ClearActiveID();  // an active field keeps its own text; it takes ours when it begins anew
    kit.focus().let_go();
    kit.focus().move_to(id, false);
  };
  // Tab goes on with the first offer, as in a terminal.
  if (e.active && !state.offers.empty() && kit.keys().take({Key::tab, no_mods})) take(state.offers.front());
  std::size_t number = 0;
  for (const std::string& offer : state.offers) {
    const Rect at = take_place({width > 0 ? width : ImGui::GetContentRegionAvail().x, m.tight_row});
    const Pressed p =
        area(kit, std::string(id) + "." + std::to_string(number++), at, {.label = offer, .by_keyboard = false});
    Painter paint;
    if (p.hovered) paint.fill(at, t.raised_over, m.radius);
    const auto slash = offer.find_last_of('/', offer.size() - 2);
    const std::string_view name = std::string_view(offer).substr(slash == std::string::npos ? 0 : slash + 1);
    draw_icon(paint, square_in({{at.min.x + m.px(6), at.min.y}, {at.min.x + m.px(24), at.max.y}}, m.px(13)),
              offer.ends_with('/') ? Icon::folder : Icon::film, t.muted);
    paint.text_in({{at.min.x + m.px(28), at.min.y}, at.max}, kit.fonts().small, t.text, name);
    if (p.clicked) {
      take(offer);
      break;
    }
  }
  return e.committed && !state.text.empty();
}

void draw_welcome(Kit& kit, const Rect& at, const WelcomeShown& shown, PathState& path, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const float width = std::min(m.px(620), at.width() - m.pad * 2);
  const float left = std::round(at.min.x + (at.width() - width) / 2);
  const float recent =
      shown.recent.empty() ? 0 : m.row * (static_cast<float>(std::min<std::size_t>(shown.recent.size(), 8)) + 1.6F);
  const float offers = static_cast<float>(path.offers.size()) * m.tight_row;
  const float height = std::min(at.height(), m.px(330) + recent + offers);
  const float top = std::round(at.min.y + (at.height() - height) * 0.42F);
  const Pane pane(kit, "welcome", {{left, top}, {left + width, top + height}}, {.ground = false});
  paragraph(kit.fonts().title, t.text, "Sashline");
  paragraph(kit.fonts().body, t.muted,
            "The desk at which bench footage is made fit to publish: every figure pinned and checked, every hazard "
            "announced in time.");
  gap(kit, 8);
  const Rect drop = take_place({ImGui::GetContentRegionAvail().x, m.px(92)});
  kit.note("welcome.drop", drop);
  Painter paint;
  paint.fill(drop, t.panel, m.radius);
  dashed_frame(paint, drop, t.strong_line, m.px(6), m.px(2));
  draw_icon(paint, square_in({drop.min, {drop.max.x, drop.min.y + m.px(56)}}, m.px(26)), Icon::film, t.accent);
  paint.text_in({{drop.min.x, drop.min.y + m.px(48)}, {drop.max.x, drop.min.y + m.px(70)}}, kit.fonts().strong, t.text,
                "Drop footage or captions on this window", Align::centre);
  paint.text_in({{drop.min.x, drop.min.y + m.px(68)}, {drop.max.x, drop.min.y + m.px(86)}}, kit.fonts().small, t.muted,
                "A new record begins beside the first file. Captions or a script can be pasted too: Ctrl+V",
                Align::centre);
  gap(kit, 2);
  if (draw_path(kit, "welcome.path", path, "or type a path: record, footage, captions", 0))
    asks.want(intent_for({path.text}));
  if (button(kit, "welcome.open", "Open", {.kind = ButtonKind::primary, .enabled = !path.text.empty()}))
    asks.want(intent_for({path.text}));
  ImGui::SameLine();
  if (shown.can_choose) {
    if (button(kit, "welcome.choose", "Choose files…", {.icon = Icon::folder})) path.choose = true;
    ImGui::SameLine();
  }
  if (button(kit, "welcome.demo", "Open the demo",
             {.icon = Icon::play, .tip = "A copper cycle filmed in a teaching lab, with mistakes to find"}))
    asks.want(session::OpenDemo{});
  ImGui::SameLine();
  if (button(kit, "welcome.paste", "Paste",
             {.icon = Icon::lines,
              .tip = "Captions, a transcript or a script from the clipboard",
              .chord = binding(Action::paste).chord}))
    asks.want(Action::paste);
  ImGui::SameLine();
  if (button(kit, "welcome.keys", "Keys",
             {.icon = Icon::keyboard, .kind = ButtonKind::quiet, .chord = binding(Action::show_keys).chord}))
    asks.want(Action::show_keys);
  gap(kit, 6);
  if (!shown.recent.empty()) recent_rows(kit, shown, asks);
}

void draw_panel(Kit& kit, const Rect& at, const PanelFrame& frame, PanelState& state, Settings& settings, Asks& asks) {
  switch (state.open) {
    case Panel::none:
      return;
    case Panel::keys:
      return keys_panel(kit, at, state);
    case Panel::settings:
      return settings_panel(kit, at, frame, state, settings, asks);
    case Panel::path:
      return path_panel(kit, at, frame, state, asks);
    case Panel::scratch:
      return scratch_panel(kit, at, state);
    case Panel::actions:
      return draw_action_panel(kit, at, state, asks);
  }
}

}  // namespace sash::desk
