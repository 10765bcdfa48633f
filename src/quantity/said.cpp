#include "quantity/said.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>

#include "quantity/show.h"
#include "support/text.h"

namespace sash::quantity {
namespace {

// The reach of round numbers and hedges; common practice, no source.
constexpr double round_number_share = 1.0 / 40;  // 100 mL out of a beaker or cylinder is good to a few per cent
constexpr double about_share = 1.0 / 10;
constexpr double spoken_share = 1.0 / 20;  // "half of it", divided by eye

/// What the spelling of a number tells: the size of a step of its last digit, and of its last digit that is not a zero.
struct Digits {
  double last_step = 1;
  double last_nonzero_step = 1;
  bool ends_in_five = false;  ///< the last non-zero digit is a 5
  bool open_zeros = false;    ///< trailing zeros that may or may not count
};

double power_of_ten(int exponent) {
  double out = 1;
  for (int i = 0; i < std::abs(exponent); ++i) out *= 10;
  return exponent < 0 ? 1 / out : out;
}

std::string shortest(double value) {
  char buffer[400];
  const auto [end, error] = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed);
  return error == std::errc() ? std::string(buffer, end) : "0";
}

/// A comma that cannot be a thousands mark is a decimal mark: "2,5" but not "1,250".
std::string without_marks(std::string_view text) {
  std::string plain = replace_all(std::string(trim(text)), "−", "-");
  const auto comma = plain.find(',');
  const bool decimal = comma != std::string::npos && plain.find(',', comma + 1) == std::string::npos &&
                       plain.find('.') == std::string::npos && plain.size() - comma != 4;
  if (decimal) plain[comma] = '.';
  std::erase_if(plain, [](char c) { return c == ',' || c == ' ' || c == '\''; });
  return plain;
}

/// Nothing when the text is no decimal number.
std::optional<Digits> read_digits(std::string_view text) {
  std::string plain = without_marks(text);
  if (!read_number(plain)) return std::nullopt;
  int exponent = 0;
  bool scientific = false;
  if (const auto e = plain.find_first_of("eE"); e != std::string::npos) {
    const auto power = read_integer(std::string_view(plain).substr(plain[e + 1] == '+' ? e + 2 : e + 1));
    if (!power || std::abs(*power) > 300) return std::nullopt;
    exponent = static_cast<int>(*power);
    scientific = true;
    plain.resize(e);
  }
  const auto point = plain.find('.');
  int place = exponent - (point == std::string::npos ? 0 : static_cast<int>(plain.size() - point - 1));
  std::erase(plain, '.');
  Digits out;
  out.last_step = power_of_ten(place);
  std::size_t zeros = 0;
  while (zeros < plain.size() && plain[plain.size() - 1 - zeros] == '0') ++zeros;
  const bool all_zero = zeros == plain.size() || plain[plain.size() - 1 - zeros] == '-';
  if (all_zero) zeros = 0;
  out.last_nonzero_step = power_of_ten(place + static_cast<int>(zeros));
  out.ends_in_five = !all_zero && plain[plain.size() - 1 - zeros] == '5';
  out.open_zeros = zeros > 0 && point == std::string::npos && !scientific;
  return out;
}

Digits digits_of(const Said& said) {
  if (const auto digits = read_digits(said.digits)) return *digits;
  return read_digits(shortest(said.value)).value_or(Digits{});
}

double plain_reach(const Said& said, const Digits& digits) {
  const double finest = digits.last_step / 2;
  if (!digits.open_zeros || said.precisely) return finest;
  return std::max(finest, std::min(digits.last_nonzero_step / 2, std::abs(said.value) * round_number_share));
}

double about_reach(const Said& said, const Digits& digits) {
  const double step = digits.last_nonzero_step * (digits.ends_in_five ? 5 : 1);
  return std::max(2 * plain_reach(said, digits), std::min(step, std::abs(said.value) * about_share));
}

std::string between(const Limits& limits, std::string_view symbol) {
  std::string out = show_number(limits.low) + " to " + show_number(limits.high);
  if (!symbol.empty()) out += " " + std::string(symbol);
  return out;
}

std::string reason_of(const Said& said, const Digits& digits, const Limits& limits, std::string_view symbol) {
  const std::string range = between(limits, symbol);
  switch (said.hedge) {
    case Hedge::about:
      return "Said with \"about\": taken as " + range + ", the middle likelier (common practice).";
    case Hedge::over:
      return "Said as more than that: taken as " + range + " (common practice).";
    case Hedge::under:
      return "Said as less than that: taken as " + range + " (common practice).";
    case Hedge::range:
      return "Said as a range: " + range + ", none likelier within.";
    case Hedge::exact:
      break;
  }
  if (said.precisely) return "Said exactly: every digit counts, so " + range + ".";
  if (digits.open_zeros)
    return "Said as a round number: its last zeros may be rounding, so " + range + " (common practice).";
  return "From the digits as said: half a unit of the last one, so " + range + ".";
}

}  // namespace

double reach_of(const Said& said) { return plain_reach(said, digits_of(said)); }

Limits limits_of(const Said& said) {
  const Digits digits = digits_of(said);
  const double plain = plain_reach(said, digits);
  switch (said.hedge) {
    case Hedge::about: {
      const double reach = about_reach(said, digits);
      return {said.value - reach, said.value + reach};
    }
    case Hedge::over:
      return {said.value, said.value + about_reach(said, digits)};
    case Hedge::under:
      return {said.value - about_reach(said, digits), said.value};
    case Hedge::range:
      if (said.upper) {
        const double low = std::min(said.value, *said.upper);
        const double high = std::max(said.value, *said.upper);
        if (high > low) return {low, high};
      }
      break;
    case Hedge::exact:
      break;
  }
  return {said.value - plain, said.value + plain};
}

Estimate estimate_of(const Said& said, Kind kind, std::string_view unit_symbol) {
  if (kind == Kind::count && said.hedge == Hedge::exact) return {said.value, exactly("Counted.")};
  if (kind == Kind::fraction && said.hedge == Hedge::exact && said.digits.empty()) {
    auto spread = stated(std::abs(said.value) * spoken_share, Meant::limits, "");
    Spread out = spread.ok() ? std::move(spread).value() : Spread{};
    out.reason = "A share said in words, divided by eye: good to a twentieth of itself (common practice).";
    return {said.value, std::move(out)};
  }
  const Limits limits = limits_of(said);
  Spread spread;
  spread.half_width = (limits.high - limits.low) / 2;
  spread.shape = said.hedge == Hedge::about ? Shape::triangular : Shape::rectangular;
  spread.standard = spread.half_width / (said.hedge == Hedge::about ? std::sqrt(6.0) : std::numbers::sqrt3);
  spread.reason = reason_of(said, digits_of(said), limits, unit_symbol);
  const bool one_sided = said.hedge == Hedge::over || said.hedge == Hedge::under || said.hedge == Hedge::range;
  const double best = one_sided ? limits.low + spread.half_width : said.value;
  return {best, std::move(spread)};
}

bool agrees_as_rounded(const Said& said, double computed) {
  const Limits limits = limits_of(said);
  // Half-way values such as 2.675 have no exact binary form; this little slack keeps them on both sides.
  const double slack = (limits.high - limits.low) * 1e-9 + std::abs(said.value) * 1e-15;
  return computed >= limits.low - slack && computed <= limits.high + slack;
}

}  // namespace sash::quantity
