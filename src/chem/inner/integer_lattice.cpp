#include "chem/inner/integer_lattice.h"

#include <algorithm>
#include <bitset>

#include "support/check.h"

namespace sash::chem::inner {
namespace {

constexpr std::size_t most_rays = 512;
constexpr std::size_t most_columns = 128;

bool any_lost(const std::vector<Fraction>& row) {
  return std::ranges::any_of(row, [](const Fraction& f) { return f.lost(); });
}

// Divides by the greatest common divisor; the first non-zero entry keeps its sign.
void shrink(IntegerVector& v) {
  WideInteger shared = 0;
  for (const WideInteger n : v) shared = common_divisor(shared, n);
  if (shared > 1) {
    for (WideInteger& n : v) n /= shared;
  }
}

std::optional<IntegerVector> whole(const std::vector<Fraction>& v) {
  WideInteger multiple = 1;
  for (const Fraction& f : v) {
    const auto next = common_multiple(multiple, f.bottom());
    if (!next) return std::nullopt;
    multiple = *next;
  }
  IntegerVector out;
  for (const Fraction& f : v) {
    const Fraction scaled = f * Fraction::ratio(multiple, 1);
    if (scaled.lost()) return std::nullopt;
    out.push_back(scaled.top());
  }
  shrink(out);
  const auto first = std::ranges::find_if(out, [](WideInteger n) { return n != 0; });
  if (first != out.end() && *first < 0) {
    for (WideInteger& n : out) n = -n;
  }
  return out;
}

// Brings the matrix to reduced row echelon form and returns the pivot column of each remaining row.
std::optional<std::vector<std::size_t>> reduce(Matrix& matrix, std::size_t columns) {
  std::vector<std::size_t> pivots;
  for (std::size_t column = 0; column < columns && pivots.size() < matrix.size(); ++column) {
    const std::size_t top = pivots.size();
    std::size_t pivot = top;
    while (pivot < matrix.size() && matrix[pivot][column].zero()) ++pivot;
    if (pivot == matrix.size()) continue;
    std::swap(matrix[top], matrix[pivot]);
    const Fraction lead = matrix[top][column];
    for (Fraction& f : matrix[top]) f = f / lead;
    for (std::size_t row = 0; row < matrix.size(); ++row) {
      if (row == top || matrix[row][column].zero()) continue;
      const Fraction times = matrix[row][column];
      for (std::size_t c = 0; c < columns; ++c) {
        if (!matrix[top][c].zero()) matrix[row][c] = matrix[row][c] - times * matrix[top][c];
      }
      if (any_lost(matrix[row])) return std::nullopt;
    }
    pivots.push_back(column);
  }
  return pivots;
}

std::optional<WideInteger> product(const std::vector<WideInteger>& row, const IntegerVector& x) {
  WideInteger sum = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    WideInteger term = 0;
    if (__builtin_mul_overflow(row[i], x[i], &term) || __builtin_add_overflow(sum, term, &sum)) return std::nullopt;
  }
  return sum;
}

struct Ray {
  IntegerVector x;
  std::bitset<most_columns> support;
  WideInteger on_row = 0;  // product with the row in hand
};

std::bitset<most_columns> support_of(const IntegerVector& x) {
  std::bitset<most_columns> support;
  for (std::size_t i = 0; i < x.size(); ++i) support.set(i, x[i] != 0);
  return support;
}

// The combination of a ray on each side of the row's plane that lies in it.
std::optional<Ray> combine(const Ray& above, const Ray& below) {
  Ray made;
  made.x.reserve(above.x.size());
  for (std::size_t i = 0; i < above.x.size(); ++i) {
    WideInteger a = 0;
    WideInteger b = 0;
    WideInteger sum = 0;
    if (__builtin_mul_overflow(above.x[i], -below.on_row, &a) || __builtin_mul_overflow(below.x[i], above.on_row, &b) ||
        __builtin_add_overflow(a, b, &sum)) {
      return std::nullopt;
    }
    made.x.push_back(sum);
  }
  shrink(made.x);
  made.support = support_of(made.x);
  return made;
}

}  // namespace

std::optional<std::vector<IntegerVector>> null_space(Matrix matrix, std::size_t columns) {
  const auto pivots = reduce(matrix, columns);
  if (!pivots) return std::nullopt;
  std::vector<IntegerVector> basis;
  for (std::size_t column = 0; column < columns; ++column) {
    if (std::ranges::find(*pivots, column) != pivots->end()) continue;
    std::vector<Fraction> v(columns, Fraction(0));
    v[column] = 1;
    for (std::size_t row = 0; row < pivots->size(); ++row) v[(*pivots)[row]] = -matrix[row][column];
    auto integers = whole(v);
    if (!integers) return std::nullopt;
    basis.push_back(*std::move(integers));
  }
  return basis;
}

std::optional<std::vector<IntegerVector>> positive_rays(const Matrix& matrix, std::size_t columns) {
  promise(columns <= most_columns, "an equation has at most 128 species");
  std::vector<Ray> rays;
  for (std::size_t i = 0; i < columns; ++i) {
    Ray ray;
    ray.x.assign(columns, 0);
    ray.x[i] = 1;
    ray.support.set(i);
    rays.push_back(std::move(ray));
  }
  for (const std::vector<Fraction>& fractions : matrix) {
    const auto row = whole(fractions);
    if (!row) return std::nullopt;
    std::vector<Ray> next;
    for (Ray& ray : rays) {
      const auto value = product(*row, ray.x);
      if (!value) return std::nullopt;
      ray.on_row = *value;
      if (ray.on_row == 0) next.push_back(ray);
    }
    for (const Ray& above : rays) {
      if (above.on_row <= 0) continue;
      for (const Ray& below : rays) {
        if (below.on_row >= 0) continue;
        const auto both = above.support | below.support;
        const bool neighbours = std::ranges::none_of(rays, [&](const Ray& other) {
          return &other != &above && &other != &below && (other.support & ~both).none();
        });
        if (!neighbours) continue;
        auto made = combine(above, below);
        if (!made || next.size() >= most_rays) return std::nullopt;
        next.push_back(*std::move(made));
      }
    }
    rays = std::move(next);
  }
  std::vector<IntegerVector> out;
  for (Ray& ray : rays) out.push_back(std::move(ray.x));
  return out;
}

std::optional<std::vector<IntegerVector>> independent_among(std::vector<IntegerVector> vectors) {
  std::ranges::stable_sort(vectors, {}, [](const IntegerVector& v) {
    return std::ranges::count_if(v, [](WideInteger n) { return n != 0; });
  });
  std::vector<IntegerVector> kept;
  Matrix rows;
  for (IntegerVector& v : vectors) {
    Matrix trial = rows;
    std::vector<Fraction> row;
    for (const WideInteger n : v) row.push_back(Fraction::ratio(n, 1));
    trial.push_back(std::move(row));
    const auto pivots = reduce(trial, v.size());
    if (!pivots) return std::nullopt;
    if (pivots->size() == kept.size()) continue;
    rows = std::move(trial);
    kept.push_back(std::move(v));
  }
  return kept;
}

}  // namespace sash::chem::inner
