#pragma once
// Saturation pressures: water exactly, the Magnus form weather stations use with its dew point, and organic liquids by
// the Antoine equation. What lies outside a correlation's range is refused with the range.
// Pa and °C. Pure, safe from any thread.
// Sources: W. Wagner and A. Pruss, J. Phys. Chem. Ref. Data 31 (2002) 387, eq. 2.5 (water); WMO-No. 8, Annex 4.B
// (Magnus); Poling, Prausnitz and O'Connell, The Properties of Gases and Liquids, 5th ed. (Antoine; in the table).

#include <string>
#include <string_view>

#include "support/outcome.h"

namespace sash::chem {

/// Pa over liquid water, 0 to 373.9 °C, to better than 0.1 %. Fails: Code::out_of_range.
Outcome<double> water_vapour_pressure(double celsius);

/// Pa over liquid water by the Magnus form, -45 to 60 °C; what relative humidity and dew point are defined by here.
/// Fails: Code::out_of_range.
Outcome<double> magnus_pressure(double celsius);

/// °C at which air of this temperature and relative humidity (0 to 1) begins to wet a wall.
/// Fails: Code::out_of_range for humidity outside (0, 1] or temperature outside -45 to 60 °C.
Outcome<double> dew_point(double celsius, double humidity);

/// log10(p/Pa) = a - b/(T + c), T in K between t_min and t_max.
struct Antoine {
  std::string name;
  double a = 0, b = 0, c = 0;
  double t_min = 0, t_max = 0;
  std::string source;
  /// Fails: Code::out_of_range outside t_min to t_max, with the range in °C.
  Outcome<double> pressure(double kelvin) const;
  /// The temperature in K at which the pressure is `pascal`. Fails: Code::out_of_range.
  Outcome<double> boiling_point(double pascal) const;
};
/// The coefficients of a substance named by name or formula. Fails: Code::not_found, Code::ambiguous.
Outcome<Antoine> antoine_of(std::string_view substance);

/// Pa of any liquid known here, water included. Fails: as antoine_of and Antoine::pressure.
Outcome<double> vapour_pressure(std::string_view substance, double celsius);

}  // namespace sash::chem
