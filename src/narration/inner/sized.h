#pragma once
// Sized: a number in SI with its standard uncertainty, for trying out what a speaker may have computed. Uncertainties
// are carried to first order as if independent (JCGM 100:2008, 5.1.2). The real computing is the workings'. Pure.

#include <cmath>

namespace sash::narration {

struct Sized {
  double value = 0;
  double spread = 0;
};

inline double relative(const Sized& a) { return a.value == 0 ? 0 : a.spread / a.value; }
inline Sized scaled(const Sized& a, double factor) { return {a.value * factor, std::abs(a.spread * factor)}; }
inline Sized operator*(const Sized& a, const Sized& b) {
  const double value = a.value * b.value;
  return {value, std::abs(value) * std::hypot(relative(a), relative(b))};
}
inline Sized operator/(const Sized& a, const Sized& b) {
  const double value = b.value == 0 ? 0 : a.value / b.value;
  return {value, std::abs(value) * std::hypot(relative(a), relative(b))};
}
inline Sized operator+(const Sized& a, const Sized& b) { return {a.value + b.value, std::hypot(a.spread, b.spread)}; }
inline Sized operator-(const Sized& a, const Sized& b) { return {a.value - b.value, std::hypot(a.spread, b.spread)}; }

}  // namespace sash::narration
