#include "chem/heat.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "chem/inner/wording.h"
#include "chem/vapour_pressure.h"

namespace sash::chem {
namespace {

constexpr double fusion = 6010 / 18.015;         // J/g
constexpr double vaporisation = 40650 / 18.015;  // J/g
constexpr double ice_specific = 2.09;            // J/(g K), OpenStax Chemistry 2e, Table 5.1
constexpr double boiling = 100;

std::optional<Fault> check(std::span<const Body> bodies) {
  for (const Body& body : bodies) {
    if (!std::isfinite(body.celsius)) return Fault::of(Code::not_finite, "A temperature is no number.");
    if (!(body.grams >= 0) || !(body.specific >= 0) || !std::isfinite(body.capacity())) {
      return Fault::of(Code::out_of_range, "A body of " + inner::shown(body.grams) + " g and " +
                                               inner::shown(body.specific) + " J/(g K) cannot be.");
    }
  }
  return std::nullopt;
}

struct Store {
  double capacity = 0;  // J/K
  double content = 0;   // J above 0 °C
};

Store all(std::span<const Body> bodies) {
  Store store;
  for (const Body& body : bodies) {
    store.capacity += body.capacity();
    store.content += body.capacity() * body.celsius;
  }
  return store;
}

}  // namespace

Outcome<double> final_temperature(std::span<const Body> bodies, double joules) {
  if (bodies.empty()) return Fault::of(Code::wrong_use, "Nothing to warm or cool: give at least one body.");
  if (auto fault = check(bodies)) return *std::move(fault);
  if (!std::isfinite(joules)) return Fault::of(Code::not_finite, "The heat is no number.");
  const Store store = all(bodies);
  if (store.capacity <= 0) return Fault::of(Code::out_of_range, "The bodies have no heat capacity together.");
  return (store.content + joules) / store.capacity;
}

Outcome<double> starting_temperature(double capacity, std::span<const Body> others, double reached, double joules) {
  if (auto fault = check(others)) return *std::move(fault);
  if (!(capacity > 0) || !std::isfinite(capacity) || !std::isfinite(reached)) {
    return Fault::of(Code::out_of_range, "A heat capacity must be above 0 and temperatures must be numbers.");
  }
  const Store store = all(others);
  return reached + (store.capacity * reached - store.content - joules) / capacity;
}

Outcome<double> specific_heat(double grams, double celsius, std::span<const Body> others, double reached,
                              double joules) {
  if (auto fault = check(others)) return *std::move(fault);
  if (!(grams > 0)) return Fault::of(Code::out_of_range, "A mass must be above 0.");
  if (celsius == reached) return Fault::of(Code::impossible, "What did not change temperature shows no heat capacity.");
  const Store store = all(others);
  return (store.capacity * reached - store.content - joules) / (grams * (celsius - reached));
}

Outcome<Settled> settle_with_ice(double ice_grams, double ice_celsius, const Body& water, std::span<const Body> others,
                                 double joules) {
  if (auto fault = check(others)) return *std::move(fault);
  if (auto fault = check({&water, 1})) return *std::move(fault);
  if (!(ice_grams >= 0) || !(ice_celsius <= 0)) {
    return Fault::of(Code::out_of_range, "Ice has a mass and at most 0 °C.");
  }
  if (!std::isfinite(joules)) return Fault::of(Code::not_finite, "The heat is no number.");
  Store store = all(others);
  store.capacity += water.capacity();
  store.content += water.capacity() * water.celsius;
  // J above liquid water and solid ice, all at 0 °C.
  const double spare = store.content + joules + ice_grams * ice_specific * ice_celsius;
  if (spare < 0) return Fault::of(Code::unsupported, "The ice is so cold that water freezes; that is not computed.");
  Settled end;
  end.melted = std::min(ice_grams, spare / fusion);
  end.ice_left = ice_grams - end.melted;
  if (end.ice_left > 0) return end;
  const double liquid = water.grams + ice_grams;
  const double specific = water.specific > 0 ? water.specific : 4.184;
  const double capacity = store.capacity + ice_grams * specific;
  if (capacity <= 0) return Fault::of(Code::out_of_range, "The bodies have no heat capacity together.");
  end.celsius = (spare - ice_grams * fusion) / capacity;
  if (end.celsius > boiling && liquid > 0) {
    end.boiled_off = std::min(liquid, (end.celsius - boiling) * capacity / vaporisation);
    end.celsius = boiling;
  }
  return end;
}

Outcome<DewCheck> dew_on_wall(double wall_celsius, double room_celsius, double humidity) {
  const auto dew = dew_point(room_celsius, humidity);
  if (!dew) return dew.fault();
  return DewCheck{*dew, wall_celsius - *dew, wall_celsius < *dew};
}

}  // namespace sash::chem
