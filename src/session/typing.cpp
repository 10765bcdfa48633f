// Figures made from words: typed into a pin's field, or chosen in a narration line.
#include <algorithm>

#include "narration/propose.h"
#include "narration/quick_figure.h"
#include "session/editing.h"

namespace sash::session {
namespace {

using narration::QuickFigure;

void fill(model::Figure& figure, const QuickFigure& read) {
  figure.kind = read.kind;
  figure.reading = read.reading;
  figure.doubt = read.doubt;
  if (!read.subject.empty()) figure.subject = read.subject;
}

// The slot a quantity takes where it says how much of a solution, or of what is dissolved in it, there is.
const char* solution_slot(quantity::Kind kind) {
  switch (kind) {
    case quantity::Kind::volume:
      return "solution_volume";
    case quantity::Kind::amount:
      return "solute_amount";
    case quantity::Kind::mass:
      return "solution_mass";
    default:
      return nullptr;
  }
}

// A strength typed beside an amount of solution says how strong that is: they are tied as a solution.
void tie_as_solution(Draft& draft, const std::vector<QuickFigure>& read, const std::vector<model::Figure>& figures) {
  for (std::size_t i = 0; i < read.size(); ++i) {
    if (!read[i].attached_to) continue;
    const model::Figure& of = figures[*read[i].attached_to];
    const char* slot = solution_slot(of.kind);
    if (slot == nullptr || of.subject.empty()) continue;
    model::Relation relation;
    relation.type = model::RelationType::in_solution;
    relation.label = of.subject;
    relation.terms = {{"strength", figures[i].id, {}}, {slot, of.id, {}}};
    relation.given = {{"substance", of.subject}};
    draft.put(std::move(relation));
  }
}

// Fills `first` with what was read and makes figures beside it for what was said besides.
Planned fill_in(Draft& draft, const model::Figure& first, const std::vector<QuickFigure>& read, std::string name) {
  std::vector<model::Figure> figures;
  std::optional<model::PortionId> portion = first.portion;
  if (read.size() > 1 && !portion) {
    model::Portion made;
    made.name = made.subject = read.front().subject;
    portion = draft.put(made);
  }
  for (const QuickFigure& each : read) {
    model::Figure figure = first;
    if (!figures.empty()) {
      figure.id = {};
      figure.words.reset();
    }
    fill(figure, each);
    figure.portion = portion;
    figure.id = draft.put(figure);
    figures.push_back(figure);
  }
  tie_as_solution(draft, read, figures);
  return {draft.done(std::move(name)), figures.front().id};
}

}  // namespace

Outcome<Planned> type_figure(const model::Record& record, const NewNumber& ids, model::FigureId id,
                             const std::string& text) {
  Draft draft(record, ids);
  const auto* figure = draft.find<model::Figure>(id);
  if (figure == nullptr) {
    return Fault::of(Code::not_found,
                     "That figure is no longer in the record; it may have been removed or undone, so choose again.");
  }
  auto read = narration::read_quick_figure(text);
  if (!read) return read.fault();
  // A pin made as a yield stays one: "82 %" typed into it is no strength.
  if (figure->kind == quantity::Kind::percent_yield && read->front().reading.unit == "%") {
    read->front().kind = quantity::Kind::percent_yield;
  }
  model::Figure first = *figure;
  first.label = first.words ? first.label : text;
  first.origin.standing = model::Standing::confirmed;  // whoever types into a proposal has looked at it
  return fill_in(draft, first, *read, "Fill in figure");
}

Outcome<Planned> pin_words(const model::Record& record, const NewNumber& ids, const model::Words& words) {
  Draft draft(record, ids);
  const auto* line = draft.find<model::NarrationLine>(words.line);
  if (line == nullptr || words.begin > line->text.size() || words.length > line->text.size() - words.begin) {
    return Fault::of(Code::not_found, "Those words are no longer in the narration; choose them again.");
  }
  model::Figure figure;
  figure.place = {line->footage, narration::heard_at(*line, words.begin), std::nullopt};
  figure.words = words;
  figure.label = line->text.substr(words.begin, words.length);
  const auto read = narration::read_quick_figure(figure.label);
  if (read) return fill_in(draft, figure, *read, "Pin words");
  // Words that hold no number still are where a figure is said; the value can be typed.
  const auto id = draft.put(std::move(figure));
  return Planned{draft.done("Pin words"), id};
}

}  // namespace sash::session
