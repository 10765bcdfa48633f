#include "chem/titration.h"

#include <cmath>

#include "chem/inner/wording.h"
#include "chem/stoichiometry.h"

namespace sash::chem {
namespace {

bool positive(double value) { return std::isfinite(value) && value > 0; }
bool not_negative(double value) { return std::isfinite(value) && value >= 0; }

}  // namespace

Outcome<double> titrated_amount(const Titration& t) {
  if (!positive(t.titrant_molarity) || !not_negative(t.titrant_litres) || !not_negative(t.blank_litres) ||
      !positive(t.titrant_per_analyte) || !positive(t.aliquot_litres) || !positive(t.made_up_litres) ||
      !positive(t.reagent_per_analyte) || !positive(t.titrant_per_reagent)) {
    return Fault::of(Code::out_of_range, "Volumes and strengths of a titration must be above 0.");
  }
  if (t.aliquot_litres > t.made_up_litres) {
    return Fault::of(Code::impossible, "An aliquot cannot be larger than the solution it is taken from.");
  }
  if (t.blank_litres > t.titrant_litres) {
    return Fault::of(Code::impossible, "The blank used more titrant than the sample.");
  }
  const double used = (t.titrant_litres - t.blank_litres) * t.titrant_molarity;
  double analyte = used / t.titrant_per_analyte;
  if (t.added_first) {
    const double rest = used / t.titrant_per_reagent;
    if (rest > *t.added_first) {
      return Fault::of(Code::impossible, "More reagent was titrated back (" + inner::shown(rest) +
                                             " mol) than was added (" + inner::shown(*t.added_first) + " mol).");
    }
    analyte = (*t.added_first - rest) / t.reagent_per_analyte;
  }
  return analyte * t.made_up_litres / t.aliquot_litres;
}

Outcome<double> titrant_ratio(const Equation& equation, const Formula& titrant, const Formula& analyte) {
  const auto one = equation.find(titrant), other = equation.find(analyte);
  if (!one || !other || !equation.on_left(*one) || !equation.on_left(*other)) {
    return Fault::of(Code::not_found, "Titrant and analyte must both stand on the left of " + equation.unicode() + ".",
                     equation.plain());
  }
  return amount_with(equation, *other, 1, *one);
}

Outcome<double> end_point_litres(double analyte_mol, double titrant_per_analyte, double titrant_molarity) {
  if (!not_negative(analyte_mol) || !positive(titrant_per_analyte) || !positive(titrant_molarity)) {
    return Fault::of(Code::out_of_range, "Amounts and strengths of a titration must be above 0.");
  }
  return analyte_mol * titrant_per_analyte / titrant_molarity;
}

}  // namespace sash::chem
