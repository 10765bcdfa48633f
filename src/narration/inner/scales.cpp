// Which scale degrees are on where only degrees were said, or not even those: that of the presenter, unless the number
// is the last temperature turned into the other scale.

#include <cmath>
#include <string_view>

#include "narration/inner/scene.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr std::string_view celsius = "Cel";
constexpr std::string_view fahrenheit = "[degF]";

bool is_said(const Phrase& p) {
  return (p.unit_said && !p.bare_degrees) || std::string_view(p.rule) == "its scale is said behind";
}

/// Whether `f` in Fahrenheit is about `c` in Celsius.
bool same_warmth(double f, double c) { return std::abs((f - 32) / 1.8 - c) < 1.2; }

}  // namespace

void settle_scales(Scene& scene) {
  // One figure in Fahrenheit among many in Celsius is said for those who think in it; degrees stay Celsius.
  int said_in_celsius = 0;
  int said_in_fahrenheit = 0;
  for (const Phrase& p : scene.phrases) {
    if (p.fate != Fate::figure || p.kind != Kind::temperature || p.bare_degrees || !p.unit_said) continue;
    (p.unit == fahrenheit ? said_in_fahrenheit : said_in_celsius) += 1;
  }
  const bool metric = said_in_celsius >= 2 * said_in_fahrenheit && said_in_celsius > 0;
  std::string_view scale = celsius;
  Phrase* last = nullptr;
  for (Phrase& p : scene.phrases) {
    if (p.fate != Fate::figure || p.kind != Kind::temperature) {
      if (p.fate == Fate::figure && p.kind == Kind::temperature_change && !is_said(p)) p.unit = scale;
      continue;
    }
    const bool behind_last = last != nullptr && p.first - last->last < 20;
    if (is_said(p)) {
      const bool restates = behind_last && ((p.unit == celsius && same_warmth(last->value, p.value)) ||
                                            (p.unit == fahrenheit && same_warmth(p.value, last->value)));
      if (restates && !is_said(*last) && p.unit == celsius) {
        last->unit = fahrenheit;  // "190. That's 88 Celsius"
        scale = fahrenheit;
      } else if (restates) {
        scale = celsius;  // said in both: the thermometer of a bench is in Celsius
      } else if (!(metric && p.unit == fahrenheit)) {
        scale = p.unit;
      }
    } else if (p.unit == celsius || p.unit == fahrenheit) {
      const bool turned = behind_last && last->unit == fahrenheit && same_warmth(last->value, p.value);
      if (p.number.decimal) scale = celsius;  // nobody reads Fahrenheit to a tenth at a bench
      p.unit = turned ? celsius : scale;
    }
    last = &p;
  }
}

}  // namespace sash::narration
