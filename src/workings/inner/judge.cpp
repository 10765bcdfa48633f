#include "workings/inner/judge.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <set>
#include <utility>

#include "quantity/show.h"
#include "workings/inner/bending.h"

namespace sash::workings::inner {
namespace {

constexpr double coverage = 2;               // JCGM 100:2008, G.6.6: about 95 %
constexpr double as_good_as_equal = 1e-9;    // relative
constexpr std::size_t largest_cluster = 64;  // relations looked through for figures nobody stated

const FigureValue* stated(const FigureBook& book, const Quantity& q) {
  if (q.from != Quantity::From::figure) return nullptr;
  const FigureValue* value = book.find(q.figure);
  return value != nullptr && value->stated ? value : nullptr;
}

bool worked_out_by_somebody(const FigureValue& value) {
  return value.figure->source == model::Source::worked_out || value.figure->role == model::Role::stated_result;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace

struct Judge::Attempt {
  std::size_t quantity;
  Network network;
  Reconciliation reconciliation;
  VariableIndex variable;

  const Estimate& estimate() const { return reconciliation.estimates[variable]; }
  bool determined() const { return estimate().standing == Standing::determined; }
  const Fault* trouble() const {
    for (const Part& part : reconciliation.parts) {
      const bool ours = std::find(part.variables.begin(), part.variables.end(), variable) != part.variables.end();
      if (ours && part.trouble) return &*part.trouble;
    }
    return nullptr;
  }
};

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

std::optional<Judge::Attempt> Judge::attempt(const Drafted& d, std::size_t quantity, bool both_ways) const {
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
std::optional<Judge::Attempt> Judge::follow_on(const Drafted& d) const {
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

void Judge::settle(Finding& finding, const Drafted& d, const Attempt& a) const {
  const Quantity& q = d.draft.quantities[a.quantity];
  model::Figure nameless;
  nameless.kind = q.kind;
  const bool is_figure = q.from == Quantity::From::figure;
  FigureValue value = is_figure ? *book_.find(q.figure) : unstated(nameless, "the " + q.name);
  if (!value.stated) value.unit = q.unit;
  Estimate e = a.estimate();
  if (const auto drawn = drawn_instead(a.network, e, a.variable, book_)) {
    e.value = drawn->value;
    e.spread = drawn->spread;
    finding.notes.push_back(
        "The figures are so uncertain that first-order propagation bends; the result is from a Monte Carlo run "
        "(JCGM 101).");
  }
  finding.computed = computed_text(value, e.value, e.spread);
  if (value.stated) {
    finding.said = said_text(value);
    compare(finding, value, e.value, e.spread);
  } else {
    finding.verdict = Verdict::worked_out;
    finding.sentence = capital(value.name) + " works out to " + finding.computed->text + "; nobody states it.";
  }
  tell_besides(finding, d, a);
  bound(finding, e, q, value);
  bound_the_rest(finding, d, a);
  note_close_call(finding, d, a);
  for (const Afterthought& after : d.draft.afterthoughts) {
    const Estimate& known = a.reconciliation.estimates[a.network.variables[0][after.quantity]];
    if (known.standing == Standing::undetermined) continue;
    std::string note = after.note(after.quantity == a.quantity ? e.value : known.value);
    if (!note.empty()) finding.notes.push_back(std::move(note));
  }
}

// What follows besides: the other products, what is left over, which reactant runs out first.
void Judge::tell_besides(Finding& finding, const Drafted& d, const Attempt& a) const {
  const auto& own = a.network.variables[0];
  std::vector<VariableIndex> written{a.variable};
  for (const std::size_t quantity : d.draft.besides) {
    const VariableIndex v = own[quantity];
    const Estimate& e = a.reconciliation.estimates[v];
    if (v == a.variable || e.standing != Standing::determined) continue;
    if (!(e.value > coverage * e.spread)) continue;  // nothing is left of what runs out
    const Quantity& q = d.draft.quantities[quantity];
    model::Figure nameless;
    nameless.kind = q.kind;
    finding.besides.push_back(
        {q.name, q.kind == quantity::Kind::mass, computed_text(unstated(nameless, q.name), e.value, e.spread)});
    written.push_back(v);
  }
  finding.workings = written_out(a.network, a.reconciliation.estimates, book_, written, constants_);
  if (finding.verdict != Verdict::worked_out) return;
  for (std::size_t i = 0; i < a.network.equations.size(); ++i) {
    const NetworkEquation& eq = a.network.equations[i];
    const std::size_t least = a.network.least_member[i];
    if (eq.draft != &d.draft || least == 0 || eq.members.size() < 3) continue;
    finding.sentence = a.network.quantities[eq.members[least]]->symbol.below + " runs out first. " + finding.sentence;
  }
  std::string masses;
  for (const Besides& b : finding.besides) {
    if (b.is_mass) masses += (masses.empty() ? " Besides: " : ", ") + b.name + " " + b.value.text;
  }
  if (!masses.empty()) finding.sentence += masses + ".";
}

// Two reactants so nearly in proportion that the figures do not tell which one runs out.
void Judge::note_close_call(Finding& finding, const Drafted& d, const Attempt& a) const {
  for (std::size_t i = 0; i < a.network.equations.size(); ++i) {
    const NetworkEquation& eq = a.network.equations[i];
    const std::size_t least = a.network.least_member[i];
    if (eq.draft != &d.draft || least == 0) continue;
    const auto share = [&](std::size_t member) {
      const Estimate& e = a.reconciliation.estimates[eq.members[member]];
      const double weight = eq.equation->weights[member];
      return std::pair{a.network.followed[eq.members[member]].value_or(0) / weight, e.spread / weight};
    };
    for (std::size_t other = 1; other < eq.members.size(); ++other) {
      if (other == least || !a.network.followed[eq.members[other]]) continue;
      const auto [first, first_spread] = share(least);
      const auto [second, second_spread] = share(other);
      if (second - first > coverage * std::hypot(first_spread, second_spread)) continue;
      finding.notes.push_back("The reactants are so nearly in proportion that, as uncertain as they are, " +
                              a.network.quantities[eq.members[other]]->symbol.below + " may run out first instead.");
    }
  }
}

// What cannot be, whatever was said: less than nothing, a yield over 100 %.
void Judge::bound(Finding& finding, const Estimate& e, const Quantity& q, const FigureValue& value) const {
  const double si = e.value;
  const double sure = coverage * e.spread;
  const std::string works_out = capital(value.name) + " works out to " + finding.computed->text;
  if (si + sure < 0 && !can_be_negative(q.kind)) {
    finding.verdict = Verdict::conflicts;
    finding.sentence = works_out + ": less than nothing cannot be.";
  } else if (q.enough && si < *q.enough) {
    finding.verdict = Verdict::conflicts;
    finding.sentence = works_out + ": that is not enough, it takes at least " +
                       quantity::show_with_unit(value.from_si(*q.enough), value.unit.symbol()) + ".";
  } else if (q.enough && si - sure < *q.enough) {
    finding.notes.push_back("It is so close that, as uncertain as the figures are, it may not be enough.");
  } else if (q.most && si - sure > *q.most) {
    finding.remark = works_out + ": more than " +
                     quantity::show_with_unit(value.from_si(*q.most), value.unit.symbol()) + " " + q.past_most + ".";
  }
}

// The same for what only stands between the figures: the yield of a step that nobody states.
void Judge::bound_the_rest(Finding& finding, const Drafted& d, const Attempt& a) const {
  const auto& own = a.network.variables[0];
  for (std::size_t i = 0; i < own.size() && finding.remark.empty(); ++i) {
    const Quantity& q = d.draft.quantities[i];
    const Estimate& e = a.reconciliation.estimates[own[i]];
    if (!q.most || own[i] == a.variable || e.standing != Standing::determined) continue;
    if (e.value - coverage * e.spread <= *q.most) continue;
    model::Figure nameless;
    nameless.kind = q.kind;
    const FigureValue value = unstated(nameless, "the " + q.name);
    finding.remark = capital(value.name) + " works out to " + computed_text(value, e.value, e.spread).text +
                     ": more than 100 % " + q.past_most + ".";
  }
}

void Judge::compare(Finding& finding, const FigureValue& value, double si, double si_spread) const {
  const double computed = value.from_si(si);
  const double own = value.spread_from_si(value.si_spread, value.si);
  const double other = value.spread_from_si(si_spread, si);
  const double best = value.from_si(value.si);
  const double difference = std::fabs(computed - best);
  const double within = coverage * std::hypot(own, other);
  const bool rounds = value.as_said && quantity::agrees_as_rounded(value.said, computed);
  const std::string& symbol = value.unit.symbol();
  const std::string said = finding.said->text;
  const std::string shown = finding.computed->text;
  const quantity::Limits limits = quantity::limits_of(value.said);
  const double reach = value.as_said ? std::max(best - limits.low, limits.high - best) : 0;
  finding.tolerance = std::max(within, reach);
  const std::string tolerance_text =
      "±" + quantity::show_number(*finding.tolerance, 2) + (symbol.empty() ? "" : " " + symbol);
  finding.tolerance_reason = value.doubt;
  if (other > 0) {
    finding.tolerance_reason +=
        (finding.tolerance_reason.empty() ? "" : " ") +
        std::string("What it is computed from is itself uncertain. Together, with a coverage factor of 2: ") +
        tolerance_text + ".";
  }
  const std::string head = capital(value.name) + " was given as " + said;
  if (difference <= as_good_as_equal * std::max(std::fabs(best), std::fabs(computed))) {
    finding.verdict = Verdict::agrees;
    finding.sentence = head + " and works out to the same.";
  } else if (rounds && value.said.hedge == quantity::Hedge::exact) {
    finding.verdict = Verdict::agrees_as_rounded;
    finding.sentence = head + "; it works out to " + shown + ", which rounds to that.";
  } else if (rounds) {
    finding.verdict = Verdict::agrees;
    finding.sentence = head + "; it works out to " + shown + ", which is what was said.";
  } else if (difference <= within) {
    finding.verdict = Verdict::agrees;
    finding.sentence = head + "; it works out to " + shown + ", which agrees within " + tolerance_text + ".";
  } else {
    finding.verdict = Verdict::conflicts;
    finding.sentence = head + ", but works out to " + shown + "; they may differ by " + tolerance_text + " at most.";
  }
}

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
      for (const Part& part : result->parts) {
        if (part.trouble)
          finding.missing.push_back("figures that can be met together (" + part.trouble->sentence + ")");
      }
      // What does not follow is missing; where all does, what had to be worked out for it could be compared.
      std::vector<std::string> worked_out;
      for (std::size_t i = 0; i < d.draft.quantities.size(); ++i) {
        const Quantity& q = d.draft.quantities[i];
        const bool open = result->estimates[network.variables[0][i]].standing == Standing::undetermined;
        const bool nameable = q.from == Quantity::From::figure || q.askable;
        if (open && nameable) finding.missing.push_back("the " + q.name);
        if (q.askable) worked_out.push_back("the " + q.name);
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
