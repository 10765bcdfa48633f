#include "workings/law.h"

#include <cmath>
#include <limits>
#include <utility>

#include "support/check.h"

namespace sash::workings {
namespace {

class Linear final : public Law {
 public:
  Linear(std::vector<double> coefficients, double constant)
      : coefficients_(std::move(coefficients)), constant_(constant) {}

  double residual(std::span<const double> x, std::span<double> slope) const override {
    double sum = constant_;
    for (std::size_t i = 0; i < coefficients_.size(); ++i) {
      sum += coefficients_[i] * x[i];
      slope[i] = coefficients_[i];
    }
    return sum;
  }

 private:
  std::vector<double> coefficients_;
  double constant_;
};

class Product final : public Law {
 public:
  Product(std::vector<double> exponents, double factor)
      : exponents_(std::move(exponents)), log_factor_(std::log(factor)) {}

  double residual(std::span<const double> x, std::span<double> slope) const override {
    double sum = log_factor_;
    for (std::size_t i = 0; i < exponents_.size(); ++i) {
      if (!(x[i] > 0)) return std::numeric_limits<double>::quiet_NaN();
      sum += exponents_[i] * std::log(x[i]);
      slope[i] = exponents_[i] / x[i];
    }
    return sum;
  }

 private:
  std::vector<double> exponents_;
  double log_factor_;
};

class Ratio final : public Law {
 public:
  explicit Ratio(double factor) : factor_(factor) {}

  double residual(std::span<const double> x, std::span<double> slope) const override {
    double product = factor_;
    for (std::size_t i = 1; i < x.size(); ++i) product *= x[i];
    slope[0] = 1;
    for (std::size_t i = 1; i < x.size(); ++i) {
      double others = factor_;
      for (std::size_t j = 1; j < x.size(); ++j) {
        if (j != i) others *= x[j];
      }
      slope[i] = -others;
    }
    return x[0] - product;
  }

 private:
  double factor_;
};

class General final : public Law {
 public:
  explicit General(Residual residual) : residual_(std::move(residual)) {}
  double residual(std::span<const double> x, std::span<double> slope) const override { return residual_(x, slope); }

 private:
  Residual residual_;
};

}  // namespace

LawPtr linear_law(std::vector<double> coefficients, double constant) {
  return std::make_shared<Linear>(std::move(coefficients), constant);
}

LawPtr product_law(std::vector<double> exponents, double factor) {
  promise(factor > 0, "the factor of a product law is positive");
  return std::make_shared<Product>(std::move(exponents), factor);
}

LawPtr ratio_law(double factor) { return std::make_shared<Ratio>(factor); }

LawPtr general_law(Residual residual) { return std::make_shared<General>(std::move(residual)); }

}  // namespace sash::workings
