#pragma once
// How uncertain a number is and why: the standard uncertainty, the shape of the distribution it came from, its degrees
// of freedom and one sentence for the person. Makers for stated limits and expanded uncertainties; digits and hedges
// are in said.h, instruments in glassware.h. Pure values; safe from any thread. Sources: JCGM 100:2008
// (GUM) 4.2-4.3, 5.1, G.4; EURACHEM/CITAC QUAM:2012, 8.1.

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "support/outcome.h"

namespace sash::quantity {

/// The shape a number is believed to be spread in.
enum class Shape : std::uint8_t {
  exact,        ///< no spread at all: a count, a definition
  rectangular,  ///< anywhere within limits, none likelier
  triangular,   ///< within limits, the middle likelier
  normal,
  student,  ///< from few observations: Student's t with the degrees of freedom
};

/// The uncertainty of one number, in that number's unit (a difference for temperatures).
struct Spread {
  double standard = 0;  ///< standard uncertainty; never negative
  Shape shape = Shape::exact;
  double half_width = 0;                     ///< of the limits, for rectangular and triangular; else 0
  std::optional<double> degrees_of_freedom;  ///< nothing: taken as known exactly (infinite)
  std::string reason;                        ///< a sentence for the person

  bool operator==(const Spread&) const = default;

  /// The same spread in another unit, `factor` of the new one to one of the old. Requires: factor > 0.
  Spread scaled(double factor) const;
};

/// How a plus-minus was meant.
enum class Meant : std::uint8_t {
  limits,         ///< never outside; none likelier within: rectangular, GUM 4.3.7
  limits_peaked,  ///< never outside; the middle likelier: triangular, GUM 4.3.9
  one_standard,   ///< one standard deviation
  two_standard,   ///< expanded with k = 2
  ninety_five,    ///< a 95 % interval: normal, or Student's t when degrees of freedom are given
};

/// No uncertainty: a count or a number by definition.
Spread exactly(std::string reason);

/// A stated plus-minus `half_width`. `unit_symbol` only serves the sentence.
/// Fails: Code::not_finite; Code::out_of_range (negative, or degrees of freedom not above zero).
Outcome<Spread> stated(double half_width, Meant meant, std::string_view unit_symbol,
                       std::optional<double> degrees_of_freedom = std::nullopt);

/// The mean of repeated readings: standard deviation of the mean, n-1 degrees of freedom (GUM 4.2).
struct Mean {
  double best;
  Spread spread;
};
/// Fails: Code::out_of_range with fewer than two readings; Code::not_finite.
Outcome<Mean> mean_of(std::span<const double> readings);

/// How the means of two series of readings taken together hang together: r of GUM 5.2.3. Zero where one does not vary.
/// Requires: as many of one as of the other, at least two.
double correlation_of(std::span<const double> a, std::span<const double> b);

/// Independent contributions to one number together: root of the sum of squares, taken as normal; degrees of freedom by
/// Welch and Satterthwaite (GUM G.4.1). Their reasons are joined.
Spread combined(std::span<const Spread> contributions);

}  // namespace sash::quantity
