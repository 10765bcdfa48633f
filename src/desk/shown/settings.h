#pragma once
// Settings: what the person chose about the desk itself (not about a record), as one value and as text, one
// "name = value" a line. Who keeps the text on disk is the shell's business. Pure.

#include <optional>
#include <string>
#include <string_view>

namespace sash::desk {

/// The two themes of the desk: dim for an edit room, paper for a bright lab.
enum class LookName { dim, paper };

/// Places of the splitters as shares of the window, kept inside what is usable.
struct Splits {
  float left = 0.29F;   ///< share of the width that the footage pane takes
  float right = 0.26F;  ///< share of the width that workings and findings take
  float lower = 0.38F;  ///< share of the right side's height that the findings take
  bool operator==(const Splits&) const = default;
};

struct Settings {
  LookName look = LookName::dim;
  float font_scale = 1.0F;  ///< 0.75 to 2.5, on top of the display's own scale
  double volume = 1.0;      ///< 0 to 1
  Splits splits;
  int window_width = 1280;  ///< pixels, last seen
  int window_height = 720;
  std::optional<int> window_x = {};  ///< pixels on the desktop, last seen; nothing: wherever the desktop puts it
  std::optional<int> window_y = {};
  bool maximised = false;
  bool operator==(const Settings&) const = default;
};

inline constexpr float least_font_scale = 0.75F;
inline constexpr float most_font_scale = 2.5F;

/// Splits with every pane wide enough to use.
Splits usable(Splits splits);

std::string settings_text(const Settings& settings);
/// Reads what settings_text wrote; what is missing, unknown or out of range keeps its default.
Settings read_settings(std::string_view text);

std::string_view name_of(LookName look);  ///< "dim", "paper"

}  // namespace sash::desk
