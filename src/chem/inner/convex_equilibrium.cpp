#include "chem/inner/convex_equilibrium.h"

#include <algorithm>
#include <cmath>

namespace sash::chem::inner {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int most_steps = 400;          // Newton steps for one set of solids
constexpr int most_sets = 100;           // changes of the set of solids
constexpr double longest_step = 5;       // in any ln concentration: a factor of 150
constexpr int most_polish = 4;           // steps taken once the balances hold
constexpr double least_step = 1e-12;     // in ln concentration
constexpr double relative_gap = 1e-11;   // of a mass balance, against what is added up in it
constexpr double saturation_gap = 1e-9;  // in s x

class Solver {
 public:
  Solver(const ConvexEquilibrium& problem, VectorXd start) : p_(problem), x_(std::move(start)) {
    amounts_ = VectorXd::Zero(p_.solids.rows());
    if (x_.size() == 0) x_ = guess();
  }

  ConvexAnswer run() {
    ConvexAnswer answer;
    for (int set = 0; set < most_sets; ++set) {
      if (!minimise(answer.steps)) break;
      if (drop_negative()) continue;
      if (!add_supersaturated()) {
        answer.settled = true;
        break;
      }
    }
    answer.x = x_;
    answer.solids = amounts_;
    return answer;
  }

 private:
  VectorXd guess() const {
    VectorXd x(p_.totals.size());
    for (Index i = 0; i < x.size(); ++i) {
      // A tenth of a positive total; neutral water where the total says nothing (that of H+ may be negative).
      x(i) = p_.totals(i) > 0 ? std::log(p_.totals(i)) - 2 : std::log(1e-7);
    }
    return x;
  }

  VectorXd concentrations(const VectorXd& x) const {
    constexpr double largest = 200;  // exp stays finite while a wild step is being shortened
    return (p_.ln_beta + p_.species * x).cwiseMin(largest).array().exp();
  }
  double value(const VectorXd& x) const { return concentrations(x).sum() - p_.totals.dot(x); }

  /// What holds exactly: fixed components first, then the present solids.
  void constraints(MatrixXd& rows, VectorXd& right) const {
    const auto fixed = std::count_if(p_.fixed.begin(), p_.fixed.end(), [](const auto& f) { return f.has_value(); });
    rows = MatrixXd::Zero(fixed + static_cast<Index>(present_.size()), x_.size());
    right = VectorXd::Zero(rows.rows());
    Index r = 0;
    for (std::size_t i = 0; i < p_.fixed.size(); ++i) {
      if (!p_.fixed[i]) continue;
      rows(r, static_cast<Index>(i)) = 1;
      right(r++) = *p_.fixed[i];
    }
    for (const Index s : present_) {
      rows.row(r) = p_.solids.row(s);
      right(r++) = p_.ln_solubility(s);
    }
  }

  /// Newton within the constraints. Leaves x_ and the amounts of the present solids; false when it does not settle.
  bool minimise(int& steps) {
    MatrixXd rows;
    VectorXd right;
    constraints(rows, right);
    MatrixXd free = MatrixXd::Identity(x_.size(), x_.size());
    if (rows.rows() > 0) {
      const auto exact = rows.completeOrthogonalDecomposition();
      x_ += exact.solve(right - rows * x_);
      const Eigen::FullPivLU<MatrixXd> lu(rows);
      free = lu.kernel();
      if (lu.dimensionOfKernel() == 0) free.resize(x_.size(), 0);
    }
    bool settled = false;
    polished_ = 0;
    for (int i = 0; i < most_steps && !settled; ++i, ++steps) settled = step(free);
    find_amounts(rows);
    return settled;
  }

  /// One damped Newton step; true when the mass balances already hold.
  bool step(const MatrixXd& free) {
    if (free.cols() == 0) return true;
    const VectorXd c = concentrations(x_);
    const VectorXd gradient = free.transpose() * (p_.species.transpose() * c - p_.totals);
    const VectorXd added = free.cwiseAbs().transpose() * (p_.species.cwiseAbs().transpose() * c);
    const VectorXd given = free.cwiseAbs().transpose() * p_.totals.cwiseAbs();
    constexpr double rounding = 4e-16;
    const bool balanced = (gradient.cwiseAbs().array() <= (relative_gap * added + rounding * given).array()).all();
    // Traces hide behind what is plentiful in one balance: go on while the steps still say something.
    if (balanced && ++polished_ > most_polish) return true;

    const MatrixXd held = p_.species * free;
    MatrixXd hessian = held.transpose() * c.asDiagonal() * held;
    const VectorXd scale = hessian.diagonal().cwiseMax(1e-300).cwiseSqrt().cwiseInverse();
    hessian = scale.asDiagonal() * hessian * scale.asDiagonal();
    constexpr double ridge = 1e-14;
    hessian.diagonal().array() += ridge;
    VectorXd move = free * (scale.asDiagonal() * hessian.ldlt().solve(VectorXd(-(scale.asDiagonal() * gradient))));
    const double longest = move.cwiseAbs().maxCoeff();
    if (!std::isfinite(longest)) return false;
    if (balanced && longest < least_step) return true;
    if (longest > longest_step) move *= longest_step / longest;

    const double before = value(x_);
    const double noise = 1e-14 * (std::abs(before) + p_.totals.cwiseAbs().dot(x_.cwiseAbs()));
    double part = 1;
    constexpr double shortest = 1e-6;
    while (part > shortest && !(value(x_ + part * move) <= before + noise)) part /= 2;
    x_ += part * move;
    return false;
  }

  /// The multipliers: what of the totals is not dissolved, shared among the present solids.
  void find_amounts(const MatrixXd& rows) {
    amounts_.setZero();
    if (rows.rows() == 0) return;
    const VectorXd left = p_.totals - p_.species.transpose() * concentrations(x_);
    const VectorXd shares = rows.transpose().completeOrthogonalDecomposition().solve(left);
    const Index first = rows.rows() - static_cast<Index>(present_.size());
    for (std::size_t i = 0; i < present_.size(); ++i) amounts_(present_[i]) = shares(first + static_cast<Index>(i));
  }

  bool drop_negative() {
    if (present_.empty()) return false;
    const auto least =
        std::min_element(present_.begin(), present_.end(), [&](Index a, Index b) { return amounts_(a) < amounts_(b); });
    if (amounts_(*least) > 0) return false;
    amounts_(*least) = 0;
    present_.erase(least);
    return true;
  }

  /// Adds the most supersaturated solid; false when there is none.
  bool add_supersaturated() {
    if (p_.solids.rows() == 0) return false;
    const VectorXd over = p_.solids * x_ - p_.ln_solubility;
    Index most = -1;
    for (Index s = 0; s < over.size(); ++s) {
      if (std::find(present_.begin(), present_.end(), s) != present_.end() || over(s) <= saturation_gap) continue;
      if (most < 0 || over(s) > over(most)) most = s;
    }
    if (most < 0) return false;
    make_room_for(most);
    present_.push_back(most);
    return true;
  }

  /// When the solid is made of the present ones (another form of one of them), the one that is used up first goes.
  void make_room_for(Index solid) {
    MatrixXd rows;
    VectorXd right;
    constraints(rows, right);
    if (rows.rows() == 0) return;
    const VectorXd wanted = p_.solids.row(solid).transpose();
    const VectorXd parts = rows.transpose().completeOrthogonalDecomposition().solve(wanted);
    if ((rows.transpose() * parts - wanted).cwiseAbs().maxCoeff() > 1e-9) return;
    const Index first = rows.rows() - static_cast<Index>(present_.size());
    std::size_t out = present_.size();
    double soonest = 0;
    for (std::size_t i = 0; i < present_.size(); ++i) {
      const double part = parts(first + static_cast<Index>(i));
      if (part <= 1e-12) continue;
      const double lasts = amounts_(present_[i]) / part;
      if (out == present_.size() || lasts < soonest) {
        out = i;
        soonest = lasts;
      }
    }
    if (out < present_.size()) present_.erase(present_.begin() + static_cast<std::ptrdiff_t>(out));
  }

  const ConvexEquilibrium& p_;
  VectorXd x_;
  VectorXd amounts_;
  int polished_ = 0;
  std::vector<Index> present_;
};

}  // namespace

ConvexAnswer solve(const ConvexEquilibrium& problem, const Eigen::VectorXd& start) {
  return Solver(problem, start).run();
}

}  // namespace sash::chem::inner
