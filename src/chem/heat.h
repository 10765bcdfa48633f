#pragma once
// What heat does: temperatures after mixing or reacting in a vessel, ice that melts, water that boils off, and whether
// a cold wall gathers dew. No losses to the room: real temperatures change less. The figures come from
// chem/thermochemistry.h or are stated.
// J, g, J/(g K), °C. Pure, safe from any thread.
// Sources: conservation of energy; WMO-No. 8, Annex 4.B for the dew point.

#include <span>

#include "support/outcome.h"

namespace sash::chem {

/// Something with a mass and a temperature: a liquid, a piece of metal, the beaker.
struct Body {
  double grams = 0;
  double specific = 0;  ///< J/(g K)
  double celsius = 0;
  double capacity() const { return grams * specific; }  ///< J/K
};

/// J taken up by something of `capacity` J/K that warms by `kelvins`; negative when it cools.
constexpr double heat_taken_up(double capacity, double kelvins) { return capacity * kelvins; }

/// The temperature all bodies reach together when `joules` are set free among them. No change of phase.
/// Fails: Code::wrong_use without a body; Code::out_of_range for negative masses or heat capacities, or none at all.
Outcome<double> final_temperature(std::span<const Body> bodies, double joules = 0);

/// How hot one of them was before, when the temperature they reached together is known: the other bodies as given.
/// Fails: as final_temperature.
Outcome<double> starting_temperature(double capacity, std::span<const Body> others, double reached, double joules = 0);

/// J/(g K) of a body of `grams` that went from `celsius` to `reached` among others. Fails: as final_temperature;
/// Code::impossible when its temperature did not change.
Outcome<double> specific_heat(double grams, double celsius, std::span<const Body> others, double reached,
                              double joules = 0);

/// A watery content with ice and a limit at boiling.
struct Settled {
  double celsius = 0;
  double melted = 0;      ///< g of ice
  double ice_left = 0;    ///< g
  double boiled_off = 0;  ///< g of water, when the heat would carry it past 100 °C
};
/// Ice at 0 °C or colder put among bodies and water that is liquid, with `joules` set free. `water` counts as the part
/// that can freeze or boil; heat of fusion 333.6 and of vaporisation 2256 J/g (CRC: 6.01 and 40.65 kJ/mol).
/// Fails: as final_temperature; Code::unsupported when everything would freeze.
Outcome<Settled> settle_with_ice(double ice_grams, double ice_celsius, const Body& water, std::span<const Body> others,
                                 double joules = 0);

struct DewCheck {
  double dew_point = 0;  ///< °C
  double margin = 0;     ///< K the wall is above it; negative: it gathers dew
  bool condenses = false;
};
/// Whether a wall at `wall_celsius` (taken as cold as the content) falls below the dew point of the room.
/// Fails: as dew_point.
Outcome<DewCheck> dew_on_wall(double wall_celsius, double room_celsius, double humidity);

}  // namespace sash::chem
