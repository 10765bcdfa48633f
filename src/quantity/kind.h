#pragma once
// What a figure is a figure of: finer than its dimension (a density and a mass concentration are both mass per volume;
// a percent may be by mass, by volume or a yield). Pure; safe from any thread. Sources: IUPAC Green Book, 3rd ed.
// (2007), 2.10 (composition); the percent conventions are common practice.

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "quantity/dimension.h"
#include "quantity/unit.h"
#include "support/outcome.h"

namespace sash::quantity {

enum class Kind : std::uint8_t {
  mass,
  volume,
  amount,
  molar_concentration,
  mass_concentration,
  molality,
  mass_percent,         ///< mass of the substance in mass of the whole, % w/w
  volume_percent,       ///< % v/v
  mass_volume_percent,  ///< gram in 100 mL, % w/v: 1 % is 10 g/L
  density,
  temperature,
  temperature_change,
  duration,
  pressure,
  percent_yield,
  percent_other,
  equivalents,
  pH,
  count,
  fraction,
  gas_volume,
  length,
  voltage,
  current,
  charge,
  power,
  energy,
  molar_mass,
  other,
};

/// All kinds in the order of the enumeration.
std::span<const Kind> all_kinds();

std::string_view kind_name(Kind kind);                      ///< as in files: "mass_volume_percent"
std::optional<Kind> kind_from_name(std::string_view name);  ///< the inverse of kind_name; exact
/// As kind_from_name, for text people typed.
/// Fails: Code::unknown_name with the nearest name.
Outcome<Kind> read_kind(std::string_view name);

std::string_view kind_label(Kind kind);  ///< for the screen: "volume of gas", "% w/v"

/// What figures of that kind measure; nothing for Kind::other, which may be anything.
std::optional<Dimension> dimension_of(Kind kind);

/// The unit a figure of that kind is shown in when nobody said another: g, mL, mol, mol/L, %, °C ...
Unit default_unit(Kind kind);

/// The unit of `ucum` as figures of that kind use it: °C is a difference for a temperature change and a point for a
/// temperature; % reads as gram in 100 mL for mass_volume_percent, and is spelled "% w/w", "% v/v", "% w/v" on the
/// screen. Fails: as Unit::parse; Code::wrong_dimension when the unit cannot measure that kind.
Outcome<Unit> unit_for(Kind kind, std::string_view ucum);

/// The kind that a unit implies by itself: g gives mass, mol/L molar_concentration, Cel temperature. Nothing where
/// several are as likely (%, 1).
std::optional<Kind> kind_implied_by(const Unit& unit);

}  // namespace sash::quantity
