#pragma once
// Limits of error of measuring instruments: flasks, cylinders, pipettes, burettes, beakers, balances, thermometers; and
// the standard uncertainty that follows. What is on a label or in a calibration certificate goes before these: use
// `stated` (spread.h). Pure constant data; safe from any thread. One-mark glassware and burettes are taken as
// triangular (values near the nominal one are likelier, EURACHEM/CITAC QUAM:2012 A1); cylinders, beakers, balances and
// thermometers as rectangular (nothing is known within the limits, JCGM 100:2008 4.3.7). Sources:
// assets/tables/glassware.tsv, one a row; rows "from memory" say so in every sentence.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "quantity/spread.h"
#include "quantity/unit.h"
#include "support/outcome.h"

namespace sash::quantity {

/// How far a row of the table can be trusted.
enum class Standing : std::uint8_t { published, second_hand, from_memory, common_practice };

struct Instrument {
  std::string type;      ///< "flask", "cylinder", "pipette", "burette", "beaker", "balance", "thermometer" ...
  std::string standard;  ///< "ISO 1042"; empty where none applies
  std::optional<double> capacity;  ///< in `unit`; one division for balances and glass thermometers; nothing: any
  Unit unit;
  std::string grade;  ///< "A", "B", a class of a sensor; empty where there is none
  double limit = 0;   ///< plus and minus, in `unit`
  double share =
      0;  ///< added to the limit: this part of the capacity, or of the reading where that is what was measured
  Shape shape = Shape::rectangular;
  Standing standing = Standing::from_memory;
  std::string source;

  /// "ISO 4788 cylinder 25 mL A", as a record keeps it and find_instrument reads it.
  std::string name() const;
  /// The limit of error at a reading, both in `unit`.
  double limit_at(double reading) const;
};

/// The whole table, in its order.
std::span<const Instrument> instruments();

/// Reads a name such as "ISO 4788 cylinder 25 mL A", "100 ml volumetric flask class B", "balance 0.01 g", "250 mL
/// beaker", words in any order and case. What is left open is taken at its widest: class B, the standard with the
/// larger limit. Fails: Code::unknown_name (no such type, with the types as others); Code::not_found (no such size,
/// with the sizes); Code::malformed when empty.
Outcome<Instrument> find_instrument(std::string_view name);

/// The smallest instrument of that type and class that holds `volume`, given in `unit`. `grade` empty: the widest
/// class. Nothing when none is large enough.
std::optional<Instrument> instrument_for(std::string_view type, double volume, const Unit& unit,
                                         std::string_view grade = {});

/// The spread of `reading` in `unit`, read on `instrument`.
/// Fails: Code::wrong_dimension when the instrument does not measure that.
Outcome<Spread> spread_of(const Instrument& instrument, double reading, const Unit& unit);

/// Cubic expansion of water about 20 °C, 1/K (EURACHEM/CITAC QUAM:2012 A1).
inline constexpr double water_expansion = 2.1e-4;

/// How much `volume` of a liquid changes for `kelvin`: the half-width for a laboratory within ± `kelvin` of the
/// calibration temperature, in the unit of `volume`. Glass expands a tenth as much and is left out.
constexpr double thermal_change(double volume, double kelvin, double expansion = water_expansion) {
  return volume * kelvin * expansion;
}

}  // namespace sash::quantity
