#include "quantity/kind.h"

#include <array>
#include <string>
#include <vector>

#include "support/check.h"
#include "support/text.h"

namespace sash::quantity {
namespace {

struct Entry {
  Kind kind;
  std::string_view name;
  std::string_view word;
  Dimension dimension;
  std::string_view unit;
};

constexpr std::array table = {
    Entry{Kind::mass, "mass", "mass", dimension::mass, "g"},
    Entry{Kind::volume, "volume", "volume", dimension::volume, "mL"},
    Entry{Kind::amount, "amount", "amount of substance", dimension::amount, "mol"},
    Entry{Kind::molar_concentration, "molar_concentration", "molarity", dimension::molar_concentration, "mol/L"},
    Entry{Kind::mass_concentration, "mass_concentration", "mass concentration", dimension::density, "g/L"},
    Entry{Kind::molality, "molality", "molality", dimension::molality, "mol/kg"},
    Entry{Kind::mass_percent, "mass_percent", "% w/w", dimension::plain, "%"},
    Entry{Kind::volume_percent, "volume_percent", "% v/v", dimension::plain, "%"},
    Entry{Kind::mass_volume_percent, "mass_volume_percent", "% w/v", dimension::density, "%"},
    Entry{Kind::density, "density", "density", dimension::density, "g/mL"},
    Entry{Kind::temperature, "temperature", "temperature", dimension::temperature, "Cel"},
    Entry{Kind::temperature_change, "temperature_change", "temperature change", dimension::temperature, "Cel"},
    Entry{Kind::duration, "duration", "duration", dimension::time, "min"},
    Entry{Kind::pressure, "pressure", "pressure", dimension::pressure, "kPa"},
    Entry{Kind::percent_yield, "percent_yield", "percent yield", dimension::plain, "%"},
    Entry{Kind::percent_other, "percent_other", "percent", dimension::plain, "%"},
    Entry{Kind::equivalents, "equivalents", "equivalents", dimension::plain, "1"},
    Entry{Kind::pH, "pH", "pH", dimension::plain, "[pH]"},
    Entry{Kind::count, "count", "count", dimension::plain, "1"},
    Entry{Kind::fraction, "fraction", "fraction", dimension::plain, "1"},
    Entry{Kind::gas_volume, "gas_volume", "volume of gas", dimension::volume, "L"},
    Entry{Kind::length, "length", "length", dimension::length, "cm"},
    Entry{Kind::voltage, "voltage", "voltage", dimension::voltage, "V"},
    Entry{Kind::current, "current", "current", dimension::current, "A"},
    Entry{Kind::charge, "charge", "charge", dimension::charge, "A.h"},
    Entry{Kind::power, "power", "power", dimension::power, "W"},
    Entry{Kind::energy, "energy", "energy", dimension::energy, "kJ"},
    Entry{Kind::molar_mass, "molar_mass", "molar mass", dimension::molar_mass, "g/mol"},
    Entry{Kind::other, "other", "quantity", dimension::plain, "1"},
};

constexpr auto kinds = [] {
  std::array<Kind, table.size()> out{};
  for (std::size_t i = 0; i < table.size(); ++i) out[i] = table[i].kind;
  return out;
}();

const Entry& entry_of(Kind kind) {
  const auto index = static_cast<std::size_t>(kind);
  promise(index < table.size() && table[index].kind == kind, "every kind has its row, in order");
  return table[index];
}

bool is_percent(const Unit& unit) { return unit.code() == "%"; }

}  // namespace

std::span<const Kind> all_kinds() { return kinds; }
std::string_view kind_name(Kind kind) { return entry_of(kind).name; }
std::string_view kind_label(Kind kind) { return entry_of(kind).word; }

std::optional<Kind> kind_from_name(std::string_view name) {
  for (const Entry& entry : table) {
    if (entry.name == name) return entry.kind;
  }
  return std::nullopt;
}

Outcome<Kind> read_kind(std::string_view name) {
  if (const auto kind = kind_from_name(name)) return *kind;
  std::vector<std::string_view> names;
  for (const Entry& entry : table) names.push_back(entry.name);
  const auto nearest = nearest_spelling(name, names);
  std::string sentence = "There is no kind of figure called \"" + std::string(name) + "\"";
  sentence +=
      nearest ? "; did you mean \"" + std::string(*nearest) + "\"?" : "; use a word such as mass, volume or amount.";
  Fault fault = Fault::of(Code::unknown_name, std::move(sentence), std::string(name));
  if (nearest) fault.others.emplace_back(*nearest);
  return fault;
}

std::optional<Dimension> dimension_of(Kind kind) {
  if (kind == Kind::other) return std::nullopt;
  return entry_of(kind).dimension;
}

Unit default_unit(Kind kind) {
  Outcome<Unit> unit = unit_for(kind, entry_of(kind).unit);
  promise(unit.ok(), "the default unit of a kind measures that kind");
  return std::move(unit).value();
}

Outcome<Unit> unit_for(Kind kind, std::string_view ucum) {
  Outcome<Unit> read = Unit::parse(ucum);
  if (!read) return read;
  switch (kind) {
    case Kind::temperature:
      read = read->as_point();
      break;
    case Kind::temperature_change:
      read = read->as_difference();
      break;
    case Kind::mass_percent:
      if (is_percent(*read)) read = read->spelled("% w/w");
      break;
    case Kind::volume_percent:
      if (is_percent(*read)) read = read->spelled("% v/v");
      break;
    case Kind::mass_volume_percent:
      if (is_percent(*read)) read = Unit::known("g/dL").coded("%").spelled("% w/v");
      break;
    default:
      break;
  }
  const auto wanted = dimension_of(kind);
  if (wanted && read->dimension() != *wanted) {
    return Fault::of(Code::wrong_dimension,
                     "\"" + std::string(ucum) + "\" measures a " + name_of(read->dimension()) +
                         " and cannot be the unit of a " + std::string(kind_label(kind)) + "; use for example " +
                         std::string(entry_of(kind).unit) + ".",
                     std::string(ucum));
  }
  return read;
}

std::optional<Kind> kind_implied_by(const Unit& unit) {
  if (unit.code() == "[pH]") return Kind::pH;
  const Dimension& measured = unit.dimension();
  if (measured.is_plain()) return std::nullopt;
  if (measured == dimension::temperature) {
    return unit.stance() == Stance::difference ? Kind::temperature_change : Kind::temperature;
  }
  if (measured == dimension::density) {
    if (is_percent(unit)) return Kind::mass_volume_percent;
    // Strengths are given in g/L and smaller steps; kilograms and gram-per-millilitre sizes are how densities are
    // given.
    const bool strength = unit.is_linear() && unit.scale().factor() < 1000 && !unit.code().starts_with("kg");
    return strength && unit.code() != "[SG]" ? Kind::mass_concentration : Kind::density;
  }
  for (const Entry& entry : table) {
    if (entry.kind != Kind::other && entry.dimension == measured) return entry.kind;
  }
  return Kind::other;
}

}  // namespace sash::quantity
