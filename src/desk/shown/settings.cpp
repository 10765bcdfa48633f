#include "desk/shown/settings.h"

#include <algorithm>
#include <charconv>

#include "support/text.h"

namespace sash::desk {
namespace {

std::string plain(double v) {
  char buffer[32];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, v, std::chars_format::fixed, 4).ptr;
  return {buffer, end};
}

template <class T>
void take(std::string_view value, T low, T high, T& to) {
  const auto read = read_number(value);
  if (!read || *read < static_cast<double>(low) || *read > static_cast<double>(high)) return;
  to = static_cast<T>(*read);
}

/// A place on a desktop, which may lie left of or above its first screen.
std::optional<int> place(std::string_view value) {
  const auto read = read_integer(value);
  if (!read || *read < -32768 || *read > 32768) return std::nullopt;
  return static_cast<int>(*read);
}

}  // namespace

std::string_view name_of(LookName look) { return look == LookName::dim ? "dim" : "paper"; }

Splits usable(Splits s) {
  s.left = std::clamp(s.left, 0.18F, 0.55F);
  s.right = std::clamp(s.right, 0.18F, 0.45F);
  if (const float over = s.left + s.right - 0.70F; over > 0) {  // the sheet keeps at least 30 % of the width
    s.left = std::max(0.18F, s.left - over);
    s.right = std::min(s.right, 0.70F - s.left);
  }
  s.lower = std::clamp(s.lower, 0.15F, 0.85F);
  return s;
}

std::string settings_text(const Settings& s) {
  std::string out;
  const auto line = [&](std::string_view name, std::string_view value) {
    out.append(name).append(" = ").append(value).append("\n");
  };
  line("theme", name_of(s.look));
  line("font_scale", plain(static_cast<double>(s.font_scale)));
  line("volume", plain(s.volume));
  line("split_left", plain(static_cast<double>(s.splits.left)));
  line("split_right", plain(static_cast<double>(s.splits.right)));
  line("split_lower", plain(static_cast<double>(s.splits.lower)));
  line("window_width", std::to_string(s.window_width));
  line("window_height", std::to_string(s.window_height));
  if (s.window_x) line("window_x", std::to_string(*s.window_x));
  if (s.window_y) line("window_y", std::to_string(*s.window_y));
  line("maximised", s.maximised ? "yes" : "no");
  return out;
}

Settings read_settings(std::string_view text) {
  Settings s;
  for (const std::string_view line : split_lines(text)) {
    const auto equals = line.find('=');
    if (equals == std::string_view::npos) continue;
    const std::string_view name = trim(line.substr(0, equals));
    const std::string_view value = trim(line.substr(equals + 1));
    if (name == "theme") {
      if (value == name_of(LookName::paper)) s.look = LookName::paper;
    } else if (name == "font_scale") {
      take(value, least_font_scale, most_font_scale, s.font_scale);
    } else if (name == "volume") {
      take(value, 0.0, 1.0, s.volume);
    } else if (name == "split_left") {
      take(value, 0.0F, 1.0F, s.splits.left);
    } else if (name == "split_right") {
      take(value, 0.0F, 1.0F, s.splits.right);
    } else if (name == "split_lower") {
      take(value, 0.0F, 1.0F, s.splits.lower);
    } else if (name == "window_width") {
      take(value, 320, 16384, s.window_width);
    } else if (name == "window_height") {
      take(value, 240, 16384, s.window_height);
    } else if (name == "window_x") {
      s.window_x = place(value);
    } else if (name == "window_y") {
      s.window_y = place(value);
    } else if (name == "maximised") {
      s.maximised = value == "yes";
    }
  }
  s.splits = usable(s.splits);
  return s;
}

}  // namespace sash::desk
