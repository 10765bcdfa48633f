#include "quantity/scale.h"

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <numeric>

namespace sash::quantity {
namespace {

constexpr double largest_whole = 9007199254740992.0;  // 2^53

bool is_whole(double x) { return x >= 1 && x <= largest_whole && std::floor(x) == x; }

void cancel(double& a, double& b) {
  if (!is_whole(a) || !is_whole(b)) return;
  const auto common = static_cast<double>(std::gcd(static_cast<std::int64_t>(a), static_cast<std::int64_t>(b)));
  a /= common;
  b /= common;
}

}  // namespace

Scale Scale::times(const Scale& other) const noexcept {
  double a = over_;
  double b = other.over_;
  double c = under_;
  double d = other.under_;
  cancel(a, c);
  cancel(a, d);
  cancel(b, c);
  cancel(b, d);
  return Scale(a * b, c * d);
}

Scale Scale::to_the(int power) const noexcept {
  Scale out;
  for (int i = 0; i < std::abs(power); ++i) out = out.times(*this);
  return power < 0 ? Scale(out.under_, out.over_) : out;
}

}  // namespace sash::quantity
