#include "chem/solution.h"

#include <cmath>
#include <limits>

#include "chem/concentration.h"
#include "chem/inner/density_tables.h"
#include "chem/inner/wording.h"
#include "chem/molar_mass.h"
#include "chem/names.h"

namespace sash::chem {
namespace {

using inner::shown;

constexpr double water_molar_mass = 18.015;  // IUPAC 2021 abridged: 2 x 1.0080 + 15.999

/// The density at a mass fraction: stated, or from tables that are looked up once.
class DensityAt {
 public:
  DensityAt(std::string_view solute, double celsius, std::optional<double> stated)
      : celsius_(celsius), stated_(stated), tables_(inner::tables_of(solute)) {}
  Outcome<Density> operator()(double w) const {
    if (!stated_) return tables_ ? tables_->at(w, celsius_) : Outcome<Density>(tables_.fault());
    if (!(*stated_ > 0) || !std::isfinite(*stated_)) {
      return Fault::of(Code::out_of_range, "A density of " + shown(*stated_) + " g/mL cannot be.");
    }
    return Density{*stated_, 0, "as stated", {}};
  }
  double most() const {
    if (stated_) return 1;
    return tables_ ? tables_->strongest(celsius_) : 0;
  }

 private:
  double celsius_;
  std::optional<double> stated_;
  Outcome<inner::SolutionTables> tables_;
};

/// The mass fraction at which w times density is `grams` per mL. It rises with w, so halving finds it.
Outcome<double> fraction_holding(const DensityAt& density, double grams, std::string_view solute) {
  const auto held = [&](double w) -> Outcome<double> {
    const auto d = density(w);
    if (!d) return d.fault();
    return w * d->value;
  };
  const auto most = held(density.most());
  if (!most) return most.fault();
  if (grams > *most) {
    return Fault::of(Code::out_of_range, shown(grams * grams_per_kilogram) + " g/L of " + std::string(solute) +
                                             " is stronger than the strongest known solution, " +
                                             shown(*most * grams_per_kilogram) + " g/L.");
  }
  double low = 0, high = density.most();
  for (int i = 0; i < 80; ++i) {
    const double mid = (low + high) / 2;
    const auto at = held(mid);
    if (!at) return at.fault();
    (*at < grams ? low : high) = mid;
  }
  return (low + high) / 2;
}

Outcome<double> mass_fraction_of(const DensityAt& density, std::string_view solute, StrengthKind kind, double strength,
                                 double molar_mass, double celsius) {
  switch (kind) {
    case StrengthKind::mass_fraction:
      return strength;
    case StrengthKind::molality: {
      const double solute_grams = strength * molar_mass;
      return mass_fraction(solute_grams, grams_per_kilogram);
    }
    case StrengthKind::molarity:
      return fraction_holding(density, strength * molar_mass / millilitres_per_litre, solute);
    case StrengthKind::grams_per_litre:
      return fraction_holding(density, strength / millilitres_per_litre, solute);
    case StrengthKind::mass_per_volume:
      return fraction_holding(density, strength, solute);
    case StrengthKind::volume_fraction: {
      const auto pure = density_of(solute, celsius);
      if (!pure) {
        return Fault::of(Code::unsupported, "A strength by volume needs the density of pure " + std::string(solute) +
                                                ": " + pure.fault().sentence);
      }
      return fraction_holding(density, strength * pure->value, solute);
    }
    case StrengthKind::density: {
      const auto found = strengths_at_density(solute, strength, celsius);
      if (!found) return found.fault();
      return found->front();
    }
  }
  promise(false, "every kind of strength is handled");
  return 0.0;
}

}  // namespace

Outcome<Solution> solution_of(std::string_view solute, StrengthKind kind, double strength, double celsius,
                              std::optional<double> stated_density) {
  if (!std::isfinite(strength)) return Fault::of(Code::not_finite, "The strength is no number.");
  if (strength < 0) return Fault::of(Code::out_of_range, "A strength cannot be below 0.");
  const auto formula = formula_of(solute);
  if (!formula) return formula.fault();
  const auto mass = molar_mass(*formula);
  if (!mass) return mass.fault();
  const DensityAt density(solute, celsius, stated_density);
  const auto w = mass_fraction_of(density, solute, kind, strength, mass->value, celsius);
  if (!w) return w.fault();
  if (*w > 1)
    return Fault::of(Code::out_of_range, "A solution cannot hold more than 100 % of " + std::string(solute) + ".");
  const auto d = density(*w);
  if (!d) return d.fault();
  Solution s;
  s.solute = solute;
  s.molar_mass = mass->value;
  s.celsius = celsius;
  s.w = *w;
  s.density = *d;
  s.molarity = molarity(*w, d->value, mass->value);
  s.molality = *w < 1 ? molality(*w, mass->value) : std::numeric_limits<double>::infinity();
  s.grams_per_litre = *w * d->value * millilitres_per_litre;
  s.mole_fraction = mole_fraction(*w, mass->value, water_molar_mass);
  if (const auto pure = density_of(solute, celsius)) s.volume_fraction = *w * d->value / pure->value;
  return s;
}

Outcome<Mixture> mix(std::string_view solute, std::span<const Portion> portions, double celsius) {
  if (portions.empty()) return Fault::of(Code::wrong_use, "Nothing to mix: give at least one portion.");
  Mixture mixed;
  double solute_grams = 0;
  for (const Portion& portion : portions) {
    if (!(portion.grams >= 0) || !std::isfinite(portion.grams)) {
      return Fault::of(Code::out_of_range, "A portion weighs " + shown(portion.grams) + " g, which cannot be.");
    }
    const auto density = portion.w == 0 ? water_density(celsius) : solution_density(solute, portion.w, celsius);
    if (!density) return density.fault();
    mixed.grams += portion.grams;
    mixed.apart += portion.grams / density->value;
    solute_grams += portion.grams * portion.w;
  }
  if (mixed.grams <= 0) return Fault::of(Code::out_of_range, "The portions weigh nothing together.");
  const auto solution = solution_of(solute, StrengthKind::mass_fraction, solute_grams / mixed.grams, celsius);
  if (!solution) return solution.fault();
  mixed.solution = *solution;
  mixed.millilitres = mixed.grams / solution->density.value;
  return mixed;
}

Outcome<Recipe> dilute(const Solution& stock, const Solution& wanted, double millilitres) {
  if (!(millilitres > 0) || !std::isfinite(millilitres)) {
    return Fault::of(Code::out_of_range, "The volume to make up must be above 0.");
  }
  if (stock.w < wanted.w) {
    return Fault::of(Code::impossible, "The stock holds " + shown(stock.w * 100) + " % and cannot be diluted to " +
                                           shown(wanted.w * 100) + " %.");
  }
  const auto water = water_density(wanted.celsius);
  if (!water) return water.fault();
  if (stock.w <= 0) return Fault::of(Code::impossible, "The stock is plain water.");
  Recipe recipe;
  const double grams = millilitres * wanted.density.value;
  recipe.stock_grams = grams * wanted.w / stock.w;
  recipe.stock_millilitres = recipe.stock_grams / stock.density.value;
  recipe.water_grams = grams - recipe.stock_grams;
  recipe.water_millilitres = recipe.water_grams / water->value;
  return recipe;
}

}  // namespace sash::chem
