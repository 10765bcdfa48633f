#pragma once
// FigureBook: every figure of a record as a number with its standard uncertainty, in SI, and the reason for it; or the
// sentence why it is none. Follows corrections. Borrows the record. Pure.

#include <map>
#include <optional>
#include <string>

#include "model/record.h"
#include "quantity/said.h"
#include "quantity/spread.h"
#include "quantity/unit.h"
#include "workings/finding.h"

namespace sash::workings::inner {

struct FigureValue {
  const model::Figure* figure = nullptr;
  quantity::Unit unit;     ///< in which it was given; the usual one of its kind where it was not
  bool stated = false;     ///< somebody gave a number
  double si = 0;           ///< best value
  double si_spread = 0;    ///< standard uncertainty
  quantity::Spread shape;  ///< the same with its shape and reason, in `unit`
  quantity::Said said;     ///< in `unit`; only when stated
  bool as_said = false;    ///< its uncertainty is that of its digits and words
  std::string doubt;       ///< why it is that uncertain
  std::string trouble;     ///< a sentence when it cannot be computed with; otherwise empty

  std::string name;  ///< for sentences: its label, or "mass of copper"

  double from_si(double value) const { return unit.from_si(value); }
  /// A spread in SI, in `unit`, near `value` (SI).
  double spread_from_si(double spread, double value) const;
};

class FigureBook {
 public:
  explicit FigureBook(const model::Record& record);

  /// The figure that counts: `id` itself, or the one that finally corrects it. Null when there is none, or when it was
  /// refused.
  const FigureValue* find(model::FigureId id) const;
  const model::Record& record() const { return record_; }

 private:
  const model::Record& record_;
  std::map<model::FigureId, FigureValue> values_;
};

/// A quantity that is no figure of the record, as if it were one that nobody stated. `figure` is its kind only.
FigureValue unstated(const model::Figure& figure, std::string name);

/// The factor that expands a standard uncertainty to about 95 %: 2, or Student's where the degrees of freedom are few.
/// Source: JCGM 100:2008, G.4 and G.6.6.
double coverage_of(std::optional<double> freedom);

/// The number as it was given, for people: "28.4", "1.0×10⁻⁸" for 1.0e-8. Requires: stated.
std::string digits_as_given(const FigureValue& value);

/// As given: "28.4 g", "about 5 mL", "4–5 g".
Reckoned said_text(const FigureValue& value);

/// The text without "pH" before it, after which a sentence names it anyway: "pH was given as 4.65".
std::string in_sentence(const FigureValue& value, const std::string& text);

/// A computed value of that figure, SI: "(28.40 ± 0.14) g" with the expanded uncertainty (k = 2, or Student's for
/// few degrees of freedom). A figure nobody
/// stated is given in a unit of readable size.
Reckoned computed_text(const FigureValue& value, double si, double si_spread,
                       std::optional<double> freedom = std::nullopt);

}  // namespace sash::workings::inner
