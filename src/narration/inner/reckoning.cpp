#include "narration/inner/reckoning.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "narration/inner/matter.h"
#include "quantity/unit.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr std::size_t figures_back = 10;
constexpr std::size_t most_ways = 4;
constexpr double slack = 0.004;  // results are carried with more digits than are said, or with fewer

/// What one more or less of the last digit said is.
double last_digit(const Phrase& p) {
  const std::size_t point = p.digits.find('.');
  if (point != std::string::npos) return std::pow(10.0, -static_cast<double>(p.digits.size() - point - 1));
  if (p.digits.empty()) return 0.01 * std::abs(p.value);
  const std::size_t zeros = p.digits.size() - 1 - std::min(p.digits.find_last_not_of('0'), p.digits.size() - 1);
  return std::pow(10.0, static_cast<double>(zeros));
}

bool is_percent(Kind k) {
  return k == Kind::percent_yield || k == Kind::percent_other || k == Kind::mass_percent || k == Kind::volume_percent;
}

bool adds_up(Kind k) { return k == Kind::mass || k == Kind::volume || k == Kind::amount || k == Kind::duration; }

}  // namespace

Reckoning::Reckoning(const Scene& scene) {
  std::map<std::string, std::optional<double>, std::less<>> units;
  for (const Phrase& p : scene.phrases) {
    if (p.fate != Fate::figure) continue;
    Value v;
    v.kind = p.kind == Kind::gas_volume ? Kind::volume : p.kind;
    v.first = p.first;
    const auto [unit, added] = units.try_emplace(p.unit);
    const bool plain = p.kind != Kind::temperature && p.kind != Kind::temperature_change && p.kind != Kind::pH;
    if (added && plain) {
      if (const auto parsed = quantity::Unit::parse(p.unit)) unit->second = parsed->to_si(1);
    }
    if (plain && unit->second && !p.upper) {
      v.value = *unit->second * p.value;
      const double half = last_digit(p) / 2;
      v.spread = *unit->second * half + slack * std::abs(*v.value);
      v.sharp = half < 0.01 * std::abs(p.value);
    }
    values_.push_back(v);
  }
  begin_.push_back(0);
  for (std::size_t i = 0; i < values_.size(); ++i) {
    if (values_[i].value && *values_[i].value > 0) find_ways(i);
    begin_.push_back(ways_.size());
  }
}

std::span<const Reckoned> Reckoning::ways(std::size_t figure) const {
  return std::span(ways_).subspan(begin_[figure], begin_[figure + 1] - begin_[figure]);
}

bool Reckoning::says(std::size_t figure, double reckoned) const {
  const Value& v = values_[figure];
  return v.value && std::abs(*v.value - reckoned) <= v.spread;
}

void Reckoning::note(std::size_t figure, std::string_view how, std::size_t one, std::size_t other) {
  if (ways_.size() - begin_[figure] < most_ways) ways_.push_back({how, one, other});
}

void Reckoning::find_ways(std::size_t i) {
  const std::size_t from = i - std::min(i, figures_back);
  for (std::size_t a = i; a-- > from;) {
    if (!values_[a].value || *values_[a].value <= 0) continue;
    from_one(i, a);
    for (std::size_t b = i; b-- > a + 1;) {
      if (values_[b].value && *values_[b].value > 0) from_two(i, a, b);
    }
    if (ways_.size() - begin_[i] >= most_ways) return;
  }
}

void Reckoning::from_one(std::size_t i, std::size_t k) {
  const Kind kind = values_[i].kind;
  const double x = *values_[k].value;
  if (values_[k].kind == Kind::amount && kind == Kind::volume) {
    for (const double molar_volume : {0.0224, 0.024, 0.0245}) {  // m3/mol at 0 degrees and in rooms
      if (says(i, x * molar_volume)) return note(i, "molar volume", k, k);
    }
  }
  if (values_[k].kind == Kind::volume && kind == Kind::amount) {
    for (const double molar_volume : {0.0224, 0.024, 0.0245}) {
      if (says(i, x / molar_volume)) return note(i, "molar volume", k, k);
    }
  }
  if (values_[k].kind != kind || is_percent(kind)) return;
  if (says(i, x)) return note(i, "the same", k, k);
  if (!values_[i].sharp && !values_[k].sharp) return;
  constexpr std::array<std::pair<double, std::string_view>, 8> factors{{{2, "twice"},
                                                                        {0.5, "half"},
                                                                        {10, "ten times"},
                                                                        {0.1, "a tenth"},
                                                                        {5, "five times"},
                                                                        {0.2, "a fifth"},
                                                                        {4, "four times"},
                                                                        {0.25, "a quarter"}}};
  for (const auto& [factor, name] : factors) {
    if (says(i, factor * x)) return note(i, name, k, k);
  }
}

void Reckoning::from_two(std::size_t i, std::size_t a, std::size_t b) {
  const Kind kind = values_[i].kind;
  const Kind ka = values_[a].kind;
  const Kind kb = values_[b].kind;
  const double x = *values_[a].value;
  const double y = *values_[b].value;
  if (ka == kb && ka == kind && adds_up(kind)) {
    if (says(i, x + y)) note(i, "sum", a, b);
    if (says(i, std::abs(x - y))) note(i, "difference", a, b);
    return;
  }
  if (ka == kb && is_percent(kind) && (adds_up(ka) || ka == Kind::molar_concentration)) {
    if (says(i, std::min(x, y) / std::max(x, y))) note(i, "share", x < y ? a : b, x < y ? b : a);
    return;
  }
  // The first of the names is of the first kind.
  const auto product = [&](Kind first, Kind second, std::string_view how) {
    if (ka == first && kb == second && says(i, x * y)) note(i, how, a, b);
    if (ka == second && kb == first && first != second && says(i, x * y)) note(i, how, b, a);
  };
  const auto quotient = [&](Kind over, Kind under, std::string_view how) {
    if (ka == over && kb == under && says(i, x / y)) note(i, how, a, b);
    if (ka == under && kb == over && says(i, y / x)) note(i, how, b, a);
  };
  if (kind == Kind::mass) product(Kind::volume, Kind::density, "volume times density");
  if (kind == Kind::volume) quotient(Kind::mass, Kind::density, "mass over density");
  if (kind == Kind::density) quotient(Kind::mass, Kind::volume, "mass over volume");
  if (kind == Kind::amount) product(Kind::volume, Kind::molar_concentration, "volume times strength");
  if (kind == Kind::molar_concentration) quotient(Kind::amount, Kind::volume, "amount over volume");
  if (kind == Kind::volume) quotient(Kind::amount, Kind::molar_concentration, "amount over strength");
  if (adds_up(kind)) {
    for (const Kind percent : {Kind::mass_percent, Kind::volume_percent, Kind::percent_yield, Kind::percent_other})
      product(kind, percent, "share of it");
    for (const Kind share : {Kind::fraction, Kind::count, Kind::equivalents}) product(kind, share, "times a number");
  }
}

std::optional<std::size_t> Reckoning::weighs_with(std::size_t i, double molar_mass) const {
  constexpr std::size_t before = 8;
  constexpr std::size_t behind = 3;
  constexpr std::size_t words_behind = 30;
  constexpr double loosest = 0.025;  // beyond which neighbours in a list of molar masses cannot be told apart
  const Kind kind = values_[i].kind;
  if ((kind != Kind::mass && kind != Kind::amount) || !values_[i].value) return std::nullopt;
  const Value& mine = values_[i];
  const auto fits = [&](std::size_t k) {
    const Value& other = values_[k];
    const bool a_pair = other.kind == (kind == Kind::mass ? Kind::amount : Kind::mass);
    if (!a_pair || !other.value || *other.value <= 0 || *mine.value <= 0) return false;
    const double told = kind == Kind::mass ? *mine.value / *other.value : *other.value / *mine.value;
    const double open = mine.spread / *mine.value + other.spread / *other.value;
    return std::abs(told / molar_mass - 1) < std::min(open, loosest);
  };
  for (std::size_t k = i; k-- > 0 && i - k <= before;) {
    if (fits(k)) return k;
  }
  for (std::size_t k = i + 1; k < values_.size() && k <= i + behind; ++k) {
    if (values_[k].first - values_[i].first > words_behind) break;
    if (fits(k)) return k;
  }
  return std::nullopt;
}

}  // namespace sash::narration
