#pragma once
// TextBlock: a paragraph broken into lines for a width, measured before it is drawn so that rows can make room for it.
// Breaks at spaces and after hyphens, at line feeds, and inside a word only when the word alone is too wide. Plain
// text; for formulae and fractions see typeset.h. Main thread only (asks the font).

#include <imgui.h>

#include <string>
#include <string_view>
#include <vector>

#include "desk/draw/kit/paint.h"

namespace sash::desk {

class TextBlock {
 public:
  struct Line {
    std::size_t from = 0;  ///< byte offsets in the text
    std::size_t until = 0;
    float width = 0;
  };

  /// `most_lines` 0 means as many as it takes; otherwise the last line is cut with an ellipsis.
  TextBlock(ImFont* font, std::string text, float width, std::size_t most_lines = 0);

  float height() const { return line_height() * static_cast<float>(lines_.size()); }
  float widest() const { return widest_; }
  float line_height() const;
  const std::vector<Line>& lines() const { return lines_; }
  const std::string& text() const { return text_; }

  void draw(Painter& paint, ImVec2 at, Colour c) const;
  /// Where byte `at` stands, from the upper left corner of the block (left edge, top of its line).
  ImVec2 place_of(std::size_t at) const;
  /// The byte whose character is at `p`, from the upper left corner; the nearest one outside.
  std::size_t byte_at(ImVec2 p) const;

 private:
  ImFont* font_;
  std::string text_;
  std::vector<Line> lines_;
  float widest_ = 0;
  float width_;
  bool cut_ = false;
};

/// Draws a paragraph at the ImGui cursor over the pane's width and moves the cursor below it.
void paragraph(ImFont* font, Colour c, std::string_view text);

}  // namespace sash::desk
