#include "quantity/unit.h"

#include <cmath>

#include "quantity/inner/unit_atoms.h"
#include "quantity/inner/unit_reader.h"
#include "support/check.h"

namespace sash::quantity {
namespace {

// Baumé at 60/60 °F, as US trade fixed it: relative density 145/(145-B) above water's, 140/(130+B) below.
double relative_density(Law law, double degrees) {
  return law == Law::baume_heavy ? 145 / (145 - degrees) : 140 / (130 + degrees);
}

double hydrometer_degrees(Law law, double relative) {
  return law == Law::baume_heavy ? 145 - 145 / relative : 140 / relative - 130;
}

double relative_density_slope(Law law, double degrees) {
  return law == Law::baume_heavy ? 145 / ((145 - degrees) * (145 - degrees))
                                 : 140 / ((130 + degrees) * (130 + degrees));
}

}  // namespace

Outcome<Unit> Unit::parse(std::string_view ucum) { return UnitReader(ucum).read(); }

Unit Unit::known(std::string_view ucum) {
  Outcome<Unit> unit = parse(ucum);
  promise(unit.ok(), "a unit code in the source is valid UCUM");
  return std::move(unit).value();
}

double Unit::to_si(double number) const noexcept {
  const double scaled = law_ == Law::linear ? number : relative_density(law_, number);
  return scale_.apply(scaled) + zero_;
}

double Unit::from_si(double si) const noexcept {
  const double scaled = scale_.undo(si - zero_);
  return law_ == Law::linear ? scaled : hydrometer_degrees(law_, scaled);
}

double Unit::slope_at(double number) const noexcept {
  return law_ == Law::linear ? scale_.factor() : scale_.apply(relative_density_slope(law_, number));
}

Unit Unit::as_difference() const {
  Unit out = *this;
  if (dimension_ != dimension::temperature) return out;
  out.zero_ = 0;
  out.stance_ = Stance::difference;
  return out;
}

Unit Unit::as_point() const {
  if (dimension_ != dimension::temperature || stance_ == Stance::point) return *this;
  Unit out = known(code_);  // restores the zero that as_difference dropped
  out.symbol_ = symbol_;
  out.stance_ = Stance::point;
  return out;
}

Unit Unit::spelled(std::string symbol) const {
  Unit out = *this;
  out.symbol_ = std::move(symbol);
  return out;
}

Unit Unit::coded(std::string code) const {
  Unit out = *this;
  out.code_ = std::move(code);
  return out;
}

bool Unit::converts_to(const Unit& other) const noexcept {
  return dimension_ == other.dimension_ && !opposed(stance_, other.stance_);
}

std::vector<std::string_view> known_unit_codes() {
  std::vector<std::string_view> out;
  for (const inner::Atom& atom : inner::atoms()) out.push_back(atom.code);
  return out;
}

Fault wrong_dimension(const Dimension& have, Stance stance, const Unit& wanted) {
  const auto word = [](const Dimension& dimension, Stance how) {
    return how == Stance::difference ? "temperature change" : name_of(dimension);
  };
  const auto article = [](const std::string& noun) {
    return (std::string_view("aeiou").find(noun.front()) != std::string_view::npos ? "an " : "a ") + noun;
  };
  std::string sentence =
      "This is " + article(word(have, stance)) + ", but " + article(word(wanted.dimension(), wanted.stance()));
  if (!wanted.symbol().empty()) sentence += " (" + wanted.symbol() + ")";
  return Fault::of(Code::wrong_dimension, sentence + " was wanted.", wanted.code());
}

}  // namespace sash::quantity
