#pragma once
// Arithmetic written in a test row ("1000*m*P/V"), evaluated: + - * / parentheses, sqrt, cos, sin and named inputs.
// A malformed expression aborts the test program: a check must not pass by computing nothing.

#include <span>
#include <string>
#include <vector>

namespace sash::test {

/// The value of `text` with `names[i]` standing for `values[i]`.
double evaluate(const std::string& text, std::span<const std::string> names, std::span<const double> values);

}  // namespace sash::test
