#pragma once
// Colour: 8-bit sRGB with alpha, and the little arithmetic themes need. Not a colour-managed type. Pure values.
// Source: WCAG 2.1, "relative luminance" and "contrast ratio".

#include <imgui.h>

#include <cstdint>

namespace sash::desk {

struct Colour {
  std::uint8_t r = 0;
  std::uint8_t g = 0;
  std::uint8_t b = 0;
  std::uint8_t a = 255;
  bool operator==(const Colour&) const = default;

  /// From 0xRRGGBB.
  static constexpr Colour hex(std::uint32_t rgb) {
    return {static_cast<std::uint8_t>(rgb >> 16), static_cast<std::uint8_t>(rgb >> 8), static_cast<std::uint8_t>(rgb)};
  }
  constexpr ImU32 packed() const { return IM_COL32(r, g, b, a); }
  ImVec4 vec() const { return ImGui::ColorConvertU32ToFloat4(packed()); }
  /// The same colour seen through: `share` 0..1 of opaque.
  constexpr Colour faded(float share) const {
    return {r, g, b, static_cast<std::uint8_t>(static_cast<float>(a) * share)};
  }
};

/// `share` 0 gives `from`, 1 gives `to`.
Colour mix(Colour from, Colour to, float share);
/// 1 (same) to 21 (black on white); alpha is not looked at.
double contrast(Colour one, Colour other);
/// Whichever of the two reads better on `ground`.
Colour readable_on(Colour ground, Colour one, Colour other);

}  // namespace sash::desk
