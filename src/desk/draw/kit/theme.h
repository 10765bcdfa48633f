#pragma once
// The two themes: "dim" for an edit room, "paper" for a bright lab. A theme says which colour each role has; nothing
// else on the desk names a colour. Not the sizes (metrics.h) and not the shapes (signs.h). Pure values. Sources: ISO
// 3864-4 and ANSI Z535.1 name the safety colours (red, orange, yellow, green, blue with black or white beside them);
// the sRGB values here are our own renderings, chosen for contrast on each ground, no colorimetric claim.

#include <array>
#include <optional>
#include <string_view>

#include "desk/draw/kit/colour.h"
#include "desk/shown/settings.h"
#include "desk/shown/tone.h"

namespace sash::desk {

using ThemeName = LookName;

std::optional<ThemeName> theme_from_name(std::string_view name);

/// A safety colour: `fill` for signs and panels, `on` what is printed on it, `band` the translucent wash over a span,
/// `ink` the same hue where it has to be read as text on the panel.
struct SafetyColours {
  Colour fill;
  Colour on;
  Colour band;
  Colour ink;
};

struct Theme {
  ThemeName name = ThemeName::dim;
  Colour ground;       ///< behind everything
  Colour panel;        ///< a pane
  Colour raised;       ///< a button, a field, a card, above a pane
  Colour raised_over;  ///< the same under the mouse
  Colour raised_down;  ///< the same pressed
  Colour sunken;       ///< wells: text fields, the video's surround, tracks
  Colour line;         ///< hairlines between rows
  Colour strong_line;  ///< borders of things one can use
  Colour text;
  Colour muted;   ///< secondary text; still 4.5:1 on the panel
  Colour faint;   ///< ticks and placeholders; 3:1
  Colour accent;  ///< what is current: playhead, primary button, links
  Colour on_accent;
  Colour selection;  ///< ground of what is selected
  Colour focus;      ///< the keyboard's ring
  Colour shadow;
  Colour wave;  ///< the sound's outline
  Colour good;  ///< agrees
  Colour bad;   ///< conflict
  Colour open;  ///< unsettled

  std::array<SafetyColours, 5> safety;  ///< by Safety
  std::array<Colour, 13> family;        ///< by Family

  const SafetyColours& of(Safety s) const { return safety[static_cast<std::size_t>(s)]; }
  Colour of(Family f) const { return family[static_cast<std::size_t>(f)]; }
  Colour of(Verdict v) const;
};

const Theme& theme(ThemeName name);

}  // namespace sash::desk
