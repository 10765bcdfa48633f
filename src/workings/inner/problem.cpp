#include "workings/inner/problem.h"

#include <numeric>
#include <optional>

namespace sash::workings::inner {
namespace {

class Groups {
 public:
  explicit Groups(std::size_t n) : leader_(n) { std::iota(leader_.begin(), leader_.end(), std::size_t{0}); }
  std::size_t of(std::size_t i) {
    while (leader_[i] != i) i = leader_[i] = leader_[leader_[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) {
    a = of(a);
    b = of(b);
    leader_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::size_t> leader_;
};

bool is_constant(const Variable& v) { return v.status == Variable::Status::constant; }

// The first variable of the constraint that can move.
std::optional<VariableIndex> anchor(const System& system, const Constraint& c) {
  for (const VariableIndex v : c.variables) {
    if (!is_constant(system.variables()[v])) return v;
  }
  return std::nullopt;
}

// Fills pieces, giving each variable its number in the piece at hand.
class Splitter {
 public:
  explicit Splitter(const System& system) : system_(system), groups_(system.variables().size()) {
    for (const Constraint& c : system.constraints()) {
      const auto first = anchor(system, c);
      for (const VariableIndex v : c.variables) {
        if (first && !is_constant(system.variables()[v])) groups_.join(*first, v);
      }
    }
    for (const Correlation& c : system.correlations()) groups_.join(c.a, c.b);
  }

  std::vector<Problem> run() {
    const std::size_t n = system_.variables().size();
    std::vector<std::size_t> piece_of(n, n);
    local_.assign(n, -1);
    for (VariableIndex v = 0; v < n; ++v) {
      if (is_constant(system_.variables()[v])) continue;
      const std::size_t leader = groups_.of(v);
      if (piece_of[leader] == n) {
        piece_of[leader] = pieces_.size();
        pieces_.emplace_back();
      }
      local_[v] = take(pieces_[piece_of[leader]], v);
    }
    std::vector<std::vector<ConstraintIndex>> constraints(pieces_.size());
    std::vector<ConstraintIndex> on_constants;
    for (ConstraintIndex c = 0; c < system_.constraints().size(); ++c) {
      const auto first = anchor(system_, system_.constraints()[c]);
      (first ? constraints[piece_of[groups_.of(*first)]] : on_constants).push_back(c);
    }
    for (std::size_t p = 0; p < constraints.size(); ++p) fill(pieces_[p], constraints[p]);
    for (const ConstraintIndex c : on_constants) fill(pieces_.emplace_back(), {c});
    for (const Correlation& c : system_.correlations()) {
      if (local_[c.a] < 0 || local_[c.b] < 0) continue;  // a constant is correlated with nothing
      pieces_[piece_of[groups_.of(c.a)]].ties.push_back({local_[c.a], local_[c.b], c.coefficient});
    }
    return std::move(pieces_);
  }

 private:
  int take(Problem& piece, VariableIndex v) {
    const Variable& from = system_.variables()[v];
    piece.nodes.push_back(
        {from.status, from.scale, from.value, from.spread, from.has_start, from.positive, from.suspect, from.freedom});
    piece.variables.push_back(v);
    piece.few_readings = piece.few_readings || from.freedom.has_value();
    return static_cast<int>(piece.nodes.size()) - 1;
  }

  void fill(Problem& piece, const std::vector<ConstraintIndex>& constraints) {
    std::vector<VariableIndex> borrowed;  // constants, numbered for this piece only
    for (const ConstraintIndex c : constraints) {
      const Constraint& from = system_.constraints()[c];
      Equation& to = piece.equations.emplace_back(Equation{{}, from.law.get()});
      for (const VariableIndex v : from.variables) {
        if (local_[v] < 0) {
          local_[v] = take(piece, v);
          borrowed.push_back(v);
        }
        to.members.push_back(local_[v]);
      }
      piece.constraints.push_back(c);
    }
    for (const VariableIndex v : borrowed) local_[v] = -1;
  }

  const System& system_;
  Groups groups_;
  std::vector<int> local_;
  std::vector<Problem> pieces_;
};

}  // namespace

std::vector<Problem> split(const System& system) { return Splitter(system).run(); }

}  // namespace sash::workings::inner
