#include "quantity/monte_carlo.h"

#include <algorithm>
#include <cmath>

#include "quantity/inner/draws.h"
#include "quantity/show.h"
#include "support/check.h"

namespace sash::quantity {
namespace {

/// Runs are cut into blocks to see how much results move between them: 10⁴ trials a block (JCGM 101 7.9.4), fewer in a
/// short run so that there are always ten.
std::size_t block_size_for(std::size_t trials) { return std::min<std::size_t>(10000, trials / 10); }

/// Draws all inputs of one trial at a time, the correlated ones together.
class Sampler {
 public:
  Sampler(std::span<const Input> inputs, const Correlations& correlations, std::vector<double> lower,
          std::uint64_t seed)
      : inputs_(inputs), lower_(std::move(lower)), draws_(seed), at_(inputs.size()), normals_(inputs.size()) {
    for (std::size_t i = 0; i < inputs.size(); ++i) tied_.push_back(correlations.involves(i));
  }

  std::span<const double> next() {
    const std::size_t n = inputs_.size();
    for (std::size_t i = 0; i < n; ++i) {
      if (!tied_[i]) {
        at_[i] = draws_.of(inputs_[i]);
        continue;
      }
      normals_[i] = draws_.normal();
      double z = 0;
      for (std::size_t k = 0; k <= i; ++k) {
        if (tied_[k]) z += lower_[i * n + k] * normals_[k];
      }
      at_[i] = inner::value_at_normal(inputs_[i], z);
    }
    return at_;
  }

 private:
  std::span<const Input> inputs_;
  std::vector<double> lower_;
  std::vector<bool> tied_;
  inner::Draws draws_;
  std::vector<double> at_;
  std::vector<double> normals_;
};

/// Results of sorted values (JCGM 101 7.6, 7.7, and 7.7.4 for the shortest interval).
Sampled summarised(const std::vector<double>& sorted, double share, bool shortest) {
  Sampled out;
  const std::size_t count = sorted.size();
  out.trials = count;
  // About the first value, so that a small spread on a large number keeps its digits.
  const double about = sorted[count / 2];
  double sum = 0;
  for (const double y : sorted) sum += y - about;
  const double mean = sum / static_cast<double>(count);
  double squares = 0;
  for (const double y : sorted) squares += (y - about - mean) * (y - about - mean);
  out.mean = about + mean;
  out.standard = std::sqrt(squares / static_cast<double>(count - 1));
  const auto inside = std::min(count - 1, static_cast<std::size_t>(std::llround(share * static_cast<double>(count))));
  std::size_t start = (count - inside) / 2;
  if (shortest) {
    for (std::size_t i = 0; i + inside < count; ++i) {
      if (sorted[i + inside] - sorted[i] < sorted[start + inside] - sorted[start]) start = i;
    }
  }
  out.low = sorted[start];
  out.high = sorted[std::min(start + inside, count - 1)];
  return out;
}

/// Half a unit in the last of `digits` significant digits of `standard`: the numerical tolerance of JCGM 101 7.9.2.
double tolerance_of(double standard, int digits) {
  if (!(standard > 0)) return 0;
  return 0.5 * std::pow(10, place_for(standard) + (digits == 1 ? 1 : 0));
}

/// Twice the standard deviation of the mean of block results, for the four numbers that are reported.
double largest_movement(std::span<const Sampled> blocks) {
  const auto movement = [&](auto member) {
    double mean = 0;
    const auto n = static_cast<double>(blocks.size());
    for (const Sampled& block : blocks) mean += block.*member / n;
    double squares = 0;
    for (const Sampled& block : blocks) squares += (block.*member - mean) * (block.*member - mean);
    return 2 * std::sqrt(squares / (n * (n - 1)));
  };
  return std::max(
      {movement(&Sampled::mean), movement(&Sampled::standard), movement(&Sampled::low), movement(&Sampled::high)});
}

Fault no_value(std::size_t failed, std::size_t trials) {
  return Fault::of(Code::not_finite, "The result has no finite value in " + std::to_string(failed) + " of " +
                                         std::to_string(trials) +
                                         " trials; an input is too uncertain for this formula.");
}

}  // namespace

Outcome<Sampled> sample(const Model& model, std::span<const Input> inputs, const MonteCarloOptions& options) {
  promise(options.trials >= 1000, "too few trials say nothing");
  promise(options.share > 0 && options.share < 1, "the share lies between 0 and 1");
  promise(options.digits == 1 || options.digits == 2, "one or two digits of an uncertainty matter");
  std::vector<double> lower;
  if (!options.correlations.none()) {
    auto factored = inner::factor(options.correlations, inputs.size());
    if (!factored) return factored.fault();
    lower = std::move(factored).value();
  }
  Sampler sampler(inputs, options.correlations, std::move(lower), options.seed);
  const std::size_t block_size = block_size_for(options.trials);
  std::vector<double> results;
  results.reserve(options.trials);
  std::vector<Sampled> blocks;
  bool settled = !options.adaptive;
  while (results.size() < options.trials) {
    const std::size_t size = std::min(block_size, options.trials - results.size());
    const auto start = results.size();
    std::size_t failed = 0;
    for (std::size_t i = 0; i < size; ++i) {
      results.push_back(model(sampler.next()));
      if (!std::isfinite(results.back())) ++failed;
    }
    if (failed > 0) return no_value(failed, size);
    if (size < block_size) break;  // a rest too short to compare
    std::vector<double> block(results.begin() + static_cast<std::ptrdiff_t>(start), results.end());
    std::sort(block.begin(), block.end());
    blocks.push_back(summarised(block, options.share, options.shortest));
    if (!options.adaptive || blocks.size() < 2) continue;
    double standard = 0;
    for (const Sampled& one : blocks) standard += one.standard / static_cast<double>(blocks.size());
    // A fifth of the tolerance: the result then also serves to judge first order by (8.2).
    settled = largest_movement(blocks) <= tolerance_of(standard, options.digits) / 5;
    if (settled) break;
  }
  std::sort(results.begin(), results.end());
  Sampled out = summarised(results, options.share, options.shortest);
  out.numerical_error = largest_movement(blocks);
  out.settled = settled;
  return out;
}

Outcome<Checked> check_first_order(const Model& model, std::span<const Input> inputs, const MonteCarloOptions& options,
                                   std::string_view unit_symbol) {
  PropagateOptions first_options;
  first_options.correlations = options.correlations;
  auto first = propagate(model, inputs, first_options);
  if (!first) return first.fault();
  auto sampled = sample(model, inputs, options);
  if (!sampled) return sampled.fault();
  Checked out;
  out.first_order = std::move(first).value();
  out.sampled = *sampled;
  out.tolerance = tolerance_of(out.first_order.standard, options.digits);
  const double half = out.first_order.expanded(options.share);
  const double low = out.first_order.best - half;
  const double high = out.first_order.best + half;
  // The last term is rounding alone: where nothing varies both must give the same number.
  const double allowed = out.tolerance + out.sampled.numerical_error + 1e-9 * std::abs(out.first_order.best);
  out.agree = std::abs(low - out.sampled.low) <= allowed && std::abs(high - out.sampled.high) <= allowed;
  out.best = out.agree ? out.first_order.best : out.sampled.mean;
  out.standard = out.agree ? out.first_order.standard : out.sampled.standard;
  out.low = out.agree ? low : out.sampled.low;
  out.high = out.agree ? high : out.sampled.high;
  const std::string trials = show_number(static_cast<double>(out.sampled.trials));
  if (out.agree) {
    out.sentence = "First order and a Monte Carlo run of " + trials + " trials agree.";
    return out;
  }
  const auto interval = [&](double from, double to) {
    const int place = out.standard > 0 ? place_for(out.standard) : 0;
    return show_at(from, place) + " to " + show_at(to, place);
  };
  out.sentence =
      "First order gives " + show_with(out.first_order.best, out.first_order.standard, unit_symbol) + " (" +
      show_number(100 * options.share) + " %: " + interval(low, high) + "), but a Monte Carlo run of " + trials +
      " trials gives " + show_with(out.sampled.mean, out.sampled.standard, unit_symbol) + " (" +
      interval(out.sampled.low, out.sampled.high) +
      "): the formula bends within the uncertainties or its result is not normally spread, so the Monte Carlo "
      "result is used.";
  return out;
}

}  // namespace sash::quantity
