#include "workings/inner/conflicts.h"

#include <algorithm>
#include <set>

#include "quantity/show.h"

namespace sash::workings::inner {
namespace {

constexpr std::size_t shown_culprits = 4;

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

Culprit culprit_of(const Suspect& suspect, bool tied, const Network& network, const FigureBook& book) {
  Culprit culprit;
  culprit.tied = tied;
  culprit.settles = suspect.settles;
  std::string who;
  for (const Suspect::Value& v : suspect.values) {
    const FigureValue& value = *book.find(network.quantities[v.variable]->figure);
    culprit.should_be.push_back(computed_text(value, v.value, v.spread));
    if (!who.empty()) who += " and ";
    who += value.name + " (given as " + said_text(value).text + ") were " + culprit.should_be.back().text;
  }
  culprit.sentence = "If " + who + (suspect.settles ? ", everything else would agree." : ", less would disagree.");
  if (tied) culprit.sentence += " Others would do as well: the figures cannot tell them apart.";
  return culprit;
}

std::vector<Culprit> culprits_of(const Suspicion& suspicion, const Network& network, const FigureBook& book) {
  std::vector<Culprit> result;
  for (std::size_t i = 0; i < suspicion.suspects.size() && (i < shown_culprits || i < suspicion.tied); ++i) {
    if (i >= suspicion.tied && !suspicion.suspects[i].settles) break;
    result.push_back(culprit_of(suspicion.suspects[i], suspicion.tied > 1 && i < suspicion.tied, network, book));
  }
  return result;
}

bool touches(const Finding& finding, const std::set<model::FigureId>& figures) {
  return std::any_of(finding.figures.begin(), finding.figures.end(), [&](auto id) { return figures.contains(id); });
}

Finding finding_of(const Part& part, const Network& network, const std::set<model::FigureId>& figures) {
  Finding finding;
  finding.verdict = Verdict::conflicts;
  finding.figures.assign(figures.begin(), figures.end());
  std::set<std::string> names;
  for (const ConstraintIndex c : part.constraints) names.insert(network.system.constraints()[c].name);
  finding.sentence = "Together these " + std::to_string(figures.size()) +
                     " figures cannot all be true: figures as uncertain as these would be this far apart in " +
                     percent(part.test.probability) + " of cases (chi-square " +
                     quantity::show_number(part.test.statistic, 4) + " with " + std::to_string(part.test.freedom) +
                     (part.test.freedom == 1 ? " degree" : " degrees") + " of freedom).";
  return finding;
}

// Conflicts within one relation that the larger network dilutes still have their own suspects.
Suspicion suspects_of_relation(const Finding& finding, const std::vector<Drafted>& drafted, const FigureBook& book,
                               Network& network) {
  for (const Drafted& d : drafted) {
    if (d.relation->id != finding.relation) continue;
    network = network_of({&d.draft}, book);
    const auto result = reconcile(network.system);
    if (!result) return {};
    for (const Part& part : result->parts) {
      if (!part.suspicion.suspects.empty()) return part.suspicion;
    }
  }
  return {};
}

}  // namespace

void explain_conflicts(std::vector<Finding>& findings, const std::vector<Drafted>& drafted, const FigureBook& book,
                       const Network& network, const Reconciliation& reconciliation) {
  std::vector<Finding> more;
  for (const Part& part : reconciliation.parts) {
    if (part.suspicion.suspects.empty()) continue;
    const auto figures = figures_of(part, network);
    const auto culprits = culprits_of(part.suspicion, network, book);
    bool said = false;
    for (Finding& finding : findings) {
      if (finding.verdict != Verdict::conflicts || !touches(finding, figures)) continue;
      finding.culprits = culprits;
      said = true;
    }
    if (said) continue;
    more.push_back(finding_of(part, network, figures));
    more.back().culprits = culprits;
  }
  for (Finding& finding : findings) {
    if (finding.verdict != Verdict::conflicts || !finding.culprits.empty()) continue;
    Network own;
    const Suspicion suspicion = suspects_of_relation(finding, drafted, book, own);
    finding.culprits = culprits_of(suspicion, own, book);
  }
  findings.insert(findings.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace sash::workings::inner
