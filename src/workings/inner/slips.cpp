// Slips with one figure.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "quantity/show.h"
#include "support/text.h"
#include "workings/inner/explain.h"

namespace sash::workings::inner {
namespace {

using quantity::Kind;

constexpr double coverage = 2;
constexpr double by_rounding = 1e-9;

// A way of being wrong: what the figure would then have been, in its own unit.
struct Slip {
  Explanation::Kind kind;
  double would_be;
  std::string words;  ///< "its decimal point slipped"
  double assumes;
};

void add_decimals(const FigureValue& v, double said, std::vector<Slip>& slips) {
  const Kind kind = v.figure->kind;
  for (const int places : {1, -1, 2, -2}) {
    const double factor = std::pow(10.0, places);
    const std::string digits = std::abs(places) == 1 ? "one place" : "two places";
    const bool percent = std::abs(places) == 2 && v.unit.dimension().is_plain() && kind != Kind::count;
    if (percent) {
      slips.push_back({Explanation::Kind::percent_for_fraction, said * factor,
                       "a percentage was taken for a fraction, or the other way round", 1.1});
    } else {
      slips.push_back({Explanation::Kind::slipped_decimal, said * factor, "its decimal point slipped by " + digits,
                       std::abs(places) == 1 ? 1.0 : 1.3});
    }
  }
}

// g for kg, mL for L: a thousandfold, either way. Temperatures also between Celsius and kelvin.
void add_units(const FigureValue& v, double said, std::vector<Slip>& slips) {
  static const std::vector<std::pair<std::string, std::vector<std::string>>> confused{
      {"g", {"kg", "mg"}},
      {"kg", {"g"}},
      {"mg", {"g", "ug"}},
      {"ug", {"mg"}},
      {"mL", {"L", "uL"}},
      {"L", {"mL"}},
      {"uL", {"mL"}},
      {"mol", {"mmol"}},
      {"mmol", {"mol"}},
      {"mol/L", {"mmol/L"}},
      {"mmol/L", {"mol/L"}},
      {"s", {"min"}},
      {"min", {"s", "h"}},
      {"h", {"min"}},
      {"kPa", {"Pa", "mbar", "bar"}},
      {"bar", {"mbar", "kPa"}},
      {"J", {"kJ"}},
      {"kJ", {"J"}},
      {"A", {"mA"}},
      {"mA", {"A"}},
      {"Cel", {"K", "[degF]"}},
      {"K", {"Cel"}},
      {"[degF]", {"Cel"}},
      {"g/L", {"g/mL"}},
  };
  const auto it =
      std::find_if(confused.begin(), confused.end(), [&](const auto& c) { return c.first == v.unit.code(); });
  if (it == confused.end()) return;
  for (const std::string& code : it->second) {
    const auto other = quantity::unit_for(v.figure->kind, code);
    if (!other || !other->converts_to(v.unit)) continue;
    slips.push_back({Explanation::Kind::wrong_unit, v.unit.from_si(other->to_si(said)),
                     "it was meant in " + other->symbol() + ", not " + v.unit.symbol(), 1.1});
  }
}

void add_swaps(const FigureValue& v, std::vector<Slip>& slips) {
  const std::string& digits = v.said.digits;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    std::size_t j = i + 1;
    if (j < digits.size() && digits[j] == '.') ++j;  // across the point: 24.8 for 28.4
    if (j >= digits.size() || digits[i] == digits[j]) continue;
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    if (!is_digit(digits[i]) || !is_digit(digits[j])) continue;
    std::string swapped = digits;
    std::swap(swapped[i], swapped[j]);
    if (const auto number = read_number(swapped)) {
      slips.push_back({Explanation::Kind::swapped_digits, *number,
                       fmt::format("two of its digits were swapped ({} for {})", swapped, digits), 1.5});
    }
  }
}

// Thirteen and thirty, to nineteen and ninety: the pairs that the ear and recognisers of speech take for each other.
void add_mishearings(const FigureValue& v, double said, std::vector<Slip>& slips) {
  if (v.figure->source != model::Source::said) return;
  for (int digit = 3; digit <= 9; ++digit) {
    const double teen = 10 + digit;
    const double ty = 10 * digit;
    if (said != teen && said != ty) continue;
    const double meant = said == teen ? ty : teen;
    slips.push_back(
        {Explanation::Kind::misheard_number, meant, fmt::format("{:g} was said or heard for {:g}", said, meant), 1.05});
  }
}

// A balance was thought read, but it was the millilitres: the number times the density.
void add_volume_for_mass(const FigureValue& v, double said, const Network& network, std::vector<Slip>& slips) {
  if (v.figure->kind != Kind::mass && v.figure->kind != Kind::volume) return;
  for (VariableIndex i = 0; i < network.quantities.size(); ++i) {
    const Quantity& q = *network.quantities[i];
    const auto& density = network.followed[i];
    if (q.kind != Kind::density || !density) continue;
    const double grams_per_millilitre = *density / 1000;
    if (std::fabs(grams_per_millilitre - 1) < 1e-3) continue;
    const bool mass = v.figure->kind == Kind::mass;
    slips.push_back({Explanation::Kind::volume_read_for_mass,
                     mass ? said * grams_per_millilitre : said / grams_per_millilitre,
                     mass ? "the number is its volume, not its mass" : "the number is its mass, not its volume", 1.6});
  }
}

std::vector<Slip> slips_with(const FigureValue& v, const Network& network) {
  const double said = v.from_si(v.si);
  std::vector<Slip> slips;
  add_units(v, said, slips);
  add_decimals(v, said, slips);
  if (v.said.hedge == quantity::Hedge::exact) add_swaps(v, slips);
  add_mishearings(v, said, slips);
  add_volume_for_mass(v, said, network, slips);
  return slips;
}

}  // namespace

std::vector<Explanation> slips(const Suspicion& suspicion, const Network& network, const FigureBook& book) {
  std::vector<Explanation> result;
  for (const Suspect& suspect : suspicion.suspects) {
    if (!suspect.settles || suspect.values.size() != 1) continue;
    const Suspect::Value& needed = suspect.values.front();
    const FigureValue& value = *book.find(network.quantities[needed.variable]->figure);
    const double said = value.from_si(value.si);
    const double target = value.from_si(needed.value);
    const double own = value.spread_from_si(value.si_spread, value.si);
    const double other = value.spread_from_si(needed.spread, needed.value);
    for (const Slip& slip : slips_with(value, network)) {
      // The slipped number is as uncertain, relatively, as what was said.
      const double scale = said != 0 ? std::fabs(slip.would_be / said) : 1;
      const double within = coverage * std::hypot(own * scale, other) + by_rounding * std::fabs(target);
      if (std::fabs(slip.would_be - target) > within) continue;
      Explanation e;
      e.kind = slip.kind;
      const double si = value.unit.to_si(slip.would_be);
      e.would_be = computed_text(value, si, 0);
      e.sentence = "Perhaps " + slip.words + ": " + value.name + " would be " + e.would_be->text + " instead of " +
                   said_text(value).text + ", and everything would agree.";
      e.assumes = slip.assumes + (suspect.rest.statistic > 0 && suspect.rest.freedom > 0 ? 0.01 : 0);
      result.push_back(std::move(e));
    }
  }
  return result;
}

std::vector<Explanation> slips_behind_yield(const Network& network, VariableIndex yield, const FigureBook& book) {
  std::vector<Explanation> result;
  for (const auto& [id, variable] : network.figures) {
    const FigureValue* value = book.find(id);
    if (value == nullptr || network.system.variables()[variable].status != Variable::Status::measured) continue;
    for (const Slip& slip : slips_with(*value, network)) {
      std::vector<double> values;
      for (const auto& v : network.followed) values.push_back(v.value_or(0));
      const double si = value->unit.to_si(slip.would_be);
      values[variable] = si;
      const double leaves = follow_again(network, yield, values);
      if (!(leaves >= least_believable_yield && leaves <= 1)) continue;
      Explanation e;
      e.kind = slip.kind;
      e.would_be = computed_text(*value, si, 0);
      e.sentence = "Perhaps " + slip.words + ": " + value->name + " would be " + e.would_be->text + " instead of " +
                   said_text(*value).text + ", and the yield " + quantity::show_with_unit(100 * leaves, "%", 3) + ".";
      // Many a swap lands somewhere below 100 %: that it does proves little.
      e.assumes = slip.assumes + (slip.kind == Explanation::Kind::swapped_digits ? 0.6 : 0);
      result.push_back(std::move(e));
    }
  }
  return result;
}

void put_in_order(std::vector<Explanation>& explanations) {
  std::stable_sort(explanations.begin(), explanations.end(),
                   [](const Explanation& a, const Explanation& b) { return a.assumes < b.assumes; });
  std::set<std::string> seen;
  std::erase_if(explanations, [&](const Explanation& e) { return !seen.insert(e.sentence).second; });
}

}  // namespace sash::workings::inner
