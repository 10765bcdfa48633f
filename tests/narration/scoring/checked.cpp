#include "scoring/checked.h"

#include <fmt/format.h>

#include <algorithm>

#include "model/edit.h"
#include "model/names.h"
#include "narration/propose.h"
#include "workings/check.h"

namespace sash::test {

namespace {

template <class T>
void accept_all(std::vector<T>& things) {
  for (T& thing : things) thing.origin.standing = model::Standing::confirmed;
}

model::Record record_of(const narration::NarrationText& text) {
  model::Record record;
  model::Footage footage;
  footage.id = {1};
  record.footages.push_back(footage);
  std::int64_t number = 0;
  for (model::NarrationLine line : text.lines) {
    line.id = {++number};
    line.footage = footage.id;
    record.lines.push_back(line);
  }
  return record;
}

narration::Proposals proposed(const model::Record& record, const narration::Reading& reading) {
  std::int64_t next = 0;
  return narration::propose(
      record, [&](const model::Thing&) { return ++next; },
      [&](std::span<const model::NarrationLine>) { return reading; });
}

/// Of a figure, its place in the reading it came from.
std::size_t place_of(const model::Figure& figure, const narration::Reading& reading) {
  for (std::size_t i = 0; i < reading.figures.size(); ++i) {
    const auto& piece = reading.figures[i].pieces.front();
    if (figure.words && figure.words->line.number == static_cast<std::int64_t>(piece.line) + 1 &&
        figure.words->begin == piece.begin)
      return i;
  }
  return reading.figures.size();
}

}  // namespace

std::string relations_of(const narration::NarrationText& text, const narration::Reading& reading) {
  const narration::Proposals proposals = proposed(record_of(text), reading);
  std::string out;
  for (const model::Relation& r : proposals.relations) {
    out += fmt::format("{} {:.2f} {}:", model::name_of(r.type), r.origin.confidence, r.origin.rule);
    for (const model::Term& t : r.terms) {
      const auto f = std::find_if(proposals.figures.begin(), proposals.figures.end(),
                                  [&](const model::Figure& x) { return x.id == t.figure; });
      out += fmt::format(" {} #{} {},", t.slot, place_of(*f, reading), f->label);
    }
    for (const auto& [key, value] : r.given) out += fmt::format(" {}={}", key, value);
    out += "\n";
  }
  return out;
}

std::vector<Conflict> conflicts_of(const narration::NarrationText& text) {
  return conflicts_of(text, narration::read_figures(text));
}

bool taken_by_itself(const model::Relation& relation) { return narration::sure_enough(relation.origin); }

std::vector<Conflict> conflicts_of(const narration::NarrationText& text, const narration::Reading& reading,
                                   const Taken& taken) {
  model::Record record = record_of(text);
  narration::Proposals proposals = proposed(record, reading);
  std::erase_if(proposals.relations, [&](const auto& r) { return !taken(r); });
  accept_all(proposals.figures);
  accept_all(proposals.relations);
  const auto done = model::apply(narration::edit_of(proposals), record);
  if (!done) return {{"fault", {}, 0, done.fault().sentence, {}, {}}};
  std::vector<Conflict> out;
  const workings::Report report = workings::check(record);
  for (const workings::Finding& f : report.findings) {
    if (f.verdict != workings::Verdict::conflicts) continue;
    Conflict c;
    c.relation = f.type ? model::name_of(*f.type) : "several";
    c.sentence = f.sentence;
    if (f.relation) {
      const model::Origin& origin = model::find(record, *f.relation)->origin;
      c.rule = origin.rule;
      c.confidence = origin.confidence;
    }
    const auto place = [&](model::FigureId id) { return place_of(*model::find(record, id), reading); };
    if (f.said) c.figures.push_back(place(f.said->figure));
    for (const model::FigureId id : f.figures) c.figures.push_back(place(id));
    if (f.said) c.named.push_back(place(f.said->figure));
    for (const workings::Culprit& culprit : f.culprits) {
      for (const workings::Reckoned& r : culprit.should_be) c.named.push_back(place(r.figure));
    }
    out.push_back(std::move(c));
  }
  return out;
}

}  // namespace sash::test
