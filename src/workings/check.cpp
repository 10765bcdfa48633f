#include "workings/check.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "quantity/show.h"
#include "workings/inner/bending.h"
#include "workings/inner/conflicts.h"
#include "workings/inner/judge.h"
#include "workings/relations/kind.h"

namespace sash::workings {
namespace {

using inner::Drafted;
using inner::FigureValue;

class Checking {
 public:
  explicit Checking(const model::Record& record) : book_(record) {
    std::vector<const model::Relation*> relations;
    for (const model::Relation& r : record.relations) {
      if (r.origin.standing == model::Standing::confirmed) relations.push_back(&r);
    }
    std::sort(relations.begin(), relations.end(), [](const auto* a, const auto* b) { return a->id < b->id; });
    for (const model::Relation* r : relations) {
      Drafted d{r, draft_of(*r, book_)};
      const auto obstacles = inner::obstacles(d.draft, book_);
      d.draft.missing.insert(d.draft.missing.end(), obstacles.begin(), obstacles.end());
      drafted_.push_back(std::move(d));
    }
  }

  Report run() {
    list_constants();
    std::vector<const Drafted*> all;
    for (const Drafted& d : drafted_) all.push_back(&d);
    const inner::Judge judge(all, book_, constants_);
    for (const Drafted& d : drafted_) report_.findings.push_back(judge.finding_of(d));
    reconcile_all();
    std::stable_sort(report_.findings.begin(), report_.findings.end(),
                     [](const Finding& a, const Finding& b) { return rank_of(a) < rank_of(b); });
    return std::move(report_);
  }

 private:
  // Worst first: a conflict, then what cannot be so, then the verdicts in their order.
  static int rank_of(const Finding& f) {
    const int verdict = static_cast<int>(f.verdict);
    return f.verdict == Verdict::conflicts || f.remark.empty() ? 10 * verdict : 1;
  }

  void list_constants() {
    for (const Drafted& d : drafted_) {
      if (!d.usable()) continue;
      for (const Quantity& q : d.draft.quantities) {
        if (q.from != Quantity::From::constant || constants_.contains(q.key)) continue;
        constants_.emplace(q.key, report_.constants.size());
        const double number = q.unit.from_si(q.value);
        report_.constants.push_back({q.name, quantity::show_with_unit(number, q.unit.symbol()), q.source});
      }
    }
  }

  void reconcile_all() {
    std::vector<const Draft*> drafts;
    for (const Drafted& d : drafted_) {
      if (d.usable()) drafts.push_back(&d.draft);
    }
    const inner::Network network = inner::network_of(drafts, book_);
    const auto result = reconcile(network.system);
    if (!result) return;  // every figure's own trouble is said where it stands
    report_.test = result->test;
    std::vector<int> freedom(network.quantities.size(), 0);
    for (const Part& part : result->parts) {
      for (const VariableIndex v : part.variables) freedom[v] = part.test.freedom;
    }
    for (const auto& [id, variable] : network.figures) {
      report_.figures.push_back(state_of(id, variable, network, *result, freedom[variable] == 0));
    }
    inner::explain_conflicts(report_.findings, drafted_, book_, network, *result);
    blame();
  }

  void blame() {
    std::map<model::FigureId, Blame> blamed;
    const auto put = [&](model::FigureId id, Blame blame) { blamed[id] = std::max(blamed[id], blame); };
    for (const Finding& finding : report_.findings) {
      if (finding.verdict != Verdict::conflicts) continue;
      const Blame others = finding.culprits.empty() ? Blame::culprit : Blame::involved;
      for (const model::FigureId id : finding.figures) put(id, others);
      for (const Culprit& culprit : finding.culprits) {
        if (&culprit != &finding.culprits.front() && !culprit.tied) break;
        for (const Reckoned& r : culprit.should_be) put(r.figure, Blame::culprit);
      }
    }
    for (FigureState& state : report_.figures) {
      const auto it = blamed.find(state.figure);
      if (it != blamed.end()) state.blame = it->second;
    }
  }

  FigureState state_of(model::FigureId id, VariableIndex variable, const inner::Network& network,
                       const Reconciliation& result, bool alone) const {
    Estimate e = result.estimates[variable];
    FigureValue value = *book_.find(id);
    if (!value.stated) value.unit = network.quantities[variable]->unit;
    FigureState state;
    state.figure = id;
    if (value.stated) state.said = inner::said_text(value);
    state.doubt = value.doubt;
    state.standing = e.standing;
    // Where nothing but the one chain of steps gives it, the draws are as good as the reconciliation, and bend as it
    // does.
    if (e.standing == Standing::determined && alone) {
      if (const auto drawn = inner::drawn_instead(network, result.estimates, variable, book_)) {
        state.drawn = inner::told(*drawn, e, value);
        e.value = drawn->value;
        e.spread = drawn->spread;
      }
    }
    state.freedom = e.freedom;
    if (e.standing != Standing::undetermined) {
      state.reconciled = inner::computed_text(value, e.value, e.spread, e.freedom);
    }
    state.standardised = e.standardised;
    if (e.noticeable) state.noticeable = value.spread_from_si(*e.noticeable, e.value);
    return state;
  }

  inner::FigureBook book_;
  std::vector<Drafted> drafted_;
  inner::ConstantIndex constants_;
  Report report_;
};

}  // namespace

std::string_view name_of(Blame blame) {
  constexpr std::array<std::string_view, 3> names{"none", "involved", "culprit"};
  return names.at(static_cast<std::size_t>(blame));
}

const FigureState* Report::find(model::FigureId figure) const {
  const auto it = std::lower_bound(figures.begin(), figures.end(), figure,
                                   [](const FigureState& s, model::FigureId id) { return s.figure < id; });
  return it != figures.end() && it->figure == figure ? &*it : nullptr;
}

const Finding* Report::find(model::RelationId relation) const {
  const auto it =
      std::find_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.relation == relation; });
  return it != findings.end() ? &*it : nullptr;
}

std::size_t Report::count(Verdict verdict) const {
  return static_cast<std::size_t>(
      std::count_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.verdict == verdict; }));
}

std::size_t Report::remarks() const {
  return static_cast<std::size_t>(
      std::count_if(findings.begin(), findings.end(), [](const Finding& f) { return !f.remark.empty(); }));
}

Report check(const model::Record& record) { return Checking(record).run(); }

}  // namespace sash::workings
