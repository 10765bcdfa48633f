#include "quantity/dimension.h"

#include <string_view>

#include "quantity/inner/superscript.h"

namespace sash::quantity {
namespace {

struct Named {
  Dimension dimension;
  std::string_view name;
};

constexpr Named named[] = {
    {dimension::plain, "plain number"},
    {dimension::mass, "mass"},
    {dimension::length, "length"},
    {dimension::time, "duration"},
    {dimension::temperature, "temperature"},
    {dimension::amount, "amount of substance"},
    {dimension::current, "electric current"},
    {dimension::luminosity, "luminous intensity"},
    {dimension::area, "area"},
    {dimension::volume, "volume"},
    {dimension::density, "mass per volume"},
    {dimension::molar_concentration, "amount per volume"},
    {dimension::molality, "amount per mass"},
    {dimension::molar_mass, "molar mass"},
    {dimension::molar_volume, "molar volume"},
    {dimension::force, "force"},
    {dimension::pressure, "pressure"},
    {dimension::energy, "energy"},
    {dimension::power, "power"},
    {dimension::charge, "electric charge"},
    {dimension::voltage, "voltage"},
};

constexpr std::string_view base_units[] = {"kg", "m", "s", "K", "mol", "A", "cd"};

}  // namespace

std::string name_of(const Dimension& dimension) {
  for (const Named& entry : named) {
    if (entry.dimension == dimension) return std::string(entry.name);
  }
  std::string out;
  for (std::size_t i = 0; i < dimension.powers.size(); ++i) {
    const int power = dimension.powers[i];
    if (power == 0) continue;
    if (!out.empty()) out += "·";
    out += base_units[i];
    if (power != 1) out += inner::superscript(power);
  }
  return out;
}

}  // namespace sash::quantity
