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

constexpr float thin = 0.2F;  // of the height of the type
constexpr float around_signs = 0.32F;

// Room before a piece: a sign stands free, and two symbols that are multiplied do not run together.
float air_between(const Piece* before, const Piece& piece) {
  if (before == nullptr) return 0;
  if (piece.kind == Piece::Kind::sign || before->kind == Piece::Kind::sign) return around_signs;
  const bool symbols = before->kind == Piece::Kind::symbol && piece.kind == Piece::Kind::symbol;
  return symbols ? thin : 0;
}

// Sets pieces; those that lead somewhere, to a figure or a source, are marked with their number in `links`.
class Setter {
 public:
  explicit Setter(std::vector<const Piece*>& links) : links_(links) {}

  Typeset set(const Piece& piece) {
    if (!piece.figure && !piece.constant) return bare(piece);
    links_.push_back(&piece);
    const std::size_t mark = links_.size() - 1;
    return Typeset::marked(bare(piece), mark);
  }

 private:
  Typeset bare(const Piece& piece) {
    std::vector<Typeset> parts;
    switch (piece.kind) {
      case Piece::Kind::text:
      case Piece::Kind::formula:
      case Piece::Kind::sign:
        return Typeset::text(piece.text);
      case Piece::Kind::symbol: {
        const std::size_t upright = workings::upright_start(piece.text);
        if (upright > 0) parts.push_back(Typeset::text(piece.text.substr(0, upright)));
        if (upright < piece.text.size()) parts.push_back(Typeset::italic(piece.text.substr(upright)));
        if (!piece.below.empty()) parts.push_back(Typeset::sub(Typeset::text(piece.below)));
        if (!piece.above.empty()) parts.push_back(Typeset::super(Typeset::text(piece.above)));
        return Typeset::row(std::move(parts));
      }
      case Piece::Kind::number:
        parts.push_back(Typeset::text(piece.text));
        if (!piece.unit.empty()) {
          parts.push_back(Typeset::space(thin));
          parts.push_back(Typeset::text(piece.unit));
        }
        return Typeset::row(std::move(parts));
      case Piece::Kind::fraction:
        return Typeset::over(row(piece.top), row(piece.bottom));
    }
    return Typeset::text(piece.text);
  }

  Typeset row(const std::vector<Piece>& pieces) {
    std::vector<Typeset> parts;
    const Piece* before = nullptr;
    for (const Piece& piece : pieces) {
      const float air = air_between(before, piece);
      if (air > 0) parts.push_back(Typeset::space(air));
      parts.push_back(set(piece));
      before = &piece;
    }
    return Typeset::row(std::move(parts));
  }

  std::vector<const Piece*>& links_;
};

// A piece measured and given its place in the flow.
struct Set {
  const Piece* piece;
  Typeset typeset;
  Typeset::Extent extent;
  float x;
};

constexpr float indent = 1.2F;  // of what goes on in the next row, in heights of the type

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
    links_.clear();
    Setter setter(links_);
    std::vector<Set> row;
    float x = 0;
    const auto add = [&](Set set) {
      set.x = x + (row.empty() ? 0 : em_ * air_between(row.back().piece, *set.piece));
      x = set.x + set.extent.width;
      row.push_back(std::move(set));
    };
    for (const Piece& piece : pieces) {
      Typeset t = setter.set(piece);
      Set next{&piece, t, t.measure(kit_.fonts()), 0};
      const float air = row.empty() ? 0 : em_ * air_between(row.back().piece, piece);
      const bool breaks = piece.kind == Piece::Kind::sign || piece.kind == Piece::Kind::text;
      if (x + air + next.extent.width > width_ && x > 0 && (breaks || row.size() > 1)) {
        // The sign goes down with what follows it.
        std::optional<Set> sign;
        if (!breaks && row.back().piece->kind == Piece::Kind::sign) {
          sign = row.back();
          row.pop_back();
        }
        put(row);
        row.clear();
        x = em_ * indent;
        if (sign) add(std::move(*sign));
      }
      add(std::move(next));
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
      if (piece.kind != Piece::Kind::text ||
          Typeset::text(piece.text).measure(kit_.fonts()).width <= width_ - em_ * indent) {
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
    std::vector<Typeset::Spot> spots;
    for (const Set& s : row) s.typeset.draw(paint, kit_.fonts(), {left_ + s.x, baseline}, ink(*s.piece), &spots);
    for (const auto& spot : spots) link(*links_[spot.mark], spot.at, paint);
    y_ = baseline + below + em_ * 0.2F;
  }

  Colour ink(const Piece& piece) const {
    return piece.kind == Piece::Kind::text ? kit_.theme().muted : kit_.theme().text;
  }

  void link(const Piece& piece, const Rect& box, Painter& paint) {
    const Theme& t = kit_.theme();
    if (piece.figure) {
      const std::string id = std::string(id_) + "." + std::to_string(number_++);
      const Pressed p = area(kit_, id, box, {.label = piece.text, .by_keyboard = false});
      paint.hline(box.max.y, box.min.x, box.max.x, p.hovered ? t.accent : t.accent.faded(0.55F), kit_.m().hair);
      if (p.clicked) asks_.go_to(*piece.figure);
      tip(kit_, box, "Go to this figure");
    } else if (*piece.constant < constants_.size()) {
      const auto& c = constants_[*piece.constant];
      for (float x = box.min.x; x < box.max.x; x += kit_.m().px(4)) {
        paint.fill({{x, box.max.y}, {std::min(x + kit_.m().px(2), box.max.x), box.max.y + kit_.m().hair}}, t.faint);
      }
      tip(kit_, box, c.name + ": " + c.text + "\n" + c.source);
    }
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
  std::vector<const Piece*> links_;  // of the line at hand
};

}  // namespace

void draw_written(Kit& kit, std::string_view id, std::span<const workings::Line> lines,
                  std::span<const workings::ConstantUsed> constants, Asks& asks) {
  Flow flow(kit, id, constants, asks);
  for (const workings::Line& line : lines) flow.line(line);
  flow.finish();
}

}  // namespace sash::desk
