#pragma once
// The numbers behind an equilibrium: amounts of dissolved species and of solids that satisfy mass action and totals.
//
// With every concentration written as c = exp(ln beta + nu x), x the logarithms of the components' concentrations, the
// mass balances are the gradient of the convex function F(x) = sum of c - totals times x, and a solid of solubility
// product K asks for s x <= ln K. The amounts of solids are the multipliers of that convex programme, so the answer is
// unique and a solid is there exactly when it must be. Solved by an active set of solids around damped Newton steps in
// what the present solids leave free; every concentration is positive by construction.
// Pure; knows no chemistry. Source: the method is the dual of Gibbs energy minimisation, e.g. Smith and Missen,
// Chemical Reaction Equilibrium Analysis (1982).

#include <Eigen/Dense>
#include <optional>
#include <vector>

namespace sash::chem::inner {

struct ConvexEquilibrium {
  Eigen::MatrixXd species;        ///< a row for each species: how much of each component it holds
  Eigen::VectorXd ln_beta;        ///< of each species
  Eigen::VectorXd totals;         ///< of each component
  Eigen::MatrixXd solids;         ///< a row for each solid that may form
  Eigen::VectorXd ln_solubility;  ///< s x at saturation
  std::vector<std::optional<double>>
      fixed;  ///< ln concentration of components held constant; their totals are not used
};

struct ConvexAnswer {
  Eigen::VectorXd x;       ///< ln concentrations of the components
  Eigen::VectorXd solids;  ///< amounts, 0 for those that do not form
  int steps = 0;
  bool settled = false;
};

/// Requires: every component is in a species with a positive coefficient, or fixed. `start` may be empty.
ConvexAnswer solve(const ConvexEquilibrium& problem, const Eigen::VectorXd& start);

}  // namespace sash::chem::inner
