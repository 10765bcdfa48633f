#pragma once
// What "Ac" stands for at the beginning of a formula. Acetyl is a group with one bond (AcCl, Ac2O, AcOH, AcNH2);
// actinium is known with three charges only (AcCl3, Ac2O3, Ac^3+). Private to the part. Pure.
// Source: L. R. Morss et al., The Chemistry of the Actinide and Transactinide Elements, ch. 2 (actinium is trivalent);
// Standard Abbreviations and Acronyms, J. Org. Chem. guidelines for authors (acetyl).

#include <string_view>

namespace sash::chem::inner {

enum class AcMeans { group, metal, unclear };

/// `behind` is what follows those two letters, to the end of the text.
AcMeans ac_means(std::string_view behind);

}  // namespace sash::chem::inner
