#include "quantity/kind.h"

#include <algorithm>
#include <array>

#include "support/check.h"

namespace sash::quantity {
namespace {

struct Entry {
  Kind kind;
  std::string_view name;
  std::string_view label;
};

constexpr std::array<Entry, 29> entries{{
    {Kind::mass, "mass", "mass"},
    {Kind::volume, "volume", "volume"},
    {Kind::amount, "amount", "amount of substance"},
    {Kind::molar_concentration, "molar_concentration", "molar concentration"},
    {Kind::mass_concentration, "mass_concentration", "mass concentration"},
    {Kind::molality, "molality", "molality"},
    {Kind::mass_percent, "mass_percent", "mass fraction"},
    {Kind::volume_percent, "volume_percent", "volume fraction"},
    {Kind::mass_volume_percent, "mass_volume_percent", "mass per volume"},
    {Kind::density, "density", "density"},
    {Kind::temperature, "temperature", "temperature"},
    {Kind::temperature_change, "temperature_change", "temperature change"},
    {Kind::duration, "duration", "duration"},
    {Kind::pressure, "pressure", "pressure"},
    {Kind::percent_yield, "percent_yield", "percent yield"},
    {Kind::percent_other, "percent_other", "percentage"},
    {Kind::equivalents, "equivalents", "equivalents"},
    {Kind::pH, "pH", "pH"},
    {Kind::count, "count", "count"},
    {Kind::fraction, "fraction", "fraction"},
    {Kind::gas_volume, "gas_volume", "gas volume"},
    {Kind::length, "length", "length"},
    {Kind::voltage, "voltage", "voltage"},
    {Kind::current, "current", "electric current"},
    {Kind::charge, "charge", "electric charge"},
    {Kind::power, "power", "power"},
    {Kind::energy, "energy", "energy"},
    {Kind::molar_mass, "molar_mass", "molar mass"},
    {Kind::other, "other", "other"},
}};

const Entry& entry(Kind kind) {
  const auto& found = entries.at(static_cast<std::size_t>(kind));
  promise(found.kind == kind, "kind table in the order of the enum");
  return found;
}

}  // namespace

std::string_view kind_name(Kind kind) { return entry(kind).name; }
std::string_view kind_label(Kind kind) { return entry(kind).label; }

std::optional<Kind> kind_from_name(std::string_view name) {
  const auto it = std::find_if(entries.begin(), entries.end(), [&](const Entry& e) { return e.name == name; });
  if (it == entries.end()) return std::nullopt;
  return it->kind;
}

}  // namespace sash::quantity
