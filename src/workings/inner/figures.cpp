#include "workings/inner/figures.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "quantity/glassware.h"
#include "quantity/show.h"
#include "quantity/spread.h"
#include "quantity/student.h"
#include "quantity/value.h"
#include "support/text.h"
#include "workings/inner/figure_names.h"

namespace sash::workings::inner {
namespace {

using quantity::Kind;

constexpr double largest = 1e100;  // SI; beyond it squares and products leave the range of numbers
constexpr double smallest = 1e-100;
constexpr double usual_coverage = 2;

quantity::Hedge hedge_of(model::Hedge hedge) {
  switch (hedge) {
    case model::Hedge::exact:
      return quantity::Hedge::exact;
    case model::Hedge::about:
      return quantity::Hedge::about;
    case model::Hedge::under:
      return quantity::Hedge::under;
    case model::Hedge::over:
      return quantity::Hedge::over;
    case model::Hedge::range:
      return quantity::Hedge::range;
  }
  return quantity::Hedge::exact;
}

// "mean of 5 readings": how many there were.
std::optional<int> readings_in(std::string_view text) {
  const auto at = text.find(" readings");
  if (at == std::string_view::npos) return std::nullopt;
  const auto start = text.find_last_of(' ', at - 1);
  const auto count = read_integer(text.substr(start == std::string_view::npos ? 0 : start + 1, at - start - 1));
  return count && *count >= 2 ? std::optional(static_cast<int>(*count)) : std::nullopt;
}

Outcome<quantity::Spread> doubt_of(const model::Figure& figure, const FigureValue& value, double& number) {
  const std::string symbol = value.unit.symbol() == "pH" ? std::string() : value.unit.symbol();
  switch (figure.doubt.from) {
    case model::Doubt::From::as_said:
      break;
    case model::Doubt::From::stated:
      if (const auto readings = readings_in(figure.doubt.instrument)) {
        return quantity::stated(figure.doubt.half_width, quantity::Meant::ninety_five, symbol, *readings - 1);
      }
      return quantity::stated(figure.doubt.half_width, quantity::Meant::limits, symbol);
    case model::Doubt::From::assumed_exact:
      return quantity::exactly("Taken as exact.");
    case model::Doubt::From::instrument: {
      const auto instrument = quantity::find_instrument(figure.doubt.instrument);
      if (!instrument) return instrument.fault();
      return quantity::spread_of(*instrument, number, value.unit);
    }
  }
  const quantity::Estimate estimate = quantity::estimate_of(value.said, figure.kind, symbol);
  number = estimate.best;
  return estimate.spread;
}

FigureValue value_of(const model::Figure& figure, std::string name) {
  FigureValue value;
  value.figure = &figure;
  value.name = std::move(name);
  value.unit = quantity::default_unit(figure.kind);
  if (!figure.reading) return value;
  const model::Reading& reading = *figure.reading;
  auto unit = quantity::unit_for(figure.kind, reading.unit);
  if (!unit) {
    value.trouble = unit.fault().sentence;
    return value;
  }
  value.unit = std::move(*unit);
  value.said = {reading.value, reading.upper, reading.digits, hedge_of(reading.hedge), false};
  if (!std::isfinite(reading.value) || (reading.upper && !std::isfinite(*reading.upper))) {
    value.trouble = "The value of " + value.name + " is not a finite number.";
    return value;
  }
  double number = reading.value;
  const auto spread = doubt_of(figure, value, number);
  if (!spread) {
    value.trouble = spread.fault().sentence;
    return value;
  }
  const auto si = quantity::Value::of(number, spread->standard, value.unit);
  if (!si) {
    value.trouble = si.fault().sentence;
    return value;
  }
  if (std::fabs(si->si()) > largest) {
    value.trouble = "The value of " + value.name + " is too large to compute with.";
    return value;
  }
  if (si->si() != 0 && std::fabs(si->si()) < smallest) {
    value.trouble = "The value of " + value.name + " is too small to compute with.";
    return value;
  }
  value.as_said = figure.doubt.from == model::Doubt::From::as_said;
  value.stated = true;
  value.si = si->si();
  value.si_spread = si->si_spread();
  value.shape = *spread;
  value.doubt = spread->reason;
  return value;
}

}  // namespace

double FigureValue::spread_from_si(double spread, double value) const {
  const double slope = unit.slope_at(unit.from_si(value));
  return slope > 0 ? spread / slope : 0;
}

FigureBook::FigureBook(const model::Record& record) : record_(record) {
  const FigureNames names(record);
  for (const model::Figure& figure : record.figures) values_.emplace(figure.id, value_of(figure, names.of(figure)));
}

const FigureValue* FigureBook::find(model::FigureId id) const {
  std::set<model::FigureId> seen;
  auto it = values_.find(id);
  while (it != values_.end() && it->second.figure->corrected_by && seen.insert(it->first).second) {
    it = values_.find(*it->second.figure->corrected_by);
  }
  if (it == values_.end() || it->second.figure->origin.standing == model::Standing::refused) return nullptr;
  return &it->second;
}

FigureValue unstated(const model::Figure& figure, std::string name) {
  FigureValue value;
  value.figure = &figure;
  value.unit = quantity::default_unit(figure.kind);
  value.name = std::move(name);
  return value;
}

double coverage_of(std::optional<double> freedom) {
  if (!freedom) return usual_coverage;
  // Truncated to a whole number, as JCGM 100:2008 G.4.1 has it, and never below one.
  return std::max(usual_coverage, quantity::coverage_factor(0.95, std::max(1.0, std::floor(*freedom))));
}

std::string digits_as_given(const FigureValue& value) {
  const std::string& digits = value.said.digits;
  if (digits.empty()) return quantity::show_number(value.said.value);
  const auto power = digits.find_first_of("eE");
  if (power == std::string::npos) return replace_all(digits, "-", "\u2212");
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  const auto count = std::count_if(digits.begin(), digits.begin() + static_cast<std::ptrdiff_t>(power), is_digit);
  return quantity::show_significant(value.said.value, std::max(1, static_cast<int>(count)));
}

Reckoned said_text(const FigureValue& value) {
  std::string text = digits_as_given(value);
  switch (value.said.hedge) {
    case quantity::Hedge::about:
      text = "about " + text;
      break;
    case quantity::Hedge::over:
      text = "over " + text;
      break;
    case quantity::Hedge::under:
      text = "under " + text;
      break;
    case quantity::Hedge::range:
      if (value.said.upper)
        text = quantity::show_number(value.said.value) + "\u2013" + quantity::show_number(*value.said.upper);
      break;
    case quantity::Hedge::exact:
      break;
  }
  const std::string& symbol = value.unit.symbol();
  if (symbol == "pH") {
    text = "pH " + text;
  } else if (!symbol.empty()) {
    text += " " + symbol;
  }
  return {value.figure->id, value.from_si(value.si), value.spread_from_si(value.si_spread, value.si), value.unit.code(),
          text};
}

std::string in_sentence(const FigureValue& value, const std::string& text) {
  const bool twice = value.figure->kind == Kind::pH && text.starts_with("pH ");
  return twice ? text.substr(3) : text;
}

Reckoned computed_text(const FigureValue& value, double si, double si_spread, std::optional<double> freedom) {
  FigureValue shown = value;
  if (!value.stated && value.figure->kind != Kind::other) shown.unit = quantity::readable_unit(value.figure->kind, si);
  const double number = shown.from_si(si);
  const double spread = shown.spread_from_si(si_spread, si);
  // A trace that rests on constants known to a decade: a plus-minus that reaches below nothing says less.
  if (value.figure->kind == Kind::molar_concentration && number > 0 && spread > number) {
    return {value.figure->id, number, spread, shown.unit.code(),
            quantity::show_with_unit(number, shown.unit.symbol(), 1) + " in order of magnitude"};
  }
  return {value.figure->id, number, spread, shown.unit.code(),
          quantity::show_with(number, coverage_of(freedom) * spread, shown.unit.symbol())};
}

}  // namespace sash::workings::inner
