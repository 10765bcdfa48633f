#pragma once
// Chi-square and normal probabilities, as the tests of a reconciliation need them. Pure.
// Source: Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 6.5 (incomplete gamma), 26.4 (chi-square).

namespace sash::workings {

/// Probability that chi-square with `freedom` degrees exceeds `statistic`. Requires: freedom > 0, statistic >= 0.
double chi_square_tail(double statistic, int freedom);

/// The statistic that is exceeded with probability `tail`. Requires: freedom > 0, 0 < tail < 1.
double chi_square_limit(double tail, int freedom);

/// Probability that a standard normal deviate lies further from zero than `deviate`.
double normal_two_sided_tail(double deviate);

/// The deviate that is exceeded, to either side, with probability `tail`: 1.96 for 5 %. Requires: 0 < tail < 1.
double normal_two_sided_limit(double tail);

}  // namespace sash::workings
