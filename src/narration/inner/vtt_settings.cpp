#include "narration/inner/vtt_settings.h"

#include <algorithm>

#include "support/text.h"

namespace sash::narration {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool all_digits(std::string_view s) { return !s.empty() && std::all_of(s.begin(), s.end(), is_digit); }

/// Digits, with an optional fraction that has digits on both sides of its point.
bool is_decimal(std::string_view s) {
  const std::size_t point = s.find('.');
  if (point == std::string_view::npos) return all_digits(s);
  return all_digits(s.substr(0, point)) && all_digits(s.substr(point + 1));
}

/// The number such digits write: 0 when it is too small for a double, nothing when it is too large for one.
std::optional<double> decimal(std::string_view s) {
  if (!is_decimal(s)) return std::nullopt;
  if (const auto number = read_number(s)) return number;
  const std::string_view whole = s.substr(0, s.find('.'));
  const bool too_small = std::all_of(whole.begin(), whole.end(), [](char c) { return c == '0'; });
  return too_small ? std::optional(0.0) : std::nullopt;
}

std::optional<double> percentage(std::string_view s) {
  if (!s.ends_with('%')) return std::nullopt;
  const auto number = decimal(s.substr(0, s.size() - 1));
  return number && *number <= 100 ? number : std::nullopt;
}

/// A line number: it may be negative. "-0" is 0.
std::optional<double> line_number(std::string_view s) {
  const bool negative = s.starts_with('-');
  const auto number = decimal(negative ? s.substr(1) : s);
  return number && negative && *number != 0 ? -*number : number;
}

struct Setting {
  std::string_view name;
  std::string_view value;
};

std::vector<Setting> settings_of(std::string_view text) {
  constexpr std::string_view spaces = " \t\n\f\r";
  std::vector<Setting> found;
  std::size_t at = 0;
  while ((at = text.find_first_not_of(spaces, at)) != std::string_view::npos) {
    const std::size_t end = std::min(text.find_first_of(spaces, at), text.size());
    const std::string_view token = text.substr(at, end - at);
    const std::size_t colon = token.find(':');
    if (colon != std::string_view::npos && colon != 0 && colon + 1 != token.size()) {
      found.push_back({token.substr(0, colon), token.substr(colon + 1)});
    }
    at = end;
  }
  return found;
}

/// "value,align" taken apart; no align without a comma.
struct Placed {
  std::string_view place;
  std::optional<std::string_view> align;
};
Placed placed(std::string_view value) {
  const std::size_t comma = value.find(',');
  if (comma == std::string_view::npos) return {value, std::nullopt};
  return {value.substr(0, comma), value.substr(comma + 1)};
}

template <class E>
using Words = std::initializer_list<std::pair<std::string_view, E>>;

template <class E>
std::optional<E> among(std::string_view word, Words<E> words) {
  for (const auto& [name, value] : words) {
    if (name == word) return value;
  }
  return std::nullopt;
}

void set_line(std::string_view value, VttSettings& to) {
  using Align = VttSettings::LineAlign;
  const auto [place, align] = placed(value);
  const bool percent = place.ends_with('%');
  const auto number = percent ? percentage(place) : line_number(place);
  if (!number) return;
  if (align) {
    const auto known = among<Align>(*align, {{"start", Align::start}, {"center", Align::center}, {"end", Align::end}});
    if (!known) return;
    to.line_align = *known;
  }
  to.line = *number;
  to.snap_to_lines = !percent;
  to.region.reset();
}

void set_position(std::string_view value, VttSettings& to) {
  using Align = VttSettings::PositionAlign;
  const auto [place, align] = placed(value);
  const auto number = percentage(place);
  if (!number) return;
  if (align) {
    const auto known = among<Align>(
        *align, {{"line-left", Align::line_left}, {"center", Align::center}, {"line-right", Align::line_right}});
    if (!known) return;
    to.position_align = *known;
  }
  to.position = *number;
}

void set_region(std::string_view value, std::span<const VttRegion> regions, VttSettings& to) {
  to.region.reset();
  for (std::size_t i = regions.size(); i-- > 0;) {
    if (regions[i].id == value) {
      to.region = i;
      return;
    }
  }
}

std::optional<std::pair<double, double>> point(std::string_view value) {
  const auto [x, y] = placed(value);
  if (!y) return std::nullopt;
  const auto px = percentage(x);
  const auto py = percentage(*y);
  if (!px || !py) return std::nullopt;
  return std::pair(*px, *py);
}

}  // namespace

VttSettings read_settings(std::string_view text, std::span<const VttRegion> regions) {
  using Direction = VttSettings::Direction;
  using Align = VttSettings::TextAlign;
  VttSettings out;
  for (const auto& [name, value] : settings_of(text)) {
    if (name == "region") {
      set_region(value, regions, out);
    } else if (name == "vertical") {
      const auto known = among<Direction>(value, {{"rl", Direction::growing_left}, {"lr", Direction::growing_right}});
      if (known) out.direction = *known;
      if (out.direction != Direction::horizontal) out.region.reset();
    } else if (name == "line") {
      set_line(value, out);
    } else if (name == "position") {
      set_position(value, out);
    } else if (name == "size") {
      const auto number = percentage(value);
      if (number) out.size = *number;
      if (number && *number != 100) out.region.reset();
    } else if (name == "align") {
      const auto known = among<Align>(value, {{"start", Align::start},
                                              {"center", Align::center},
                                              {"end", Align::end},
                                              {"left", Align::left},
                                              {"right", Align::right}});
      if (known) out.align = *known;
    }
  }
  return out;
}

VttRegion read_region(std::string_view text) {
  VttRegion out;
  for (const auto& [name, value] : settings_of(text)) {
    if (name == "id") {
      out.id = value;
    } else if (name == "width") {
      out.width = percentage(value).value_or(out.width);
    } else if (name == "lines") {
      if (all_digits(value)) out.lines = decimal(value).value_or(out.lines);
    } else if (name == "regionanchor") {
      out.anchor = point(value).value_or(out.anchor);
    } else if (name == "viewportanchor") {
      out.viewport_anchor = point(value).value_or(out.viewport_anchor);
    } else if (name == "scroll") {
      if (value == "up") out.scroll_up = true;
    }
  }
  return out;
}

}  // namespace sash::narration
