#pragma once
// Typeset: a line of chemistry or arithmetic as people print it: subscripts, superscripts, fractions, emphasis,
// colours. Built as a small tree, measured, then drawn on a baseline. Not a maths layout engine: one line, no
// stretching brackets beyond those of fractions, no breaking. Measuring and drawing on the main thread (they ask the
// fonts). `from_markup` reads: _{..} subscript, ^{..} superscript, *..* strong; \ before any of _ ^ * { } \ means the
// character.

#include <imgui.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/draw/kit/fonts.h"
#include "desk/draw/kit/paint.h"

namespace sash::desk {

class Typeset {
 public:
  struct Extent {
    float width = 0;
    float above = 0;  ///< of the baseline
    float below = 0;
    float height() const { return above + below; }
  };

  static Typeset text(std::string utf8);
  static Typeset strong(std::string utf8);
  static Typeset italic(std::string utf8);  ///< Latin and Greek letters
  static Typeset sub(Typeset inner);
  static Typeset super(Typeset inner);
  static Typeset over(Typeset numerator, Typeset denominator);
  static Typeset row(std::vector<Typeset> parts);
  static Typeset coloured(Typeset inner, Colour c);
  static Typeset struck(Typeset inner);  ///< a line through, for units that cancel
  static Typeset space(float ems);
  static Typeset marked(Typeset inner, std::size_t mark);  ///< draw() tells where it came to stand
  static Typeset from_markup(std::string_view markup);
  /// A formula as typed ("CuSO4·5H2O", "SO4^2-", "2 HNO3"): digits after a letter or closing bracket are set low, what
  /// follows ^ high. Anything that is not such a digit stays as it is.
  static Typeset formula(std::string_view typed);

  /// Where a marked part was drawn.
  struct Spot {
    std::size_t mark;
    Rect at;
  };

  Extent measure(const Fonts& fonts) const;
  /// `at` is the left end of the baseline; gives the width used and, where `spots` is given, the marked parts.
  float draw(Painter& paint, const Fonts& fonts, ImVec2 baseline, Colour c, std::vector<Spot>* spots = nullptr) const;
  /// Draws at the ImGui cursor and moves it on, as any item.
  void put(const Fonts& fonts, Colour c) const;

 private:
  struct Node;
  explicit Typeset(std::shared_ptr<const Node> node) : node_(std::move(node)) {}
  std::shared_ptr<const Node> node_;
};

}  // namespace sash::desk
