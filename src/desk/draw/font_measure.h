#pragma once
// FontMeasure: the Measure of a face of the kit, so that layout knows the widths it will be drawn with. Main thread
// only.

#include <imgui.h>

#include <cfloat>
#include <cmath>

#include "desk/shown/measure.h"

namespace sash::desk {

class FontMeasure final : public Measure {
 public:
  explicit FontMeasure(const ImFont& font) : font_(font) {}
  float width(std::string_view text) const override {
    return font_.CalcTextSizeA(font_.FontSize, FLT_MAX, 0, text.data(), text.data() + text.size()).x;
  }
  float line_height() const override { return std::round(font_.FontSize * 1.32F); }

 private:
  const ImFont& font_;
};

}  // namespace sash::desk
