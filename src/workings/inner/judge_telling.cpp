// What a judged attempt comes to: compared, bounded and put into words.
#include <algorithm>
#include <cmath>
#include <utility>

#include "quantity/show.h"
#include "workings/inner/attempt.h"
#include "workings/inner/bending.h"
#include "workings/inner/judge.h"

namespace sash::workings::inner {
namespace {

constexpr double coverage = 2;             // JCGM 100:2008, G.6.6: about 95 %
constexpr double as_good_as_equal = 1e-9;  // relative

// Welch-Satterthwaite for the difference of two (JCGM 100:2008, G.4.1).
std::optional<double> freedom_of_difference(double a, std::optional<double> a_freedom, double b,
                                            std::optional<double> b_freedom) {
  const double weighed = (a_freedom ? std::pow(a, 4) / *a_freedom : 0) + (b_freedom ? std::pow(b, 4) / *b_freedom : 0);
  if (!(weighed > 0)) return std::nullopt;
  return std::pow(a * a + b * b, 2) / weighed;
}

}  // namespace

void Judge::settle(Finding& finding, const Drafted& d, const Attempt& a) const {
  const Quantity& q = d.draft.quantities[a.quantity];
  model::Figure nameless;
  nameless.kind = q.kind;
  const bool is_figure = q.from == Quantity::From::figure;
  FigureValue value = is_figure ? *book_.find(q.figure) : unstated(nameless, "the " + q.name);
  if (!value.stated) value.unit = q.unit;
  Estimate e = a.estimate();
  std::string drawing;
  if (const auto drawn = drawn_instead(a.network, a.reconciliation.estimates, a.variable, book_)) {
    drawing = told(*drawn, e, value);
    e.value = drawn->value;
    e.spread = drawn->spread;
    finding.notes.push_back(drawing);
  }
  finding.computed = computed_text(value, e.value, e.spread, e.freedom);
  if (value.stated) {
    finding.said = said_text(value);
    compare(finding, value, e);
  } else {
    finding.verdict = Verdict::worked_out;
    finding.sentence = to_begin_with(value.name) + " works out to " + in_sentence(value, finding.computed->text) +
                       "; nobody states it.";
  }
  tell_besides(finding, d, a);
  if (!drawing.empty()) finding.workings.lines.push_back({Piece::words(drawing)});
  if (e.freedom) note_few_readings(finding, *e.freedom);
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

// The coverage factor is wider than 2 where an uncertainty rests on few readings.
void Judge::note_few_readings(Finding& finding, double freedom) const {
  const double factor = coverage_of(freedom);
  if (!(factor > coverage)) return;
  finding.notes.push_back("Some uncertainties rest on few readings: " + quantity::show_number(freedom, 3) +
                          " effective degrees of freedom (Welch-Satterthwaite), so a coverage factor of " +
                          quantity::show_number(factor, 3) + " instead of 2.");
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
  tell_other_figures(finding, d, a, written);
  finding.workings = written_out(a.network, a.reconciliation.estimates, book_, written, constants_);
  const auto worth_saying = [&](const Besides& b) {
    return b.value.figure != model::FigureId{} || (b.is_mass && finding.verdict == Verdict::worked_out);
  };
  std::string besides;
  for (const Besides& b : finding.besides) {
    if (worth_saying(b)) besides += (besides.empty() ? " Besides: " : ", ") + b.name + " " + b.value.text;
  }
  if (!besides.empty()) finding.sentence += besides + ".";
  if (finding.verdict != Verdict::worked_out) return;
  for (std::size_t i = 0; i < a.network.equations.size(); ++i) {
    const NetworkEquation& eq = a.network.equations[i];
    const std::size_t least = a.network.least_member[i];
    if (eq.draft != &d.draft || least == 0 || eq.members.size() < 3) continue;
    finding.sentence = a.network.quantities[eq.members[least]]->symbol.below + " runs out first. " + finding.sentence;
  }
}

// Figures nobody stated that this relation gives as well as the one that is told first.
void Judge::tell_other_figures(Finding& finding, const Drafted& d, const Attempt& a,
                               std::vector<VariableIndex>& written) const {
  const auto& own = a.network.variables[0];
  for (std::size_t i = 0; i < own.size(); ++i) {
    const Quantity& q = d.draft.quantities[i];
    if (q.from != Quantity::From::figure || own[i] == a.variable) continue;
    FigureValue value = *book_.find(q.figure);
    const Estimate& e = a.reconciliation.estimates[own[i]];
    if (value.stated || e.standing != Standing::determined) continue;
    const auto& users = users_.at(q.figure);
    const bool given_elsewhere = !gives(d, q.figure) && std::any_of(users.begin(), users.end(), [&](const Drafted* u) {
      return u != &d && gives(*u, q.figure);
    });
    if (given_elsewhere) continue;
    value.unit = q.unit;
    Reckoned reckoned = computed_text(value, e.value, e.spread, e.freedom);
    reckoned.text = in_sentence(value, reckoned.text);
    finding.besides.push_back({value.name, q.kind == quantity::Kind::mass, std::move(reckoned)});
    written.push_back(own[i]);
  }
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
  const std::string works_out =
      to_begin_with(value.name) + " works out to " + in_sentence(value, finding.computed->text);
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
    finding.remark =
        "More than " + quantity::show_with_unit(value.from_si(*q.most), value.unit.symbol()) + " " + q.past_most + ".";
  }
}

// The same for what only stands between the figures: the yield of a step that nobody states.
void Judge::bound_the_rest(Finding& finding, const Drafted& d, const Attempt& a) const {
  const auto& own = a.network.variables[0];
  for (std::size_t i = 0; i < own.size() && finding.remark.empty(); ++i) {
    const Quantity& q = d.draft.quantities[i];
    const Estimate& e = a.reconciliation.estimates[own[i]];
    if (!q.most || own[i] == a.variable) continue;
    const FigureValue* given = q.from == Quantity::From::figure ? book_.find(q.figure) : nullptr;
    if (given != nullptr && given->stated && given->si - coverage * given->si_spread > *q.most) {
      finding.remark = to_begin_with(given->name) + " was given as " + said_text(*given).text + ": more than " +
                       quantity::show_with_unit(given->from_si(*q.most), given->unit.symbol()) + " " + q.past_most +
                       ".";
      return;
    }
    if (e.standing != Standing::determined) continue;
    if (e.value - coverage * e.spread <= *q.most) continue;
    model::Figure nameless;
    nameless.kind = q.kind;
    const FigureValue value = unstated(nameless, "the " + q.name);
    finding.remark = to_begin_with(value.name) + " works out to " + computed_text(value, e.value, e.spread).text +
                     ": more than 100 % " + q.past_most + ".";
  }
}

void Judge::compare(Finding& finding, const FigureValue& value, const Estimate& e) const {
  const double si = e.value;
  const double si_spread = e.spread;
  const double computed = value.from_si(si);
  const double own = value.spread_from_si(value.si_spread, value.si);
  const double other = value.spread_from_si(si_spread, si);
  const double best = value.from_si(value.si);
  const double difference = std::fabs(computed - best);
  const double factor = coverage_of(freedom_of_difference(own, value.shape.degrees_of_freedom, other, e.freedom));
  const double within = factor * std::hypot(own, other);
  const bool rounds = value.as_said && quantity::agrees_as_rounded(value.said, computed);
  const std::string symbol = value.unit.symbol() == "pH" ? std::string() : value.unit.symbol();
  const std::string said = in_sentence(value, finding.said->text);
  const std::string shown = in_sentence(value, finding.computed->text);
  const quantity::Limits limits = quantity::limits_of(value.said);
  const double reach = value.as_said ? std::max(best - limits.low, limits.high - best) : 0;
  finding.tolerance = std::max(within, reach);
  const std::string tolerance_text =
      "±" + quantity::show_number(*finding.tolerance, 2) + (symbol.empty() ? "" : " " + symbol);
  finding.tolerance_reason = value.doubt;
  if (other > 0) {
    finding.tolerance_reason +=
        (finding.tolerance_reason.empty() ? "" : " ") +
        std::string("What it is computed from is itself uncertain. Together, with a coverage factor of ") +
        quantity::show_number(factor, 3) + ": " + tolerance_text + ".";
  }
  const std::string head = to_begin_with(value.name) + " was given as " + said;
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

}  // namespace sash::workings::inner
