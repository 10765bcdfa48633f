#pragma once
// Writes numbers, uncertainties and values for people: rounding, significant digits, thousands, powers of ten, the
// unit's trade spelling. Locale-free, the same text on every machine. Not for files, which hold full precision.
// Rounding takes the shortest decimal that stands for the number and rounds half to even (ISO 80000-1 annex B rule
// A): 2.665 to 2.66 and 2.675 to 2.68, as a person would by hand. Numbers of one magnitude from 10⁶ up or below 10⁻³
// get a power of ten; whole parts of five and more digits are grouped by no-break spaces; the minus is U+2212. Pure;
// safe from any thread. Sources: JCGM 100:2008 7.2.2, 7.2.6; SI Brochure, 9th ed., 5.4.

#include <string>
#include <string_view>

#include "quantity/kind.h"
#include "quantity/unit.h"
#include "quantity/value.h"
#include "support/outcome.h"

namespace sash::quantity {

/// At most `most` significant digits, zeros at the end dropped: 0.25, 12 000, 1.5×10⁻⁵. Requires: most >= 1.
std::string show_number(double number, int most = 6);

/// Exactly `digits` significant digits: 0.250 with 3. Requires: digits >= 1.
std::string show_significant(double number, int digits);

/// Rounded to whole multiples of 10^`place`: 12.35 at -1 gives "12.4", 1234 at 2 gives "1200".
std::string show_at(double number, int place);

/// The place (power of ten) to which a number with this standard uncertainty is shown: two digits of the uncertainty.
/// 0.0665 gives -3; 0.0996 gives -2, since it rounds to 0.10. Requires: finite, above zero.
int place_for(double standard);

/// A number and its plus-minus rounded alike, with the unit: "(250.0 ± 2.9) mL", "(1.25 ± 0.12)×10⁻⁵ mol", "pH 4.50 ±
/// 0.03". With `plus_minus` 0 the number alone in up to six digits.
std::string show_with(double number, double plus_minus, std::string_view unit_symbol);

/// As show_with, for a value in `unit`. A `coverage` factor other than 1 widens the plus-minus and is named behind it:
/// "(250.0 ± 5.8) mL, k = 2" (JCGM 100:2008 7.2.4). Fails: as Value::in. Requires: coverage > 0.
Outcome<std::string> show(const Value& value, const Unit& unit, double coverage = 1);

/// A number with its unit, no uncertainty, in at most `most` significant digits: "250 mL", "pH 7.2".
std::string show_with_unit(double number, std::string_view unit_symbol, int most = 6);

/// The unit in which a person would read that size: 0.25 g as mg, 0.0025 L as mL, 7200 s as h. Keeps to the units the
/// trade uses for the kind.
Unit readable_unit(Kind kind, double si);

}  // namespace sash::quantity
