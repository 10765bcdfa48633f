#pragma once
// Words: how the record's values are said on the screen, in the trade's words, and which tone they have. One place, so
// that a page, a tooltip and a message never call one thing two names. Pure; no locale.

#include <optional>
#include <string>
#include <string_view>

#include "desk/shown/tone.h"
#include "model/record.h"

namespace sash::desk {

std::string number_text(double value);  ///< shortest that reads back, at most 6 digits: "0.25", "1.2e-05"
/// Trade spelling: "mL", "mol/L", "°C", "% w/w"; empty for a plain number, the code itself where it cannot be read.
std::string unit_text(quantity::Kind kind, std::string_view ucum);
/// "about 4.00 g", "20–25 mL", "under 5 °C"; no-break spaces before units.
std::string reading_text(quantity::Kind kind, const model::Reading&);
/// "20 mL", "to be worked out" where there is no reading yet.
std::string figure_text(const model::Figure&);
/// As figure_text, hedges as signs where room is short: "≈ 4.00 g", "< 5 °C"; counts as such: "3 ×".
std::string short_figure_text(const model::Figure&);
/// Why a figure is uncertain: "digits and words as said", "± 0.05 g stated", "ISO 4788 cylinder 25 mL A", "exact".
std::string doubt_text(const model::Figure&);

/// How a thing was found: "volume of strength, 85 % sure"; empty for one made by hand.
std::string origin_text(const model::Origin&);

/// "2:03.4", "1:02:03.4"; a minus sign before negative ones.
std::string clock_text(Moment);
/// To the second: "2:03", "1:02:03".
std::string short_clock_text(Moment);
/// "1.5 s", "2 min 5 s", "1 h 2 min".
std::string length_text(Moment);
/// "1/4×", "1×", "2×", "-2×".
std::string speed_text(double speed);
std::string count_text(std::size_t count, std::string_view one, std::string_view many);  ///< "1 figure", "12 figures"

std::string_view kind_words(quantity::Kind);  ///< "mass", "molar concentration"
std::string_view words_of(model::Role);
std::string_view words_of(model::Source);
std::string_view words_of(model::Hedge);
std::string_view words_of(model::Doubt::From);
std::string_view words_of(model::Standing);
std::string_view words_of(model::Route);
std::string_view words_of(model::Level);  ///< "danger": for choice lists; word_of(Safety) prints the signal word
std::string_view words_of(model::Delivery);
std::string_view words_of(model::RelationType);

Family family_of(quantity::Kind);
std::string_view words_of(Family);
Safety tone_of(model::Level);
Harm harm_of(model::Route);

/// Lower case with the signs people do not type made plain: subscript digits become digits, "µ" becomes "u", a dash
/// "-".
std::string search_key(std::string_view text);

}  // namespace sash::desk
