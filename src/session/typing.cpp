// Figures made from words: typed into a pin's field, or chosen in a narration line.
#include "narration/typed_figure.h"
#include "session/editing.h"

namespace sash::session {
namespace {

using narration::TypedFigure;
using narration::TypedQuantity;

void fill(model::Figure& figure, const TypedQuantity& quantity, const std::string& subject) {
  figure.kind = quantity.kind;
  figure.reading = quantity.reading;
  figure.doubt =
      quantity.plus_minus ? model::Doubt{model::Doubt::From::stated, *quantity.plus_minus, {}} : model::Doubt{};
  if (!subject.empty()) figure.subject = subject;
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

// A strength typed beside one amount of solution belongs to it: they become one portion, tied as a solution.
void tie_as_solution(Draft& draft, const std::vector<model::Figure>& figures, const std::string& subject) {
  std::vector<model::Term> terms;
  bool strong = false;
  bool measured = false;
  for (const auto& figure : figures) {
    if (narration::is_strength(figure.kind) && figure.kind != quantity::Kind::density) {
      terms.push_back({"strength", figure.id, {}});
      strong = true;
    } else if (const char* slot = solution_slot(figure.kind)) {
      terms.push_back({slot, figure.id, {}});
      measured = true;
    }
  }
  if (!strong || !measured || subject.empty()) return;
  model::Relation relation;
  relation.type = model::RelationType::in_solution;
  relation.label = subject;
  relation.terms = std::move(terms);
  relation.given = {{"substance", subject}};
  draft.put(std::move(relation));
}

// Fills `first` with what was read and makes figures beside it for what was said besides.
Planned fill_in(Draft& draft, model::Figure first, const TypedFigure& typed, std::string name) {
  std::vector<model::Figure> figures;
  if (typed.quantities.size() > 1 && !first.portion) {
    model::Portion portion;
    portion.name = typed.subject;
    portion.subject = typed.subject;
    first.portion = draft.put(portion);
  }
  for (std::size_t i = 0; i < typed.quantities.size(); ++i) {
    model::Figure figure = first;
    if (i > 0) {
      figure.id = {};
      figure.words.reset();
      figure.label.clear();
    }
    fill(figure, typed.quantities[i], typed.subject);
    if (i > 0 || figure.label.empty()) figure.label = typed.quantities[i].text;
    figure.id = draft.put(figure);
    figures.push_back(figure);
  }
  if (figures.size() > 1) tie_as_solution(draft, figures, typed.subject);
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
  auto typed = narration::read_typed_figure(text);
  if (!typed) return typed.fault();
  // A pin made as a yield stays one: "82 %" typed into it is no strength.
  if (figure->kind == quantity::Kind::percent_yield && typed->quantities.front().reading.unit == "%") {
    typed->quantities.front().kind = quantity::Kind::percent_yield;
  }
  model::Figure first = *figure;
  first.label = first.words ? first.label : text;
  return fill_in(draft, std::move(first), *typed, "Fill in figure");
}

Outcome<Planned> pin_words(const model::Record& record, const NewNumber& ids, const model::Words& words) {
  Draft draft(record, ids);
  const auto* line = draft.find<model::NarrationLine>(words.line);
  if (line == nullptr || words.begin > line->text.size() || words.length > line->text.size() - words.begin) {
    return Fault::of(Code::not_found, "Those words are no longer in the narration; choose them again.");
  }
  model::Figure figure;
  figure.place = {line->footage, heard_at(*line, words.begin), std::nullopt};
  figure.words = words;
  figure.label = line->text.substr(words.begin, words.length);
  const auto typed = narration::read_typed_figure(figure.label);
  if (typed) return fill_in(draft, std::move(figure), *typed, "Pin words");
  // Words that hold no number still are where a figure is said; the value can be typed.
  const auto id = draft.put(std::move(figure));
  return Planned{draft.done("Pin words"), id};
}

}  // namespace sash::session
