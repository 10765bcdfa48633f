#include "desk/shown/workings_page.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "chem/formula.h"
#include "desk/shown/findings_page.h"
#include "desk/shown/wiring.h"
#include "desk/shown/words.h"
#include "plot/relation_plot.h"

namespace sash::desk {
namespace {

std::string name_of_figure(const model::Figure& f) {
  if (!f.subject.empty()) return f.subject;
  if (!f.label.empty()) return f.label;
  return std::string(kind_words(f.kind));
}

// Both values with their reaches on one scale, a little air at the ends.
void place_reaches(FigureBar& bar, const workings::Reckoned* said, const workings::Reckoned* best) {
  double low = 0;
  double high = 0;
  bool any = false;
  const auto take = [&](const workings::Reckoned* r) {
    if (r == nullptr) return;
    const double from = r->value - r->spread;
    const double until = r->value + r->spread;
    low = any ? std::min(low, from) : from;
    high = any ? std::max(high, until) : until;
    any = true;
  };
  take(said);
  take(best);
  if (!any) return;
  double width = high - low;
  if (!(width > 0)) width = std::max(std::abs(high) * 0.01, 1e-12);
  low -= width * 0.18;
  high += width * 0.18;
  const auto reach = [&](const workings::Reckoned& r) {
    const auto share = [&](double v) { return (v - low) / (high - low); };
    return FigureBar::Reach{share(r.value), share(r.value - r.spread), share(r.value + r.spread)};
  };
  // Comparable only in one unit.
  if (said != nullptr) bar.said = reach(*said);
  if (best != nullptr && (said == nullptr || said->unit == best->unit)) bar.best = reach(*best);
}

FigureBar bar_of(const Judged& judged, model::FigureId id, const workings::Finding& finding,
                 const model::Relation* relation) {
  FigureBar bar;
  bar.figure = id;
  const auto* figure = model::find(judged.record, id);
  if (figure != nullptr) {
    bar.name = name_of_figure(*figure);
    bar.family = family_of(figure->kind);
    bar.said_text = figure_text(*figure);
    bar.doubt = doubt_text(*figure);
  }
  if (relation != nullptr) {
    const RelationShape* shape = shape_of(relation->type);
    for (const auto& term : relation->terms) {
      if (term.figure != id) continue;
      const SlotShape* slot = shape == nullptr ? nullptr : slot_of(*shape, term.slot);
      bar.slot = slot == nullptr ? term.slot : std::string(slot->words);
      if (term.about.empty()) continue;
      const auto formula = chem::read_formula(term.about);
      bar.name = formula ? formula->unicode() : term.about;
    }
  }
  if (const auto* state = judged.report.find(id)) {
    if (!state->doubt.empty()) bar.doubt = state->doubt;
    if (state->said) bar.said_text = state->said->text;
    if (state->reconciled) bar.best_text = state->reconciled->text;
    bar.unchecked = state->standing == workings::Standing::unchecked;
    place_reaches(bar, state->said ? &*state->said : nullptr, state->reconciled ? &*state->reconciled : nullptr);
  }
  for (const auto& culprit : finding.culprits) {
    if (&culprit != &finding.culprits.front() && !culprit.tied) break;
    for (const auto& r : culprit.should_be) {
      if (r.figure != id) continue;
      bar.suspect = true;
      bar.tied = culprit.tied;
    }
  }
  return bar;
}

RelationShown relation_of(const Judged& judged, const workings::Finding& f) {
  RelationShown shown;
  shown.relation = f.relation;
  const model::Relation* relation = f.relation ? model::find(judged.record, *f.relation) : nullptr;
  shown.title = f.type ? std::string(words_of(*f.type)) : "Several relations together";
  if (relation != nullptr && !relation->label.empty()) shown.title += ": " + relation->label;
  shown.verdict = workings::label_of(f);
  shown.tone = tone_of(f);
  shown.proposed = relation != nullptr && relation->origin.standing == model::Standing::proposed;
  shown.sentence = (rests_on_proposals(judged.record, f) ? "If accepted: " : "") + f.sentence +
                   (f.remark.empty() ? "" : " " + f.remark);
  shown.lines = f.workings.lines;
  if (!f.tolerance_reason.empty()) shown.tolerance = f.tolerance_reason;
  shown.missing = f.missing;
  shown.notes = f.notes;
  for (const auto& c : f.culprits) shown.culprits.push_back(c.sentence);
  for (const auto& e : f.explanations) shown.explanations.push_back(e.sentence);
  if (relation != nullptr) shown.plot = plot::plot_of(*relation, judged.report);
  std::vector<model::FigureId> seen;
  for (const auto figure : f.figures) {
    if (std::find(seen.begin(), seen.end(), figure) != seen.end()) continue;
    seen.push_back(figure);
    shown.bars.push_back(bar_of(judged, figure, f, relation));
  }
  return shown;
}

// A guess, and what stands in too large a record, is not judged before it is accepted.
RelationShown proposed_relation(const Judged& judged, const model::Relation& r) {
  RelationShown shown;
  shown.relation = r.id;
  shown.title = std::string(words_of(r.type)) + (r.label.empty() ? "" : ": " + r.label);
  shown.verdict = "proposed";
  shown.proposed = true;
  shown.judged = false;
  shown.sentence = "Proposed by: " + origin_text(r.origin) + ". It is not checked before it is accepted.";
  const workings::Finding none;
  for (const auto& term : r.terms) shown.bars.push_back(bar_of(judged, term.figure, none, &r));
  for (const auto& [key, value] : r.given) shown.notes.push_back(key + ": " + value);
  return shown;
}

std::string test_sentence(const workings::Report& report) {
  if (report.test.freedom <= 0) return {};
  return "All relations together: χ² = " + number_text(std::round(report.test.statistic * 100) / 100) + " with " +
         count_text(static_cast<std::size_t>(report.test.freedom), "degree of freedom", "degrees of freedom") +
         ", p = " +
         number_text(report.test.probability < 0.001 ? 0.001 : std::round(report.test.probability * 1000) / 1000) +
         (report.test.probability < 0.001 ? " or less." : ".");
}

void collect_constants(const workings::Line& line, std::set<std::size_t>& used) {
  for (const workings::Piece& piece : line) {
    if (piece.constant) used.insert(*piece.constant);
    collect_constants(piece.top, used);
    collect_constants(piece.bottom, used);
  }
}

// What the workings shown take from tables, each with where it is from.
std::vector<std::string> sources_of(const WorkingsShown& shown) {
  std::set<std::size_t> used;
  for (const auto& relation : shown.relations) {
    for (const auto& line : relation.lines) collect_constants(line, used);
  }
  std::vector<std::string> sources;
  for (const std::size_t at : used) {
    if (at >= shown.constants.size()) continue;
    const auto& c = shown.constants[at];
    sources.push_back(c.name + ", " + c.text + ": " + c.source);
  }
  return sources;
}

// A hazard has no arithmetic of figures; what counts is when it is announced and for how long.
WorkingsShown cover_of(const Judged& judged, model::HazardId id, WorkingsShown shown) {
  const auto* hazard = model::find(judged.record, id);
  if (hazard == nullptr) return shown;
  shown.heading = "Cover of this hazard";
  const auto span = [](const model::Place& p) {
    return clock_text(p.from) +
           (p.until ? " to " + clock_text(*p.until) + ", " + length_text(*p.until - p.from) : ", end open");
  };
  shown.remarks.push_back("Hazard: " + span(hazard->place) + ".");
  for (const auto& c : judged.record.callouts) {
    if (std::find(c.hazards.begin(), c.hazards.end(), id) == c.hazards.end()) continue;
    const Moment lead = hazard->place.from - c.place.from;
    const std::string when = lead > Moment()   ? length_text(lead) + " ahead"
                             : lead < Moment() ? length_text(-lead) + " after it began"
                                               : "as it begins";
    shown.remarks.push_back("“" + c.text + "”, " + std::string(words_of(c.delivery)) + " " + span(c.place) + ", " +
                            when + ".");
  }
  for (const auto& f : judged.cover.findings) {
    if (f.hazard == id) shown.findings.push_back(f.sentence);
  }
  return shown;
}

}  // namespace

WorkingsShown show_workings(const Judged& judged, const Selection& selection) {
  WorkingsShown shown;
  shown.constants = judged.report.constants;
  shown.said_of_all = test_sentence(judged.report);
  const auto relation = selection.as<model::RelationId>();
  const auto figure = selection.as<model::FigureId>();
  if (relation) {
    if (const auto* f = judged.report.find(*relation)) {
      shown.relations.push_back(relation_of(judged, *f));
    } else if (const auto* r = model::find(judged.record, *relation)) {
      shown.relations.push_back(proposed_relation(judged, *r));
    }
    shown.heading = "Workings";
    shown.sources = sources_of(shown);
    return shown;
  }
  if (figure) {
    for (const auto& f : judged.report.findings) {
      if (std::find(f.figures.begin(), f.figures.end(), *figure) != f.figures.end())
        shown.relations.push_back(relation_of(judged, f));
    }
    for (const auto& r : judged.record.relations) {
      if (r.origin.standing != model::Standing::proposed || judged.report.find(r.id) != nullptr) continue;
      const bool in =
          std::any_of(r.terms.begin(), r.terms.end(), [&](const model::Term& t) { return t.figure == *figure; });
      if (in) shown.relations.push_back(proposed_relation(judged, r));
    }
    if (const auto* f = model::find(judged.record, *figure))
      shown.heading = f->reading ? "Workings of " + figure_text(*f) : "Workings of this figure";
    shown.sources = sources_of(shown);
    if (shown.relations.empty()) {
      shown.remarks = {"This figure is tied to nothing yet, so nothing can check it.",
                       "Press W to tie it to others: pick the kind of relation, then click the figures."};
    }
    return shown;
  }
  if (const auto hazard = selection.as<model::HazardId>()) return cover_of(judged, *hazard, std::move(shown));
  if (const auto callout = selection.as<model::CalloutId>()) {
    const auto* c = model::find(judged.record, *callout);
    if (c != nullptr && !c->hazards.empty()) return cover_of(judged, c->hazards.front(), std::move(shown));
    shown.heading = "Cover";
    shown.remarks = {"This callout announces no hazard yet. Tick what it announces."};
    return shown;
  }
  shown.heading = "Workings";
  shown.remarks = {judged.record.figures.empty()
                       ? "Pin figures first; then tie them together and they check each other."
                       : "Select a figure or a finding to see how it was worked out."};
  return shown;
}

}  // namespace sash::desk
