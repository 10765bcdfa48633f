#include "desk/draw/written.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "desk/draw/kit/area.h"
#include "desk/draw/kit/controls.h"
#include "support/text.h"

namespace sash::desk {
namespace {

using workings::Piece;

Typeset typeset_of(const Piece& piece);

Typeset typeset_row(const std::vector<Piece>& pieces) {
  std::vector<Typeset> parts;
  for (const Piece& p : pieces) parts.push_back(typeset_of(p));
  return Typeset::row(std::move(parts));
}

Typeset typeset_of(const Piece& piece) {
  std::vector<Typeset> parts;
  switch (piece.kind) {
    case Piece::Kind::text:
    case Piece::Kind::formula:
      return Typeset::text(piece.text);
    case Piece::Kind::symbol:
      parts.push_back(Typeset::text(piece.text));
      if (!piece.below.empty()) parts.push_back(Typeset::sub(Typeset::text(piece.below)));
      if (!piece.above.empty()) parts.push_back(Typeset::super(Typeset::text(piece.above)));
      return Typeset::row(std::move(parts));
    case Piece::Kind::number:
      parts.push_back(Typeset::text(piece.text));
      if (!piece.unit.empty()) {
        parts.push_back(Typeset::space(0.2F));
        parts.push_back(Typeset::text(piece.unit));
      }
      return Typeset::row(std::move(parts));
    case Piece::Kind::sign:
      return Typeset::text(piece.text);
    case Piece::Kind::fraction:
      return Typeset::over(typeset_row(piece.top), typeset_row(piece.bottom));
  }
  return Typeset::text(piece.text);
}

// A piece measured and given its place in the flow.
struct Set {
  const Piece* piece;
  Typeset typeset;
  Typeset::Extent extent;
  float x;
};

constexpr float indent = 1.2F;  // of what goes on in the next row, in heights of the type

float air_before(const Piece& piece, float em) { return piece.kind == Piece::Kind::sign ? em * 0.32F : 0; }

class Flow {
 public:
  Flow(Kit& kit, std::string_view id, std::span<const workings::ConstantUsed> constants, Asks& asks)
      : kit_(kit), id_(id), constants_(constants), asks_(asks), em_(kit.fonts().body->FontSize) {
    left_ = ImGui::GetCursorScreenPos().x;
    y_ = ImGui::GetCursorScreenPos().y;
    width_ = ImGui::GetContentRegionAvail().x;
  }

  void line(const workings::Line& written) {
    const std::vector<Piece> pieces = breakable(written);
    float x = 0;
    std::vector<Set> row;
    for (const Piece& piece : pieces) {
      Typeset t = typeset_of(piece);
      const auto extent = t.measure(kit_.fonts());
      const float air = air_before(piece, em_);
      const bool breaks = piece.kind == Piece::Kind::sign || piece.kind == Piece::Kind::text;
      if (x + air + extent.width > width_ && x > 0 && (breaks || row.size() > 1)) {
        // The sign goes down with what follows it.
        std::vector<Set> down;
        if (!breaks && !row.empty() && row.back().piece->kind == Piece::Kind::sign) {
          down.push_back(row.back());
          row.pop_back();
        }
        put(row);
        row = std::move(down);
        x = em_ * indent;
        for (Set& s : row) {
          s.x = x;
          x += s.extent.width + air_before(*s.piece, em_);
        }
      }
      x += air;
      row.push_back({&piece, std::move(t), extent, x});
      x += extent.width + air;
    }
    put(row);
    y_ += em_ * 0.12F;
  }

  void finish() {
    ImGui::SetCursorScreenPos({left_, y_});
    ImGui::Dummy({1, 1});
  }

 private:
  /// The line with each text that is wider than the pane taken apart into its words.
  std::vector<Piece> breakable(const workings::Line& line) const {
    std::vector<Piece> out;
    for (const Piece& piece : line) {
      if (piece.kind != Piece::Kind::text || typeset_of(piece).measure(kit_.fonts()).width <= width_ - em_ * indent) {
        out.push_back(piece);
        continue;
      }
      std::string before = piece.text.starts_with(' ') ? " " : "";
      for (const std::string_view word : split(piece.text, ' ')) {
        if (word.empty()) continue;
        out.push_back(piece);
        out.back().text = std::exchange(before, "") + std::string(word) + ' ';
      }
    }
    return out;
  }

  void put(const std::vector<Set>& row) {
    float above = em_;
    float below = em_ * 0.3F;
    for (const Set& s : row) {
      above = std::max(above, s.extent.above);
      below = std::max(below, s.extent.below);
    }
    const float baseline = std::round(y_ + above);
    Painter paint;
    for (const Set& s : row) {
      const Rect box{{left_ + s.x, baseline - s.extent.above},
                     {left_ + s.x + s.extent.width, baseline + s.extent.below}};
      s.typeset.draw(paint, kit_.fonts(), {left_ + s.x, baseline}, ink(*s.piece));
      links(*s.piece, box, paint);
    }
    y_ = baseline + below + em_ * 0.2F;
  }

  Colour ink(const Piece& piece) const {
    return piece.kind == Piece::Kind::text ? kit_.theme().muted : kit_.theme().text;
  }

  void links(const Piece& piece, const Rect& box, Painter& paint) {
    const Theme& t = kit_.theme();
    if (piece.figure) {
      const std::string id = std::string(id_) + "." + std::to_string(number_++);
      const Pressed p = area(kit_, id, box, {.label = piece.text, .by_keyboard = false});
      paint.hline(box.max.y, box.min.x, box.max.x, p.hovered ? t.accent : t.accent.faded(0.55F), kit_.m().hair);
      if (p.clicked) asks_.go_to(*piece.figure);
      tip(kit_, box, "Go to this figure");
    } else if (piece.constant && *piece.constant < constants_.size()) {
      const auto& c = constants_[*piece.constant];
      for (float x = box.min.x; x < box.max.x; x += kit_.m().px(4)) {
        paint.fill({{x, box.max.y}, {std::min(x + kit_.m().px(2), box.max.x), box.max.y + kit_.m().hair}}, t.faint);
      }
      tip(kit_, box, c.name + ": " + c.text + "\n" + c.source);
    }
    for (const auto* part : {&piece.top, &piece.bottom}) {
      for (const Piece& inner : *part) {
        if (inner.constant || inner.figure) fraction_links(inner, box, paint);
      }
    }
  }

  // Inside a fraction the places are not known apart, so the whole fraction leads to its first figure or source.
  void fraction_links(const Piece& inner, const Rect& box, Painter& paint) {
    if (linked_ == &box) return;
    linked_ = &box;
    Piece stand_in = inner;
    stand_in.top.clear();
    stand_in.bottom.clear();
    links(stand_in, box, paint);
  }

  Kit& kit_;
  std::string_view id_;
  std::span<const workings::ConstantUsed> constants_;
  Asks& asks_;
  float em_;
  float left_ = 0;
  float y_ = 0;
  float width_ = 0;
  int number_ = 0;
  const Rect* linked_ = nullptr;
};

}  // namespace

void draw_written(Kit& kit, std::string_view id, std::span<const workings::Line> lines,
                  std::span<const workings::ConstantUsed> constants, Asks& asks) {
  Flow flow(kit, id, constants, asks);
  for (const workings::Line& line : lines) flow.line(line);
  flow.finish();
}

}  // namespace sash::desk
