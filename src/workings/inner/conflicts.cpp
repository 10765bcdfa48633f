#include "workings/inner/conflicts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "quantity/show.h"
#include "workings/inner/explain.h"

namespace sash::workings::inner {
namespace {

constexpr std::size_t shown_culprits = 4;
constexpr double rounding = 1e-12;  // of what was said

std::string percent(double probability) {
  if (probability < 1e-4) return "less than 0.01 %";
  return quantity::show_number(100 * probability, 2) + " %";
}

std::set<model::FigureId> figures_of(const Part& part, const Network& network) {
  std::set<model::FigureId> result;
  for (const VariableIndex v : part.variables) {
    if (network.quantities[v]->from == Quantity::From::figure) result.insert(network.quantities[v]->figure);
  }
  return result;
}

// A value that would settle the conflict and cannot be all the same: a yield over 100 %, less than nothing.
bool cannot_be(const Suspect::Value& v, const Network& network) {
  const Quantity& q = *network.quantities[v.variable];
  const double sure = 2 * v.spread;
  return (q.most && v.value - sure > *q.most) || (!can_be_negative(q.kind) && v.value + sure <= 0);
}

bool cannot_be(const Suspect& suspect, const Network& network) {
  return std::any_of(suspect.values.begin(), suspect.values.end(),
                     [&](const auto& v) { return cannot_be(v, network); });
}

Culprit culprit_of(const Suspect& suspect, bool tied, const Network& network, const FigureBook& book) {
  Culprit culprit;
  culprit.tied = tied;
  culprit.settles = suspect.settles;
  std::string who;
  for (const Suspect::Value& v : suspect.values) {
    const FigureValue& value = *book.find(network.quantities[v.variable]->figure);
    // What is nothing but rounding is nothing.
    const bool nothing = std::fabs(v.value) < rounding * std::fabs(value.si);
    culprit.should_be.push_back(computed_text(value, nothing ? 0 : v.value, v.spread));
    if (!who.empty()) who += " and ";
    who += value.name + " (given as " + in_sentence(value, said_text(value).text) + ") were " +
           in_sentence(value, culprit.should_be.back().text);
    if (cannot_be(v, network)) who += ", which cannot be";
  }
  culprit.sentence = "If " + who + (suspect.settles ? ", everything else would agree." : ", less would disagree.");
  return culprit;
}

// Of those that cannot be told apart, what is possible comes first; that there are several is said once.
std::vector<Culprit> culprits_of(Suspicion suspicion, const Network& network, const FigureBook& book) {
  const auto tied_end = suspicion.suspects.begin() + static_cast<std::ptrdiff_t>(suspicion.tied);
  // Rounding would decide otherwise.
  std::sort(suspicion.suspects.begin(), tied_end, [&](const Suspect& a, const Suspect& b) {
    return network.quantities[a.values.front().variable]->figure <
           network.quantities[b.values.front().variable]->figure;
  });
  std::stable_partition(suspicion.suspects.begin(), tied_end,
                        [&](const Suspect& suspect) { return !cannot_be(suspect, network); });
  std::vector<Culprit> result;
  for (std::size_t i = 0; i < suspicion.suspects.size() && (i < shown_culprits || i < suspicion.tied); ++i) {
    if (i >= suspicion.tied && !suspicion.suspects[i].settles) break;
    result.push_back(culprit_of(suspicion.suspects[i], suspicion.tied > 1 && i < suspicion.tied, network, book));
  }
  if (suspicion.tied > 1) {
    result.front().sentence += suspicion.tied == 2 ? " Another one would do as well" : " Others would do as well";
    result.front().sentence += ": the figures cannot tell which one is wrong.";
  }
  return result;
}

bool touches(const Finding& finding, const std::set<model::FigureId>& figures) {
  return std::any_of(finding.figures.begin(), finding.figures.end(), [&](auto id) { return figures.contains(id); });
}

Finding finding_of(const Part& part, const std::set<model::FigureId>& figures) {
  Finding finding;
  finding.verdict = Verdict::conflicts;
  finding.figures.assign(figures.begin(), figures.end());
  finding.sentence = "Together these " + std::to_string(figures.size()) +
                     " figures cannot all be true: figures as uncertain as these would be this far apart in " +
                     percent(part.test.probability) + " of cases (chi-square " +
                     quantity::show_number(part.test.statistic, 4) + " with " + std::to_string(part.test.freedom) +
                     (part.test.freedom == 1 ? " degree" : " degrees") + " of freedom).";
  return finding;
}

// More than there can be, though figures agree: slips that would bring it down.
std::vector<Explanation> slips_behind(const Finding& finding, const Drafted& d, const Judge& judge,
                                      const FigureBook& book) {
  const Network network = judge.network_behind(d, finding.computed ? finding.computed->figure : model::FigureId{});
  for (std::size_t i = 0; i < d.draft.quantities.size(); ++i) {
    const auto& most = d.draft.quantities[i].most;
    const VariableIndex v = network.variables[0][i];
    if (most && network.followed[v] && *network.followed[v] > *most) return slips_behind_yield(network, v, book);
  }
  return {};
}

// Conflicts within one relation that the larger network dilutes still have their own suspects; and the chemistry of a
// relation has explanations of its own.
void explain(Finding& finding, const Drafted& d, const std::vector<const Drafted*>& all, const FigureBook& book) {
  if (!finding.remark.empty()) {
    const auto slips = slips_behind(finding, d, Judge(all, book, {}), book);
    finding.explanations.insert(finding.explanations.end(), slips.begin(), slips.end());
  }
  if (finding.verdict == Verdict::conflicts && finding.culprits.empty()) {
    const Network own = network_of({&d.draft}, book);
    const auto result = reconcile(own.system);
    for (const Part& part : result ? result->parts : std::vector<Part>{}) {
      if (part.suspicion.suspects.empty()) continue;
      finding.culprits = culprits_of(part.suspicion, own, book);
      finding.explanations = slips(part.suspicion, own, book);
    }
  }
  const auto chemistry = readings_of_chemistry(finding, d, all, book);
  finding.explanations.insert(finding.explanations.end(), chemistry.begin(), chemistry.end());
  put_in_order(finding.explanations);
}

}  // namespace

void explain_conflicts(std::vector<Finding>& findings, const std::vector<Drafted>& drafted, const FigureBook& book,
                       const Network& network, const Reconciliation& reconciliation) {
  std::vector<Finding> more;
  for (const Part& part : reconciliation.parts) {
    if (part.suspicion.suspects.empty()) continue;
    const auto figures = figures_of(part, network);
    const auto culprits = culprits_of(part.suspicion, network, book);
    const auto explanations = slips(part.suspicion, network, book);
    bool said = false;
    for (Finding& finding : findings) {
      if (finding.verdict != Verdict::conflicts || !touches(finding, figures)) continue;
      finding.culprits = culprits;
      finding.explanations = explanations;
      said = true;
    }
    if (said) continue;
    more.push_back(finding_of(part, figures));
    more.back().culprits = culprits;
    more.back().explanations = explanations;
  }
  std::vector<const Drafted*> all;
  for (const Drafted& d : drafted) all.push_back(&d);
  for (const Drafted& d : drafted) {
    for (Finding& finding : findings) {
      if (finding.relation != d.relation->id) continue;
      if (finding.verdict == Verdict::conflicts || !finding.remark.empty()) explain(finding, d, all, book);
    }
  }
  for (Finding& finding : more) put_in_order(finding.explanations);
  findings.insert(findings.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace sash::workings::inner
