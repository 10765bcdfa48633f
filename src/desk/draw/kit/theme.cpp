#include "desk/draw/kit/theme.h"

namespace sash::desk {
namespace {

constexpr Colour white = Colour::hex(0xFFFFFF);
constexpr Colour black = Colour::hex(0x111111);

constexpr SafetyColours safety_colours(Colour fill, Colour on, float wash, Colour ink) {
  return {fill, on, fill.faded(wash), ink};
}

constexpr Theme dim() {
  Theme t;
  t.name = ThemeName::dim;
  t.ground = Colour::hex(0x15181A);
  t.panel = Colour::hex(0x1D2123);
  t.raised = Colour::hex(0x2A3032);
  t.raised_over = Colour::hex(0x343B3E);
  t.raised_down = Colour::hex(0x222729);
  t.sunken = Colour::hex(0x111416);
  t.line = Colour::hex(0x2E3436);
  t.strong_line = Colour::hex(0x454E51);
  t.text = Colour::hex(0xE8E6E0);
  t.muted = Colour::hex(0xA3A9A7);
  t.faint = Colour::hex(0x747C7B);
  t.accent = Colour::hex(0x7CC7B8);
  t.on_accent = Colour::hex(0x0E1B18);
  t.selection = Colour::hex(0x274640);
  t.focus = Colour::hex(0xB9EFE3);
  t.shadow = Colour{0, 0, 0, 110};
  t.wave = Colour::hex(0x5F7F86);
  t.good = Colour::hex(0x74C48A);
  t.bad = Colour::hex(0xFF8476);
  t.open = Colour::hex(0xC9B3F0);
  t.safety = {safety_colours(Colour::hex(0xC8242F), white, 0.34F, Colour::hex(0xFF8A82)),
              safety_colours(Colour::hex(0xF08A24), black, 0.26F, Colour::hex(0xF5A04C)),
              safety_colours(Colour::hex(0xF2C811), black, 0.20F, Colour::hex(0xF0CF48)),
              safety_colours(Colour::hex(0x2467B2), white, 0.32F, Colour::hex(0x86B8F0)),
              safety_colours(Colour::hex(0x1F8457), white, 0.28F, Colour::hex(0x74C48A))};
  t.family = {Colour::hex(0xC7A98B), Colour::hex(0x7FB2DE), Colour::hex(0xC59AD9), Colour::hex(0x6FBFC0),
              Colour::hex(0xE09A86), Colour::hex(0xA9B4C4), Colour::hex(0x9AA5E3), Colour::hex(0xD6C27C),
              Colour::hex(0xA5C9C4), Colour::hex(0xB3BF8A), Colour::hex(0xDB94B4), Colour::hex(0xE0B071),
              Colour::hex(0xB0B4B3)};
  return t;
}

constexpr Theme paper() {
  Theme t;
  t.name = ThemeName::paper;
  t.ground = Colour::hex(0xE6E2D9);
  t.panel = Colour::hex(0xFAF8F3);
  t.raised = Colour::hex(0xEFEBE2);
  t.raised_over = Colour::hex(0xE5E0D4);
  t.raised_down = Colour::hex(0xDAD4C6);
  t.sunken = Colour::hex(0xFFFFFF);
  t.line = Colour::hex(0xE0DBD0);
  t.strong_line = Colour::hex(0xB9B2A3);
  t.text = Colour::hex(0x1B1F20);
  t.muted = Colour::hex(0x5A6163);
  t.faint = Colour::hex(0x868B88);
  t.accent = Colour::hex(0x0C6B5E);
  t.on_accent = white;
  t.selection = Colour::hex(0xCFE5DF);
  t.focus = Colour::hex(0x0A4F9E);
  t.shadow = Colour{60, 50, 30, 60};
  t.wave = Colour::hex(0x7B959B);
  t.good = Colour::hex(0x1A6E45);
  t.bad = Colour::hex(0xB01E28);
  t.open = Colour::hex(0x5F46A0);
  t.safety = {safety_colours(Colour::hex(0xBE1E2D), white, 0.24F, Colour::hex(0xA31722)),
              safety_colours(Colour::hex(0xF5821F), black, 0.26F, Colour::hex(0x9A4A00)),
              safety_colours(Colour::hex(0xFFD100), black, 0.34F, Colour::hex(0x7A5E00)),
              safety_colours(Colour::hex(0x1F5FA8), white, 0.18F, Colour::hex(0x174F90)),
              safety_colours(Colour::hex(0x1A7A4F), white, 0.18F, Colour::hex(0x15633F))};
  t.family = {Colour::hex(0x7B5836), Colour::hex(0x22629B), Colour::hex(0x7C3E96), Colour::hex(0x0E6A6C),
              Colour::hex(0xA2432A), Colour::hex(0x4C5A6E), Colour::hex(0x4450A8), Colour::hex(0x776010),
              Colour::hex(0x356C65), Colour::hex(0x596523), Colour::hex(0x99325F), Colour::hex(0x8A5510),
              Colour::hex(0x5A5F5E)};
  return t;
}

constexpr Theme dim_theme = dim();
constexpr Theme paper_theme = paper();

}  // namespace

std::optional<ThemeName> theme_from_name(std::string_view name) {
  if (name == "dim") return ThemeName::dim;
  if (name == "paper") return ThemeName::paper;
  return std::nullopt;
}

Colour Theme::of(Verdict v) const {
  switch (v) {
    case Verdict::agrees:
      return good;
    case Verdict::agrees_rounded:
      return good;
    case Verdict::conflict:
      return bad;
    case Verdict::unsettled:
      return open;
  }
  return text;
}

const Theme& theme(ThemeName name) { return name == ThemeName::dim ? dim_theme : paper_theme; }

}  // namespace sash::desk
