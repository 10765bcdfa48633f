#pragma once
// Judge: the finding of one relation, from its own figures and from what other relations give for those nobody stated.

#include <map>
#include <vector>

#include "workings/finding.h"
#include "workings/inner/written.h"

namespace sash::workings::inner {

/// A relation as mathematics, ready to compute unless something is missing.
struct Drafted {
  const model::Relation* relation = nullptr;
  Draft draft;
  bool usable() const { return draft.missing.empty(); }
};

struct Attempt;

class Judge {
 public:
  /// Borrows all three.
  Judge(const std::vector<const Drafted*>& drafted, const FigureBook& book, const ConstantIndex& constants);

  /// Without culprits and explanations: those take the whole network.
  Finding finding_of(const Drafted& drafted) const;

  /// The relation with what other relations give for figures nobody stated, `freed` taken as unknown.
  Network network_behind(const Drafted& drafted, model::FigureId freed) const;

 private:
  std::vector<std::size_t> candidates(const Drafted& d) const;
  std::vector<const Draft*> cluster(const Drafted& d, model::FigureId focus, bool both_ways = false) const;
  std::optional<Attempt> attempt(const Drafted& d, std::size_t quantity, bool both_ways = false) const;
  std::optional<std::size_t> odd_one_out(const Drafted& d) const;
  bool gives(const Drafted& d, model::FigureId figure) const;
  void settle(Finding& finding, const Drafted& d, const Attempt& attempt) const;
  void compare(Finding& finding, const FigureValue& value, const Estimate& e) const;
  void note_few_readings(Finding& finding, double freedom) const;
  void note_close_call(Finding& finding, const Drafted& d, const Attempt& attempt) const;
  void tell_besides(Finding& finding, const Drafted& d, const Attempt& attempt) const;
  void tell_other_figures(Finding& finding, const Drafted& d, const Attempt& attempt,
                          std::vector<VariableIndex>& written) const;
  void bound(Finding& finding, const Estimate& e, const Quantity& q, const FigureValue& value) const;
  void bound_the_rest(Finding& finding, const Drafted& d, const Attempt& attempt) const;
  std::optional<Attempt> follow_on(const Drafted& d) const;
  void ask(Finding& finding, const Drafted& d) const;

  const FigureBook& book_;
  const ConstantIndex& constants_;
  std::map<model::FigureId, std::vector<const Drafted*>> users_;  // usable relations in which a figure stands
};

}  // namespace sash::workings::inner
