#pragma once
// Propagation of distributions by Monte Carlo, and the check that says in a sentence whether first order would have
// done. The same seed gives the same draws on every machine: the generator is std::mt19937_64, whose output the C++
// standard fixes, and the transforms are ours. Pure; safe from any thread as long as the model is. Source: JCGM
// 101:2008, clauses 6.4 (distributions), 7.6-7.7 (results), 7.9 (adaptive), 8 (validation).

#include <cstdint>
#include <span>
#include <string>

#include "quantity/propagate.h"
#include "support/outcome.h"

namespace sash::quantity {

struct MonteCarloOptions {
  std::uint64_t seed = 20080101;
  std::size_t trials = 200000;  ///< at least 1000; the most to spend when adaptive
  bool adaptive = false;        ///< stop when the results no longer move at `digits` of the uncertainty
  int digits = 1;               ///< significant digits of the uncertainty that matter: 1, or 2 with some 10⁶ trials
  double share = 0.95;          ///< of the distribution inside the interval
  bool shortest = false;        ///< the shortest interval, instead of equal tails
  Correlations correlations;    ///< inputs that are not normal are tied by a Gaussian copula
};

struct Sampled {
  double mean = 0;
  double standard = 0;
  double low = 0;  ///< ends of the coverage interval
  double high = 0;
  std::size_t trials = 0;
  /// How far the worst of these four may still be off for want of trials: twice its standard error between blocks.
  double numerical_error = 0;
  bool settled = true;  ///< adaptive only: false when the trials ran out before the results stood still
};

/// Draws the inputs and runs the model on each draw.
/// Fails: Code::not_finite when the model has no value for some draw, saying for how many; Code::impossible when the
/// correlations contradict each other. Requires: trials >= 1000; 0 < share < 1; digits 1 or 2.
Outcome<Sampled> sample(const Model& model, std::span<const Input> inputs, const MonteCarloOptions& options = {});

/// Both ways side by side, and which to believe.
struct Checked {
  Propagated first_order;
  Sampled sampled;
  bool agree = false;    ///< both ends of the interval within `tolerance` and what more trials could still move
  double tolerance = 0;  ///< that tolerance, in the unit of the result
  double best = 0;       ///< the result to use: first order's when they agree, else Monte Carlo's
  double standard = 0;
  double low = 0;
  double high = 0;
  std::string sentence;  ///< for the person; `unit_symbol` of the call is used in it
};

/// Fails: as propagate and sample.
Outcome<Checked> check_first_order(const Model& model, std::span<const Input> inputs,
                                   const MonteCarloOptions& options = {}, std::string_view unit_symbol = {});

}  // namespace sash::quantity
