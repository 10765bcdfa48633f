#include "desk/shown/words.h"

#include <array>
#include <charconv>
#include <cmath>

#include "quantity/kind.h"
#include "support/text.h"

namespace sash::desk {
namespace {

template <class E, std::size_t N>
std::string_view nth(const std::array<std::string_view, N>& list, E value) {
  return list.at(static_cast<std::size_t>(value));
}

std::string two_digits(std::int64_t n) { return (n < 10 ? "0" : "") + std::to_string(n); }

// "h:mm:ss" or "m:ss" of whole seconds.
std::string clock_of(std::int64_t seconds) {
  const std::int64_t hours = seconds / 3600;
  const std::int64_t minutes = seconds / 60 % 60;
  if (hours == 0) return std::to_string(minutes) + ":" + two_digits(seconds % 60);
  return std::to_string(hours) + ":" + two_digits(minutes) + ":" + two_digits(seconds % 60);
}

std::string with_unit(std::string number, std::string_view unit) {
  if (unit.empty()) return number;
  return std::move(number) + "\u00A0" + std::string(unit);  // a number and its unit stay in one row
}

}  // namespace

std::string number_text(double value) {
  char buffer[48];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::general, 6).ptr;
  std::string out(buffer, end);
  if (out.starts_with('-')) out.replace(0, 1, "−");
  return out;
}

std::string unit_text(quantity::Kind kind, std::string_view ucum) {
  if (ucum.empty() || ucum == "1") return {};
  const auto unit = quantity::unit_for(kind, ucum);
  return unit.ok() ? unit->symbol() : std::string(ucum);
}

std::string reading_text(quantity::Kind kind, const model::Reading& r) {
  const std::string unit = unit_text(kind, r.unit);
  std::string number = r.digits.empty() ? number_text(r.value) : r.digits;
  if (r.upper) number = number_text(r.value) + "–" + number_text(*r.upper);
  const std::string said = with_unit(std::move(number), unit);
  switch (r.hedge) {
    case model::Hedge::about:
      return "about " + said;
    case model::Hedge::under:
      return "under " + said;
    case model::Hedge::over:
      return "over " + said;
    case model::Hedge::exact:
    case model::Hedge::range:
      return said;
  }
  return said;
}

std::string figure_text(const model::Figure& f) {
  return f.reading ? reading_text(f.kind, *f.reading) : "to be worked out";
}

std::string short_figure_text(const model::Figure& f) {
  if (!f.reading) return "wanted";
  model::Reading plain = *f.reading;
  plain.hedge = model::Hedge::exact;
  const bool counted = f.kind == quantity::Kind::count;
  const std::string said = reading_text(f.kind, plain) + (counted ? "\u00A0×" : "");
  switch (f.reading->hedge) {
    case model::Hedge::about:
      return "≈ " + said;
    case model::Hedge::under:
      return "< " + said;
    case model::Hedge::over:
      return "> " + said;
    case model::Hedge::exact:
    case model::Hedge::range:
      return said;
  }
  return said;
}

std::string doubt_text(const model::Figure& f) {
  switch (f.doubt.from) {
    case model::Doubt::From::as_said:
      return "digits and words as given";
    case model::Doubt::From::stated:
      return "± " + with_unit(number_text(f.doubt.half_width), f.reading ? unit_text(f.kind, f.reading->unit) : "") +
             " stated";
    case model::Doubt::From::instrument:
      return f.doubt.instrument.empty() ? "instrument" : f.doubt.instrument;
    case model::Doubt::From::assumed_exact:
      return "taken as exact";
  }
  return {};
}

std::string origin_text(const model::Origin& origin) {
  if (origin.rule.empty()) return {};
  return origin.rule + ", " + std::to_string(static_cast<int>(std::lround(origin.confidence * 100))) + " % sure";
}

std::string clock_text(Moment m) {
  const bool negative = m < Moment();
  const std::int64_t tenths = (negative ? -m : m).count() / (Moment::per_second / 10);
  return (negative && tenths != 0 ? "−" : "") + clock_of(tenths / 10) + "." + std::to_string(tenths % 10);
}

std::string short_clock_text(Moment m) {
  const bool negative = m < Moment();
  const std::int64_t seconds = (negative ? -m : m).count() / Moment::per_second;
  return (negative && seconds != 0 ? "−" : "") + clock_of(seconds);
}

std::string length_text(Moment m) {
  const double seconds = m.in_seconds();
  if (seconds < 59.95) return number_text(std::round(seconds * 10) / 10) + " s";
  const auto whole = static_cast<std::int64_t>(std::llround(seconds));
  if (whole < 3600) {
    return std::to_string(whole / 60) + " min" + (whole % 60 != 0 ? " " + std::to_string(whole % 60) + " s" : "");
  }
  const std::int64_t minutes = (whole + 30) / 60;
  return std::to_string(minutes / 60) + " h" + (minutes % 60 != 0 ? " " + std::to_string(minutes % 60) + " min" : "");
}

std::string speed_text(double speed) {
  const double size = std::abs(speed);
  const std::string sign = speed < 0 ? "−" : "";
  if (size == 0.25) return sign + "¼×";
  if (size == 0.5) return sign + "½×";
  return sign + number_text(size) + "×";
}

std::string count_text(std::size_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::string_view kind_words(quantity::Kind kind) { return quantity::kind_label(kind); }

std::string_view words_of(model::Role v) {
  static constexpr std::array<std::string_view, 9> list{
      "measured out", "added", "solvent", "product", "recovered", "condition", "a stated result", "remainder", "other"};
  return nth(list, v);
}

std::string_view words_of(model::Source v) {
  static constexpr std::array<std::string_view, 4> list{"said", "shown", "read off", "worked out"};
  return nth(list, v);
}

std::string_view words_of(model::Hedge v) {
  static constexpr std::array<std::string_view, 5> list{"as given", "about", "under", "over", "a range"};
  return nth(list, v);
}

std::string_view words_of(model::Doubt::From v) {
  static constexpr std::array<std::string_view, 4> list{"digits as given", "stated ±", "instrument", "exact"};
  return nth(list, v);
}

std::string_view words_of(model::Standing v) {
  static constexpr std::array<std::string_view, 3> list{"proposed", "confirmed", "refused"};
  return nth(list, v);
}

std::string_view words_of(model::Route v) {
  static constexpr std::array<std::string_view, 14> list{"breathing in", "skin",  "eyes",        "swallowing", "burn",
                                                         "cold",         "fire",  "blast",       "pressure",   "cut",
                                                         "electric",     "noise", "environment", "other"};
  return nth(list, v);
}

std::string_view words_of(model::Level v) {
  static constexpr std::array<std::string_view, 4> list{"danger", "warning", "caution", "notice"};
  return nth(list, v);
}

std::string_view words_of(model::Delivery v) {
  static constexpr std::array<std::string_view, 2> list{"shown", "spoken"};
  return nth(list, v);
}

std::string_view words_of(model::RelationType v) {
  static constexpr std::array<std::string_view, 18> list{
      "same portion", "in solution", "dilution",       "mixing",          "share",         "total",
      "count × each", "reaction",    "reaction chain", "yield",           "gas given off", "heat",
      "quench",       "titration",   "electrolysis",   "element balance", "duration",      "equilibrium"};
  return nth(list, v);
}

Family family_of(quantity::Kind kind) {
  using quantity::Kind;
  switch (kind) {
    case Kind::mass:
    case Kind::molar_mass:
      return Family::mass;
    case Kind::volume:
      return Family::volume;
    case Kind::amount:
      return Family::amount;
    case Kind::molar_concentration:
    case Kind::mass_concentration:
    case Kind::molality:
    case Kind::mass_percent:
    case Kind::volume_percent:
    case Kind::mass_volume_percent:
      return Family::strength;
    case Kind::temperature:
    case Kind::temperature_change:
      return Family::temperature;
    case Kind::duration:
      return Family::time;
    case Kind::pressure:
      return Family::pressure;
    case Kind::percent_yield:
    case Kind::percent_other:
    case Kind::fraction:
      return Family::share;
    case Kind::gas_volume:
      return Family::gas;
    case Kind::density:
    case Kind::equivalents:
    case Kind::count:
      return Family::ratio;
    case Kind::pH:
      return Family::acidity;
    case Kind::voltage:
    case Kind::current:
    case Kind::charge:
    case Kind::power:
    case Kind::energy:
      return Family::energy;
    case Kind::length:
    case Kind::other:
      return Family::other;
  }
  return Family::other;
}

std::string_view words_of(Family v) {
  static constexpr std::array<std::string_view, 13> list{"mass",    "volume",   "amount", "strength", "temperature",
                                                         "time",    "pressure", "share",  "gas",      "ratio",
                                                         "acidity", "energy",   "other"};
  return nth(list, v);
}

Safety tone_of(model::Level level) {
  switch (level) {
    case model::Level::danger:
      return Safety::danger;
    case model::Level::warning:
      return Safety::warning;
    case model::Level::caution:
      return Safety::caution;
    case model::Level::notice:
      return Safety::notice;
  }
  return Safety::notice;
}

Harm harm_of(model::Route route) { return static_cast<Harm>(static_cast<int>(route)); }
static_assert(static_cast<int>(Harm::other) == static_cast<int>(model::Route::other), "harms and routes are one list");
static_assert(static_cast<int>(Harm::burn) == static_cast<int>(model::Route::burn), "harms and routes are one list");

std::string search_key(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint c = code_point_at(text, at);
    at += c.length;
    if (c.value >= U'₀' && c.value <= U'₉') {
      out += static_cast<char>('0' + (c.value - U'₀'));
    } else if (c.value == U'µ' || c.value == U'μ') {
      out += 'u';
    } else if (c.value == U'–' || c.value == U'−') {
      out += '-';
    } else {
      append_utf8(out, c.value < 128 ? static_cast<char32_t>(to_lower(std::string(1, static_cast<char>(c.value)))[0])
                                     : c.value);
    }
  }
  return out;
}

}  // namespace sash::desk
