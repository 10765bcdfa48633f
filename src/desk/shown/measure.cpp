#include "desk/shown/measure.h"

#include "support/text.h"

namespace sash::desk {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }

// The largest end of whole code points in [begin, end) that fits; at least one code point.
std::uint32_t fitting_end(std::string_view text, std::uint32_t begin, std::uint32_t end, float width,
                          const Measure& measure) {
  std::uint32_t at = begin;
  float used = 0;
  while (at < end) {
    const auto length = static_cast<std::uint32_t>(code_point_at(text, at).length);
    used += measure.width(text.substr(at, length));
    if (used > width && at > begin) return at;
    at += length;
  }
  return end;
}

}  // namespace

float EvenMeasure::width(std::string_view text) const {
  std::size_t letters = 0;
  for (std::size_t at = 0; at < text.size(); at += code_point_at(text, at).length) ++letters;
  return letter_ * static_cast<float>(letters);
}

std::vector<TextRow> wrap(std::string_view text, float width, const Measure& measure) {
  std::vector<TextRow> rows;
  const auto size = static_cast<std::uint32_t>(text.size());
  const float blank = measure.width(" ");
  std::uint32_t begin = 0;  // of the row
  std::uint32_t end = 0;    // of its last word
  float used = 0;           // width of [begin, end)
  std::uint32_t at = 0;
  while (at < size) {
    if (text[at] == '\n') {
      rows.push_back({begin, end});
      begin = end = ++at;
      used = 0;
      continue;
    }
    if (is_blank(text[at])) {
      if (end == begin) begin = end = at + 1;  // blanks that start a row are dropped
      ++at;
      continue;
    }
    std::uint32_t word_end = at;
    while (word_end < size && !is_blank(text[word_end]) && text[word_end] != '\n') ++word_end;
    const float word = measure.width(text.substr(at, word_end - at));
    const float between = blank * static_cast<float>(at - end);
    if (end > begin && used + between + word > width) {
      rows.push_back({begin, end});
      begin = end = at;
      used = 0;
    }
    if (end == begin && word > width) {
      begin = at;
      for (std::uint32_t piece = fitting_end(text, begin, word_end, width, measure); piece < word_end;
           piece = fitting_end(text, begin, word_end, width, measure)) {
        rows.push_back({begin, piece});
        begin = piece;
      }
      used = measure.width(text.substr(begin, word_end - begin));
    } else {
      used += (end == begin ? 0 : between) + word;
    }
    end = word_end;
    at = word_end;
  }
  if (end > begin || rows.empty()) rows.push_back({begin, end});
  return rows;
}

std::string fitted(std::string_view text, float width, const Measure& measure) {
  if (measure.width(text) <= width) return std::string(text);
  static constexpr std::string_view dots = "…";
  const float room = width - measure.width(dots);
  if (room <= 0) return std::string(dots);
  const auto end = fitting_end(text, 0, static_cast<std::uint32_t>(text.size()), room, measure);
  return std::string(trim(text.substr(0, end))) + std::string(dots);
}

}  // namespace sash::desk
