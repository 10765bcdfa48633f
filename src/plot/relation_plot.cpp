#include "plot/relation_plot.h"

#include <algorithm>
#include <cmath>

#include "plot/inner/equilibrium_plot.h"
#include "plot/inner/figures.h"
#include "plot/inner/reaction_plot.h"

namespace sash::plot {
namespace {

using inner::Figures;
using inner::Held;
using inner::sampled;
using inner::set_axes;
using inner::with_unit;

/// What a heat relation says of temperatures.
struct Warming {
  std::optional<double> start;  // °C; nothing: only the change is known
  double change = 0;            // K
};

std::optional<Warming> warming(const Figures& figures) {
  const auto before = figures("temperature_before");
  const auto after = figures("temperature_after");
  const auto change = figures("temperature_change");
  constexpr double zero = 273.15;
  Warming w;
  if (before) w.start = before->si() - zero;
  if (change) {
    w.change = change->si();
    if (!w.start && after) w.start = after->si() - zero - w.change;
  } else if (before && after) {
    w.change = after->si() - before->si();
  } else {
    return std::nullopt;
  }
  if (w.change == 0 || !std::isfinite(w.change)) return std::nullopt;
  return w;
}

// How much content the vessel counts for, in the unit of the mass; nothing where its material is not glass.
std::optional<double> vessel_as_content(const Figures& figures, const Held& mass) {
  const auto vessel = figures("vessel_mass");
  if (!vessel) return 0.0;
  const std::string material = figures.given("vessel");
  const bool glass = material.empty() || material == "glass" || material == "borosilicate glass";
  if (!glass || figures.has_given("vessel_heat_capacity") || figures.has_given("heat_capacity")) return std::nullopt;
  constexpr double glass_to_water = 0.83 / 4.184;  // as the heat relation takes them
  return mass.unit.from_si(vessel->si() * glass_to_water);
}

constexpr double boiling = 100;
constexpr double freezing = 0;

// Whether 0 and 100 °C mean anything: the content is water unless a heat capacity was stated.
bool is_watery(const Figures& figures) {
  return !figures.has_given("heat_capacity") && !figures("heat_capacity").has_value();
}

std::string temperature_name(const Warming& w) { return w.start ? "final temperature" : "temperature change"; }
std::string temperature_unit(const Warming& w) { return w.start ? "°C" : "K"; }

// The content boils or freezes somewhere on the first line: says where, and marks it.
std::string phase_limit(Plot& plot, const std::string& x_unit) {
  const std::vector<Point>& points = plot.series.front().points;
  for (std::size_t i = 1; i < points.size(); ++i) {
    for (const double limit : {boiling, freezing}) {
      const bool crosses = (points[i - 1].y - limit) * (points[i].y - limit) < 0;
      if (!crosses) continue;
      const double share = (limit - points[i - 1].y) / (points[i].y - points[i - 1].y);
      const double x = points[i - 1].x + share * (points[i].x - points[i - 1].x);
      const bool boils = limit == boiling;
      plot.marks.push_back({x, limit, boils ? "water boils" : "water freezes"});
      return std::string(" At ") + with_unit(x, x_unit) + (boils ? " it would boil" : " it would freeze") +
             "; beyond that the line does not hold.";
    }
  }
  return {};
}

std::optional<Plot> heat_against_amount(const Figures& figures, const Warming& w, const Held& amount) {
  const double start = w.start.value_or(0);
  const std::string unit = amount.unit.symbol();
  const auto law = [&](double per) { return [=](double n) { return start + w.change * per * n / amount.number; }; };
  Plot plot;
  plot.title = "What more or less of it would do";
  const auto mass = figures("mass");
  const std::string said_mass = mass ? with_unit(mass->number, mass->unit.symbol()) : std::string();
  plot.series.push_back({mass ? said_mass + " warmed" : "as said", {}, sampled(0, 2 * amount.number, law(1))});
  if (mass) {
    if (const auto vessel = vessel_as_content(figures, *mass)) {
      const double per = (mass->number + *vessel) / (2 * mass->number + *vessel);
      plot.series.push_back({"twice as much warmed", {}, sampled(0, 2 * amount.number, law(per))});
    }
  }
  set_axes(plot, "amount", unit, temperature_name(w), temperature_unit(w), !w.start);
  plot.marks.push_back({amount.number, start + w.change, "as in the record"});
  plot.reading = with_unit(amount.number, unit) + (w.change > 0 ? " warms it by " : " cools it by ") +
                 with_unit(std::abs(w.change), "K") + (w.start ? ", to " + with_unit(start + w.change, "°C") : "") +
                 "; twice as much would bring " + with_unit(start + 2 * w.change, temperature_unit(w)) + ".";
  if (w.start && is_watery(figures)) plot.reading += phase_limit(plot, unit);
  return plot;
}

std::optional<Plot> heat_against_mass(const Figures& figures, const Warming& w, const Held& mass) {
  const auto vessel = vessel_as_content(figures, mass);
  if (!vessel) return std::nullopt;
  const double start = w.start.value_or(0);
  const std::string unit = mass.unit.symbol();
  const double m0 = mass.number;
  const auto law = [=, v = *vessel](double heat) {
    return [=](double m) { return start + heat * w.change * (m0 + v) / (m + v); };
  };
  Plot plot;
  plot.title = "What more or less to warm would do";
  plot.series.push_back({"the same heat", {}, sampled(m0 / 2, 3 * m0, law(1))});
  plot.series.push_back({"half the heat", {}, sampled(m0 / 2, 3 * m0, law(0.5))});
  set_axes(plot, "mass warmed", unit, temperature_name(w), temperature_unit(w), !w.start);
  plot.marks.push_back({m0, start + w.change, "as in the record"});
  plot.reading = with_unit(m0, unit) + (w.change > 0 ? " is warmed by " : " is cooled by ") +
                 with_unit(std::abs(w.change), "K") + "; spread over twice the mass, the same heat brings " +
                 with_unit(law(1)(2 * m0), temperature_unit(w)) + ".";
  if (w.start && is_watery(figures)) plot.reading += phase_limit(plot, unit);
  return plot;
}

std::optional<Plot> heat_plot(const Figures& figures) {
  const auto w = warming(figures);
  if (!w) return std::nullopt;
  if (const auto amount = figures("amount"); amount && amount->number > 0) {
    return heat_against_amount(figures, *w, *amount);
  }
  const auto mass = figures("mass");
  if (!mass || !(mass->number > 0)) return std::nullopt;
  return heat_against_mass(figures, *w, *mass);
}

std::optional<Plot> gas_plot(const Figures& figures) {
  const auto volume = figures("volume");
  auto portion = figures("amount");
  const bool by_mass = !portion;
  if (by_mass) portion = figures("mass");
  if (!volume || !portion || !(volume->number > 0) || !(portion->number > 0)) return std::nullopt;
  const double per = volume->number / portion->number;
  const std::string unit = portion->unit.symbol();
  const std::string volume_unit = volume->unit.symbol();
  const auto law = [per](double times) { return [=](double n) { return times * per * n; }; };
  Plot plot;
  plot.title = "How much gas more or less of it would give";
  const auto kelvin = figures("temperature");
  plot.series.push_back({kelvin ? "at " + with_unit(kelvin->si() - 273.15, "°C") : "as said",
                         {},
                         sampled(0, 2 * portion->number, law(1))});
  if (kelvin) {
    // The same gas, warmer: volume goes with the absolute temperature.
    constexpr double warmer = 50;
    plot.series.push_back({"at " + with_unit(kelvin->si() - 273.15 + warmer, "°C"),
                           {},
                           sampled(0, 2 * portion->number, law((kelvin->si() + warmer) / kelvin->si()))});
  }
  set_axes(plot, by_mass ? "mass" : "amount", unit, "volume of gas", volume_unit, true);
  plot.marks.push_back({portion->number, volume->number, "as in the record"});
  plot.reading = with_unit(portion->number, unit) + " gives " + with_unit(volume->number, volume_unit) +
                 " of gas, in proportion: " + with_unit(per, volume_unit) + " for each " + unit + ".";
  if (figures.given("over_water") == "yes") plot.reading += " Collected over water, vapour is part of that volume.";
  return plot;
}

}  // namespace

std::optional<Plot> plot_of(const model::Relation& relation, const workings::Report& report) {
  const Figures figures(relation, report);
  switch (relation.type) {
    case model::RelationType::heat:
      return heat_plot(figures);
    case model::RelationType::gas_given_off:
      return gas_plot(figures);
    case model::RelationType::reaction:
      return inner::reaction_plot(figures);
    case model::RelationType::equilibrium:
      return inner::equilibrium_plot(figures);
    default:
      return std::nullopt;
  }
}

}  // namespace sash::plot
