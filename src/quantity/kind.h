#pragma once
// Kind: what sort of quantity a figure states. Two kinds may share a dimension (a strength and a yield are both
// percents) and still never be compared. Pure.

#include <optional>
#include <string_view>

namespace sash::quantity {

enum class Kind {
  mass,
  volume,
  amount,
  molar_concentration,
  mass_concentration,
  molality,
  mass_percent,
  volume_percent,
  mass_volume_percent,
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

std::string_view kind_name(Kind kind);                      ///< the word used in files: "molar_concentration"
std::optional<Kind> kind_from_name(std::string_view name);  ///< the converse; nothing for an unknown word
std::string_view kind_label(Kind kind);                     ///< the trade's word for the screen: "molar concentration"

}  // namespace sash::quantity
