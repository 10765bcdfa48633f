#include "desk/draw/kit/typeset.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "support/text.h"

namespace sash::desk {
namespace {

enum class What { text, strong, italic, sub, super, over, row, coloured, struck, space, marked };

/// How big and in what face the part at hand is set. Small parts take the small faces, so that nothing is stretched.
struct Setting {
  const Fonts& fonts;
  bool small = false;
  bool strong = false;
  std::vector<Typeset::Spot>* spots = nullptr;

  ImFont* slanted() const { return small ? fonts.small_italic : fonts.italic; }
  ImFont* font() const {
    if (small) return strong ? fonts.small_strong : fonts.small;
    return strong ? fonts.strong : fonts.body;
  }
  Setting lower() const { return {fonts, true, strong, spots}; }
};

constexpr float ascent_share = 0.76F;  // of the text height, above the baseline
constexpr float sub_drop = 0.20F;      // of the body size
constexpr float super_rise = 0.34F;
constexpr float axis_share = 0.27F;  // the fraction bar above the baseline
constexpr float bar_air = 0.14F;

}  // namespace

struct Typeset::Node {
  What what = What::text;
  std::string text;
  std::vector<Typeset> parts;
  Colour colour;
  float ems = 0;
  std::size_t mark = 0;

  Extent measure(const Setting& set) const;
  void draw(Painter& paint, const Setting& set, ImVec2 at, Colour c) const;

 private:
  Extent inner(const Setting& set) const { return parts.front().node_->measure(set); }
};

Typeset::Extent Typeset::Node::measure(const Setting& set) const {
  const float size = set.font()->FontSize;
  switch (what) {
    case What::text:
      return {text_size(set.font(), text).x, size * ascent_share, size * (1 - ascent_share)};
    case What::strong: {
      const Setting heavy{set.fonts, set.small, true, nullptr};
      return {text_size(heavy.font(), text).x, size * ascent_share, size * (1 - ascent_share)};
    }
    case What::italic:
      return {text_size(set.slanted(), text).x, size * ascent_share, size * (1 - ascent_share)};
    case What::sub: {
      const Extent e = inner(set.lower());
      const float drop = std::round(size * sub_drop);
      return {e.width, e.above - drop, e.below + drop};
    }
    case What::super: {
      const Extent e = inner(set.lower());
      const float rise = std::round(size * super_rise);
      return {e.width, e.above + rise, e.below - rise};
    }
    case What::over: {
      const Extent top = parts[0].node_->measure(set);
      const Extent bottom = parts[1].node_->measure(set);
      const float axis = size * axis_share;
      const float air = std::round(size * bar_air);
      return {std::max(top.width, bottom.width) + size * 0.4F, axis + air + top.height(), bottom.height() + air - axis};
    }
    case What::row: {
      Extent all;
      for (const Typeset& part : parts) {
        const Extent e = part.node_->measure(set);
        all.width += e.width;
        all.above = std::max(all.above, e.above);
        all.below = std::max(all.below, e.below);
      }
      return all;
    }
    case What::coloured:
    case What::struck:
    case What::marked:
      return inner(set);
    case What::space:
      return {ems * size, 0, 0};
  }
  return {};
}

void Typeset::Node::draw(Painter& paint, const Setting& set, ImVec2 at, Colour c) const {
  const float size = set.font()->FontSize;
  switch (what) {
    case What::text:
      paint.text({at.x, at.y - size * ascent_share}, set.font(), c, text);
      return;
    case What::strong: {
      const Setting heavy{set.fonts, set.small, true, nullptr};
      paint.text({at.x, at.y - size * ascent_share}, heavy.font(), c, text);
      return;
    }
    case What::italic:
      paint.text({at.x, at.y - size * ascent_share}, set.slanted(), c, text);
      return;
    case What::sub:
      parts[0].node_->draw(paint, set.lower(), {at.x, at.y + std::round(size * sub_drop)}, c);
      return;
    case What::super:
      parts[0].node_->draw(paint, set.lower(), {at.x, at.y - std::round(size * super_rise)}, c);
      return;
    case What::over: {
      const Extent all = measure(set);
      const Extent top = parts[0].node_->measure(set);
      const Extent bottom = parts[1].node_->measure(set);
      const float bar = std::round(at.y - size * axis_share);
      const float air = std::round(size * bar_air);
      const float side = size * 0.1F;
      paint.hline(bar, at.x + side, at.x + all.width - side, c, std::max(1.0F, std::round(size / 16)));
      parts[0].node_->draw(paint, set, {at.x + (all.width - top.width) / 2, bar - air - top.below}, c);
      parts[1].node_->draw(paint, set, {at.x + (all.width - bottom.width) / 2, bar + air + bottom.above}, c);
      return;
    }
    case What::row:
      for (const Typeset& part : parts) {
        part.node_->draw(paint, set, at, c);
        at.x += part.node_->measure(set).width;
      }
      return;
    case What::coloured:
      parts[0].node_->draw(paint, set, at, colour);
      return;
    case What::struck: {
      parts[0].node_->draw(paint, set, at, c);
      const Extent e = inner(set);
      paint.line({at.x, at.y + e.below * 0.2F}, {at.x + e.width, at.y - e.above * 0.75F}, c.faded(0.8F), 1.2F);
      return;
    }
    case What::marked: {
      parts[0].node_->draw(paint, set, at, c);
      const Extent e = inner(set);
      if (set.spots != nullptr)
        set.spots->push_back({mark, {{at.x, at.y - e.above}, {at.x + e.width, at.y + e.below}}});
      return;
    }
    case What::space:
      return;
  }
}

Typeset Typeset::text(std::string utf8) {
  return Typeset(std::make_shared<Node>(Node{What::text, std::move(utf8), {}, {}, 0}));
}
Typeset Typeset::strong(std::string utf8) {
  return Typeset(std::make_shared<Node>(Node{What::strong, std::move(utf8), {}, {}, 0}));
}
Typeset Typeset::italic(std::string utf8) {
  return Typeset(std::make_shared<Node>(Node{What::italic, std::move(utf8), {}, {}, 0}));
}
Typeset Typeset::sub(Typeset inner) {
  return Typeset(std::make_shared<Node>(Node{What::sub, {}, {std::move(inner)}, {}, 0}));
}
Typeset Typeset::super(Typeset inner) {
  return Typeset(std::make_shared<Node>(Node{What::super, {}, {std::move(inner)}, {}, 0}));
}
Typeset Typeset::over(Typeset numerator, Typeset denominator) {
  return Typeset(std::make_shared<Node>(Node{What::over, {}, {std::move(numerator), std::move(denominator)}, {}, 0}));
}
Typeset Typeset::row(std::vector<Typeset> parts) {
  return Typeset(std::make_shared<Node>(Node{What::row, {}, std::move(parts), {}, 0}));
}
Typeset Typeset::coloured(Typeset inner, Colour c) {
  return Typeset(std::make_shared<Node>(Node{What::coloured, {}, {std::move(inner)}, c, 0}));
}
Typeset Typeset::struck(Typeset inner) {
  return Typeset(std::make_shared<Node>(Node{What::struck, {}, {std::move(inner)}, {}, 0}));
}
Typeset Typeset::marked(Typeset inner, std::size_t mark) {
  return Typeset(std::make_shared<Node>(Node{What::marked, {}, {std::move(inner)}, {}, 0, mark}));
}
Typeset Typeset::space(float ems) { return Typeset(std::make_shared<Node>(Node{What::space, {}, {}, {}, ems})); }

namespace {

/// Reads markup until `end` (0: to the end of the text).
std::vector<Typeset> read_parts(std::string_view s, std::size_t& at, char end) {
  std::vector<Typeset> parts;
  std::string run;
  const auto flush = [&] {
    if (!run.empty()) parts.push_back(Typeset::text(std::exchange(run, {})));
  };
  while (at < s.size() && (end == 0 || s[at] != end)) {
    const char c = s[at++];
    const bool group = (c == '_' || c == '^') && at < s.size() && s[at] == '{';
    if (c == '\\' && at < s.size()) {
      run += s[at++];
    } else if (group) {
      flush();
      ++at;
      Typeset inner = Typeset::row(read_parts(s, at, '}'));
      parts.push_back(c == '_' ? Typeset::sub(std::move(inner)) : Typeset::super(std::move(inner)));
      if (at < s.size()) ++at;
    } else if (c == '*' && s.find('*', at) != std::string_view::npos) {
      flush();
      const std::size_t close = s.find('*', at);
      parts.push_back(Typeset::strong(std::string(s.substr(at, close - at))));
      at = close + 1;
    } else {
      run += c;
    }
  }
  flush();
  return parts;
}

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }
bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

}  // namespace

Typeset Typeset::from_markup(std::string_view markup) {
  std::size_t at = 0;
  return row(read_parts(markup, at, 0));
}

Typeset Typeset::formula(std::string_view typed) {
  std::vector<Typeset> parts;
  std::string run;
  const auto flush = [&] {
    if (!run.empty()) parts.push_back(text(std::exchange(run, {})));
  };
  for (std::size_t at = 0; at < typed.size();) {
    const char before = at == 0 ? ' ' : typed[at - 1];
    const bool low = is_digit(typed[at]) && (is_letter(before) || before == ')' || before == ']');
    if (low) {
      flush();
      std::string digits;
      while (at < typed.size() && is_digit(typed[at])) digits += typed[at++];
      parts.push_back(sub(text(std::move(digits))));
    } else if (typed[at] == '^') {
      flush();
      std::string charge;
      for (++at; at < typed.size() && (is_digit(typed[at]) || typed[at] == '+' || typed[at] == '-'); ++at) {
        charge += typed[at] == '-' ? std::string("−") : std::string(1, typed[at]);
      }
      parts.push_back(super(text(std::move(charge))));
    } else {
      run += typed[at++];
    }
  }
  flush();
  return row(std::move(parts));
}

Typeset::Extent Typeset::measure(const Fonts& fonts) const { return node_->measure(Setting{fonts}); }

float Typeset::draw(Painter& paint, const Fonts& fonts, ImVec2 baseline, Colour c, std::vector<Spot>* spots) const {
  Setting set{fonts};
  set.spots = spots;
  node_->draw(paint, set, baseline, c);
  return measure(fonts).width;
}

void Typeset::put(const Fonts& fonts, Colour c) const {
  const Extent e = measure(fonts);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  Painter paint;
  draw(paint, fonts, {at.x, at.y + std::ceil(e.above)}, c);
  ImGui::Dummy({e.width, std::ceil(e.above) + std::ceil(e.below)});
}

}  // namespace sash::desk
