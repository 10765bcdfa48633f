#include "known/quantity/expression.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace sash::test {
namespace {

class Evaluator {
 public:
  Evaluator(const std::string& text, std::span<const std::string> names, std::span<const double> values)
      : text_(text), names_(names), values_(values) {}

  double whole() {
    const double out = sum();
    if (at_ != text_.size()) stop();
    return out;
  }

 private:
  double sum() {
    double out = product();
    for (;;) {
      if (take('+')) {
        out += product();
      } else if (take('-')) {
        out -= product();
      } else {
        return out;
      }
    }
  }

  double product() {
    double out = factor();
    for (;;) {
      if (take('*')) {
        out *= factor();
      } else if (take('/')) {
        out /= factor();
      } else {
        return out;
      }
    }
  }

  double factor() {
    if (take('-')) return -factor();
    if (take('(')) {
      const double out = sum();
      if (!take(')')) stop();
      return out;
    }
    const char c = at_ < text_.size() ? text_[at_] : '\0';
    if (std::isdigit(static_cast<unsigned char>(c)) != 0) {
      char* end = nullptr;
      const double out = std::strtod(text_.c_str() + at_, &end);
      at_ = static_cast<std::size_t>(end - text_.c_str());
      return out;
    }
    std::string word;
    while (at_ < text_.size() && (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '_'))
      word += text_[at_++];
    if (word == "sqrt") return std::sqrt(factor());
    if (word == "cos") return std::cos(factor());
    if (word == "sin") return std::sin(factor());
    const auto it = std::find(names_.begin(), names_.end(), word);
    if (it == names_.end()) stop();
    return values_[static_cast<std::size_t>(it - names_.begin())];
  }

  bool take(char c) {
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  [[noreturn]] void stop() const {
    std::fprintf(stderr, "test expression \"%s\" cannot be read at %zu\n", text_.c_str(), at_);
    std::abort();
  }

  const std::string& text_;
  std::span<const std::string> names_;
  std::span<const double> values_;
  std::size_t at_ = 0;
};

}  // namespace

double evaluate(const std::string& text, std::span<const std::string> names, std::span<const double> values) {
  return Evaluator(text, names, values).whole();
}

}  // namespace sash::test
