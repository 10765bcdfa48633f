#include "quantity/show.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "quantity/inner/decimal.h"
#include "quantity/inner/superscript.h"
#include "support/check.h"

namespace sash::quantity {
namespace {

using inner::Decimal;

constexpr int first_large = 6;  // from 10⁶ up
constexpr int last_small = -4;  // below 10⁻³

bool wants_power(const Decimal& number) {
  return !number.is_zero() && (number.magnitude() >= first_large || number.magnitude() <= last_small);
}

std::string times_ten(int power) { return "×10" + inner::superscript(power); }

std::string written(const Decimal& number) {
  if (!wants_power(number)) return number.plain();
  const int power = number.magnitude();
  return number.shifted(-power).plain() + times_ten(power);
}

Decimal to_significant(double number, int digits) {
  const Decimal exact = Decimal::of(number);
  if (exact.is_zero()) return exact.rounded(-(digits - 1));
  const Decimal once = exact.rounded(exact.magnitude() - digits + 1);
  // 9.996 to three digits carries into 10.0: round again at the new magnitude, from the number itself.
  return once.magnitude() == exact.magnitude() ? once : exact.rounded(once.magnitude() - digits + 1);
}

std::string with_symbol(std::string number, std::string_view symbol) {
  if (symbol.empty()) return number;
  if (symbol == "pH") return "pH " + number;
  return number + " " + std::string(symbol);
}

std::string not_finite(double number) { return std::isnan(number) ? "not a number" : number > 0 ? "∞" : "−∞"; }

}  // namespace

std::string show_number(double number, int most) {
  promise(most >= 1, "at least one significant digit");
  return std::isfinite(number) ? written(to_significant(number, most).trimmed()) : not_finite(number);
}

std::string show_significant(double number, int digits) {
  promise(digits >= 1, "at least one significant digit");
  return std::isfinite(number) ? written(to_significant(number, digits)) : not_finite(number);
}

std::string show_at(double number, int place) {
  return std::isfinite(number) ? Decimal::of(number).rounded(place).plain() : not_finite(number);
}

int place_for(double standard) {
  promise(std::isfinite(standard) && standard > 0, "only a real uncertainty has a place");
  return to_significant(standard, 2).exponent;
}

std::string show_with(double number, double plus_minus, std::string_view unit_symbol) {
  if (!std::isfinite(number) || !std::isfinite(plus_minus)) return with_symbol(not_finite(number), unit_symbol);
  if (!(plus_minus > 0)) return with_symbol(show_number(number), unit_symbol);
  const int place = place_for(plus_minus);
  Decimal best = Decimal::of(number).rounded(place);
  Decimal spread = Decimal::of(plus_minus).rounded(place);
  const Decimal& larger =
      best.is_zero() || (!spread.is_zero() && spread.magnitude() > best.magnitude()) ? spread : best;
  const bool powered = wants_power(larger);
  const int power = powered ? larger.magnitude() : 0;
  std::string pair = best.shifted(-power).plain() + " ± " + spread.shifted(-power).plain();
  if (powered)
    pair = "(" + pair + ")" + times_ten(power);
  else if (!unit_symbol.empty() && unit_symbol != "pH")
    pair = "(" + pair + ")";
  return with_symbol(std::move(pair), unit_symbol);
}

Outcome<std::string> show(const Value& value, const Unit& unit, double coverage) {
  promise(coverage > 0, "a coverage factor is above zero");
  const auto number = value.in(unit);
  if (!number) return number.fault();
  const auto spread = value.spread_in(unit);
  if (!spread) return spread.fault();
  std::string out = show_with(*number, *spread * coverage, unit.symbol());
  if (coverage != 1 && *spread > 0) out += ", k = " + show_number(coverage, 3);
  return out;
}

std::string show_with_unit(double number, std::string_view unit_symbol, int most) {
  return with_symbol(show_number(number, most), unit_symbol);
}

Unit readable_unit(Kind kind, double si) {
  // Largest unit first; the first one in which the number is at least 1 is taken, else the last.
  const auto pick = [&](std::initializer_list<std::string_view> codes) {
    Unit unit;
    for (const std::string_view code : codes) {
      Outcome<Unit> read = unit_for(kind, code);
      promise(read.ok(), "the readable units of a kind measure it");
      unit = std::move(read).value();
      // A hair below one still reads as one: 0.9999999 g is 1 g.
      if (std::abs(unit.from_si(si)) >= 1 - 1e-9) break;
    }
    return unit;
  };
  if (si == 0 || !std::isfinite(si)) return default_unit(kind);
  switch (kind) {
    case Kind::mass:
      return pick({"t", "kg", "g", "mg", "ug"});
    case Kind::volume:
    case Kind::gas_volume:
      return pick({"L", "mL", "uL"});
    case Kind::amount:
      return pick({"mol", "mmol", "umol"});
    case Kind::molar_concentration:
      return std::abs(si) >= 10 ? Unit::known("mol/L") : pick({"mmol/L", "umol/L"});
    case Kind::mass_concentration:
      return pick({"g/L", "mg/L", "ug/L"});
    case Kind::duration:
      return pick({"d", "h", "min", "s"});
    case Kind::pressure:
      return pick({"kPa", "Pa"});
    case Kind::length:
      return pick({"m", "cm", "mm", "um"});
    case Kind::voltage:
      return pick({"V", "mV"});
    case Kind::current:
      return pick({"A", "mA"});
    case Kind::charge:
      return pick({"A.h", "mA.h"});
    case Kind::power:
      return pick({"kW", "W", "mW"});
    case Kind::energy:
      return pick({"MJ", "kJ", "J"});
    default:
      return default_unit(kind);
  }
}

}  // namespace sash::quantity
