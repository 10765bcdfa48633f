#include "workings/inner/judge.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <set>
#include <utility>

#include "workings/inner/attempt.h"

namespace sash::workings::inner {
namespace {

constexpr std::size_t largest_cluster = 64;  // relations looked through for figures nobody stated

const FigureValue* stated(const FigureBook& book, const Quantity& q) {
  if (q.from != Quantity::From::figure) return nullptr;
  const FigureValue* value = book.find(q.figure);
  return value != nullptr && value->stated ? value : nullptr;
}

bool worked_out_by_somebody(const FigureValue& value) {
  return value.figure->source == model::Source::worked_out || value.figure->role == model::Role::stated_result;
}

}  // namespace

Judge::Judge(const std::vector<const Drafted*>& drafted, const FigureBook& book, const ConstantIndex& constants)
    : book_(book), constants_(constants) {
  for (const Drafted* d : drafted) {
    if (!d->usable()) continue;
    for (const Quantity& q : d->draft.quantities) {
      if (q.from == Quantity::From::figure) users_[q.figure].push_back(d);
    }
  }
}

// Figures that could be computed from the others: first what somebody worked out, then what the relation naturally
// gives, then the rest.
std::vector<std::size_t> Judge::candidates(const Drafted& d) const {
  std::vector<std::size_t> result = d.draft.aims;
  for (std::size_t i = 0; i < d.draft.quantities.size(); ++i) {
    const bool is_figure = d.draft.quantities[i].from == Quantity::From::figure;
    if (is_figure && std::find(result.begin(), result.end(), i) == result.end()) result.push_back(i);
  }
  std::stable_partition(result.begin(), result.end(), [&](std::size_t i) {
    const FigureValue* value = stated(book_, d.draft.quantities[i]);
    return value != nullptr && worked_out_by_somebody(*value);
  });
  return result;
}

bool Judge::gives(const Drafted& d, model::FigureId figure) const {
  return std::any_of(d.draft.aims.begin(), d.draft.aims.end(), [&](std::size_t i) {
    const Quantity& q = d.draft.quantities[i];
    return q.from == Quantity::From::figure && q.figure == figure;
  });
}

// The relation with those that give the figures nobody stated; not those that give the focus itself. Both ways: with
// all relations in which such figures stand, for what follows only from several of them at once.
std::vector<const Draft*> Judge::cluster(const Drafted& d, model::FigureId focus, bool both_ways) const {
  std::vector<const Draft*> result{&d.draft};
  std::set<const Drafted*> seen{&d};
  std::deque<const Drafted*> open{&d};
  while (!open.empty() && result.size() < largest_cluster) {
    const Drafted& at = *open.front();
    open.pop_front();
    for (const Quantity& q : at.draft.quantities) {
      if (q.from != Quantity::From::figure || stated(book_, q) != nullptr) continue;
      if (q.figure == focus && !both_ways) continue;
      const auto& users = users_.at(q.figure);
      const bool given_by_some =
          std::any_of(users.begin(), users.end(), [&](const Drafted* u) { return gives(*u, q.figure); });
      for (const Drafted* user : users) {
        if (!both_ways && given_by_some && !gives(*user, q.figure)) continue;
        if (!seen.insert(user).second) continue;
        result.push_back(&user->draft);
        open.push_back(user);
      }
    }
  }
  return result;
}

Network Judge::network_behind(const Drafted& d, model::FigureId freed) const {
  return network_of(cluster(d, freed), book_, {freed});
}

std::optional<Attempt> Judge::attempt(const Drafted& d, std::size_t quantity, bool both_ways) const {
  const model::FigureId focus = d.draft.quantities[quantity].figure;
  Attempt a{quantity, network_of(cluster(d, focus, both_ways), book_, {focus}), {}, 0};
  a.variable = a.network.variables[0][quantity];
  ReconcileOptions options;
  options.find_suspects = false;
  auto result = reconcile(a.network.system, options);
  if (!result) return std::nullopt;
  a.reconciliation = std::move(*result);
  return a;
}

// The figure of this relation without which it and what it leans on would agree, when there is just one.
std::optional<std::size_t> Judge::odd_one_out(const Drafted& d) const {
  const Network network = network_behind(d, {});
  const auto result = reconcile(network.system);
  if (!result) return std::nullopt;
  for (const Part& part : result->parts) {
    const Suspicion& suspicion = part.suspicion;
    if (suspicion.tied != 1 || suspicion.suspects.front().values.size() != 1) continue;
    const VariableIndex suspect = suspicion.suspects.front().values.front().variable;
    const auto& own = network.variables[0];
    const auto it = std::find(own.begin(), own.end(), suspect);
    if (it != own.end()) return static_cast<std::size_t>(it - own.begin());
  }
  return std::nullopt;
}

Finding Judge::finding_of(const Drafted& d) const {
  Finding finding;
  finding.relation = d.relation->id;
  finding.type = d.relation->type;
  finding.notes = d.draft.notes;
  for (const model::Term& term : d.relation->terms) {
    const FigureValue* value = book_.find(term.figure);
    if (value == nullptr) continue;
    const model::FigureId id = value->figure->id;
    if (std::find(finding.figures.begin(), finding.figures.end(), id) == finding.figures.end()) {
      finding.figures.push_back(id);
    }
  }
  if (!d.usable()) {
    finding.missing = d.draft.missing;
    ask(finding, d);
    return finding;
  }
  const std::vector<std::size_t> order = candidates(d);
  for (const bool want_stated : {true, false}) {
    for (const std::size_t quantity : order) {
      if ((stated(book_, d.draft.quantities[quantity]) != nullptr) != want_stated) continue;
      auto tried = attempt(d, quantity);
      if (!tried || !tried->determined()) continue;
      // Where the figures check each other in more than one way, the one that stands apart is compared.
      if (want_stated && tried->reconciliation.test.freedom > 0) {
        const auto odd = odd_one_out(d);
        if (odd && *odd != quantity) {
          auto other = attempt(d, *odd);
          if (other && other->determined()) tried = std::move(other);
        }
      }
      settle(finding, d, *tried);
      return finding;
    }
  }
  for (const std::size_t quantity : order) {
    if (stated(book_, d.draft.quantities[quantity]) != nullptr) continue;
    const auto tried = attempt(d, quantity, true);
    if (!tried || !tried->determined()) continue;
    finding.notes.push_back("This follows only from several relations solved at once.");
    settle(finding, d, *tried);
    return finding;
  }
  if (const auto tried = follow_on(d)) {
    settle(finding, d, *tried);
    return finding;
  }
  ask(finding, d);
  return finding;
}

// Where no figure is left to compute, what the relation comes to: the hidden quantity that most of the steps lead to.
// Not one that a person could state instead: that is what would settle the relation.
std::optional<Attempt> Judge::follow_on(const Drafted& d) const {
  const auto& quantities = d.draft.quantities;
  const bool asks = std::any_of(quantities.begin(), quantities.end(), [](const Quantity& q) { return q.askable; });
  if (asks) return std::nullopt;
  const Network network = network_behind(d, {});
  const auto& own = network.variables[0];
  for (auto step = network.steps.rbegin(); step != network.steps.rend(); ++step) {
    const auto it = std::find(own.begin(), own.end(), step->variable);
    if (it == own.end()) continue;
    const std::size_t quantity = static_cast<std::size_t>(it - own.begin());
    if (quantities[quantity].from != Quantity::From::hidden || quantities[quantity].silent) continue;
    auto tried = attempt(d, quantity);
    if (tried && tried->determined()) return tried;
  }
  return std::nullopt;
}

namespace {

Line how_to_give(const Quantity& q) {
  return {
      q.symbol, Piece::of_sign("="),
      Piece::words("?  State the " + q.name +
                   " as a figure and add it to this relation, or give it with the relation as " + q.given_as + ".")};
}

}  // namespace

// Unsettled: says what would settle it.
void Judge::ask(Finding& finding, const Drafted& d) const {
  finding.verdict = Verdict::unsettled;
  if (d.usable()) {
    // With nothing freed: what stays undetermined is what is missing.
    const Network network = network_behind(d, {});
    ReconcileOptions options;
    options.find_suspects = false;
    const auto result = reconcile(network.system, options);
    if (!result) {
      finding.missing.push_back("figures that can be computed with (" + result.fault().sentence + ")");
    } else {
      // What does not follow is missing; where all does, what had to be worked out for it could be compared.
      std::vector<std::string> worked_out;
      for (std::size_t i = 0; i < d.draft.quantities.size(); ++i) {
        const Quantity& q = d.draft.quantities[i];
        const bool open = result->estimates[network.variables[0][i]].standing == Standing::undetermined;
        const bool nameable = q.from == Quantity::From::figure || q.askable;
        if (open && nameable) finding.missing.push_back("the " + q.name);
        if (q.askable) worked_out.push_back("the " + q.name);
        if (q.askable && !q.given_as.empty()) finding.workings.lines.push_back(how_to_give(q));
      }
      for (const Part& part : result->parts) {
        // With something missing no search can end: that is not what is wrong.
        if (part.trouble && worked_out.empty())
          finding.missing.insert(finding.missing.begin(),
                                 "figures that can be met together (" + part.trouble->sentence + ")");
      }
      if (finding.missing.empty()) finding.missing = std::move(worked_out);
    }
    if (finding.missing.empty()) finding.missing.push_back("a second figure to compare with");
  }
  finding.sentence = "This cannot be settled: missing ";
  for (std::size_t i = 0; i < finding.missing.size(); ++i) {
    if (i > 0) finding.sentence += i + 1 == finding.missing.size() ? " and " : ", ";
    finding.sentence += finding.missing[i];
  }
  finding.sentence += ".";
}

}  // namespace sash::workings::inner
