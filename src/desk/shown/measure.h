#pragma once
// Measure: how wide text is in the font it will be drawn with, so that layout can be decided without drawing, and the
// breaking of text into rows. Tests measure by counting letters; the kit measures with the real font. Pure.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace sash::desk {

class Measure {
 public:
  virtual ~Measure() = default;
  virtual float width(std::string_view text) const = 0;  ///< pixels
  virtual float line_height() const = 0;                 ///< pixels from row to row
};

/// Every code point equally wide.
class EvenMeasure final : public Measure {
 public:
  EvenMeasure(float letter, float line) : letter_(letter), line_(line) {}
  float width(std::string_view text) const override;
  float line_height() const override { return line_; }

 private:
  float letter_;
  float line_;
};

/// Bytes [begin, end) of the text; the white space at which the row was broken belongs to none.
struct TextRow {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  bool operator==(const TextRow&) const = default;
};

/// Breaks at white space so that rows fit `width`; a longer word is broken between letters; '\n' always breaks.
/// At least one row, even for empty text.
std::vector<TextRow> wrap(std::string_view text, float width, const Measure& measure);

/// `text`, cut at the end with "…" where it is wider than `width`.
std::string fitted(std::string_view text, float width, const Measure& measure);

}  // namespace sash::desk
