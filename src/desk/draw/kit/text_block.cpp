#include "desk/draw/kit/text_block.h"

#include <algorithm>
#include <cmath>

#include "support/text.h"

namespace sash::desk {
namespace {

/// The end of the line that begins at `from`, and where the next one begins.
struct Break {
  std::size_t until;
  std::size_t next;
};

Break break_after(ImFont* font, std::string_view text, std::size_t from, float width) {
  const std::size_t feed = std::min(text.find('\n', from), text.size());
  const std::string_view whole = text.substr(from, feed - from);
  const std::size_t fits = fitting_bytes(font, whole, width);
  if (fits >= whole.size()) return {feed, feed + 1};
  // The last place to break at or before `fits`: a space there may hang over the edge.
  for (std::size_t at = fits; at > 0; --at) {
    if (whole[at] == ' ') {
      std::size_t next = at;
      while (next < whole.size() && whole[next] == ' ') ++next;
      return {from + at, from + next};
    }
    if (whole[at - 1] == '-' && at < fits) return {from + at, from + at};
  }
  const std::size_t least = code_point_at(whole, 0).length;
  const std::size_t at = std::max(fits, least);
  return {from + at, from + at};
}

}  // namespace

TextBlock::TextBlock(ImFont* font, std::string text, float width, std::size_t most_lines)
    : font_(font), text_(std::move(text)), width_(width) {
  const std::string_view all = text_;
  std::size_t from = 0;
  while (from < all.size()) {
    const Break at = break_after(font, all, from, width);
    lines_.push_back({from, at.until, text_size(font, all.substr(from, at.until - from)).x});
    widest_ = std::max(widest_, lines_.back().width);
    from = at.next;
    if (most_lines != 0 && lines_.size() == most_lines && from < all.size()) {
      lines_.back().until = all.size();
      cut_ = true;
      break;
    }
  }
  if (lines_.empty()) lines_.push_back({});
}

float TextBlock::line_height() const { return std::round(font_->FontSize * 1.3F); }

void TextBlock::draw(Painter& paint, ImVec2 at, Colour c) const {
  const float step = line_height();
  float y = at.y + std::round((step - font_->FontSize) / 2);
  const float clip_top = paint.list().GetClipRectMin().y - step;
  const float clip_bottom = paint.list().GetClipRectMax().y;
  for (std::size_t i = 0; i < lines_.size(); ++i, y += step) {
    if (y < clip_top || y > clip_bottom) continue;
    const std::string_view line = std::string_view(text_).substr(lines_[i].from, lines_[i].until - lines_[i].from);
    if (cut_ && i + 1 == lines_.size()) {
      paint.text_in({{at.x, y}, {at.x + width_, y + font_->FontSize}}, font_, c, line.substr(0, line.find('\n')));
    } else {
      paint.text({at.x, y}, font_, c, line);
    }
  }
}

ImVec2 TextBlock::place_of(std::size_t at) const {
  const auto after = std::ranges::upper_bound(lines_, at, {}, &Line::from);
  const std::size_t row = after == lines_.begin() ? 0 : static_cast<std::size_t>(after - lines_.begin()) - 1;
  const Line& line = lines_[row];
  const std::size_t until = std::clamp(at, line.from, line.until);
  const float x = text_size(font_, std::string_view(text_).substr(line.from, until - line.from)).x;
  return {x, static_cast<float>(row) * line_height()};
}

std::size_t TextBlock::byte_at(ImVec2 p) const {
  const float row = std::clamp(std::floor(p.y / line_height()), 0.0F, static_cast<float>(lines_.size() - 1));
  const Line& line = lines_[static_cast<std::size_t>(row)];
  const std::string_view text = std::string_view(text_).substr(line.from, line.until - line.from);
  float x = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = code_point_at(text, at).length;
    const float next = text_size(font_, text.substr(0, at + length)).x;
    if (p.x < (x + next) / 2) return line.from + at;
    x = next;
    at += length;
  }
  return line.until;
}

void paragraph(ImFont* font, Colour c, std::string_view text) {
  const TextBlock block(font, std::string(text), ImGui::GetContentRegionAvail().x);
  Painter paint;
  block.draw(paint, ImGui::GetCursorScreenPos(), c);
  ImGui::Dummy({block.widest(), block.height()});
}

}  // namespace sash::desk
