#include <imgui_internal.h>

#include <cmath>

#include "desk/draw/kit/inner/field_frame.h"

namespace sash::desk::inner {
namespace {

float width_of(const FieldLook& look) { return look.width > 0 ? look.width : ImGui::GetContentRegionAvail().x; }
float sign_width(const Kit& kit, const FieldLook& look) {
  return look.icon == Icon::none ? 0 : kit.m().icon + kit.m().gap;
}

}  // namespace

float FieldFrame::text_width(const Kit& kit, const FieldLook& look) {
  return std::max(kit.m().body, width_of(look) - sign_width(kit, look) - 2 * kit.m().inset);
}

FieldFrame::FieldFrame(Kit& kit, const FieldLook& look, float height)
    : kit_(kit),
      look_(look),
      top_(ImGui::GetCursorScreenPos()),
      width_(width_of(look)),
      label_height_(look.label.empty() ? 0 : std::round(kit.m().small * 1.5F)),
      fault_height_(look.fault.empty() ? 0 : std::round(kit.m().small * 1.6F)) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  box_ = {{top_.x, top_.y + label_height_}, {top_.x + width_, top_.y + label_height_ + height}};
  if (label_height_ > 0) {
    paint_.text_in({top_, {top_.x + width_, box_.min.y - m.px(2)}}, kit.fonts().small, t.muted, look.label);
  }
  paint_.fill(box_, look.enabled ? t.sunken : t.raised.faded(0.5F), m.radius);
  const float sign = sign_width(kit, look);
  if (sign > 0) {
    const float x = box_.min.x + m.inset;
    draw_icon(paint_, square_in({{x, box_.min.y}, {x + m.icon, box_.max.y}}, m.icon), look.icon, t.muted);
  }
  inside_ = {{box_.min.x + m.inset + sign, box_.min.y}, {box_.max.x - m.inset, box_.max.y}};
}

void FieldFrame::hint(float height) {
  if (look_.hint.empty()) return;
  paint_.text_in({inside_.min, {inside_.max.x, inside_.min.y + height}}, kit_.fonts().body, kit_.theme().faint,
                 look_.hint);
}

void FieldFrame::close(bool active, bool ring) {
  const Metrics& m = kit_.m();
  const Theme& t = kit_.theme();
  paint_.frame(box_,
               !look_.fault.empty() ? t.bad
               : active             ? t.accent
                                    : t.strong_line,
               active ? m.ring : m.hair, m.radius);
  if (ring) draw_ring(kit_, paint_, box_, m.radius);
  if (fault_height_ > 0) {
    paint_.text_in({{top_.x, box_.max.y + m.px(2)}, {top_.x + width_, box_.max.y + fault_height_}}, kit_.fonts().small,
                   t.bad, look_.fault);
  }
  ImGui::SetCursorScreenPos(top_);
  ImGui::ItemSize(ImVec2(width_, box_.max.y - top_.y + fault_height_));
}

}  // namespace sash::desk::inner
