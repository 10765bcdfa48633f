#include "scoring/checked.h"

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

}  // namespace

std::vector<std::string> relations_of(const narration::NarrationText& text) {
  std::int64_t next = 0;
  const narration::Proposals found = narration::propose(record_of(text), [&](const model::Thing&) { return ++next; });
  std::vector<std::string> out;
  for (const model::Relation& r : found.relations) {
    std::string line(model::name_of(r.type));
    for (const model::Term& t : r.terms) {
      const auto it =
          std::find_if(found.figures.begin(), found.figures.end(), [&](const auto& f) { return f.id == t.figure; });
      line += " | " + t.slot + " " + (it == found.figures.end() ? "?" : it->label);
    }
    for (const auto& [key, value] : r.given) line += " | " + key + "=" + value;
    out.push_back(std::move(line));
  }
  return out;
}

std::vector<Conflict> conflicts_of(const narration::NarrationText& text) {
  model::Record record = record_of(text);
  std::int64_t next = 0;
  narration::Proposals proposals = narration::propose(record, [&](const model::Thing&) { return ++next; });
  accept_all(proposals.figures);
  accept_all(proposals.relations);
  std::sort(proposals.relations.begin(), proposals.relations.end(),
            [](const auto& a, const auto& b) { return a.id < b.id; });
  const auto done = model::apply(narration::edit_of(proposals), record);
  if (!done) return {{"fault", done.fault().sentence, {}}};
  const narration::Reading reading = narration::read_figures(text);
  std::vector<Conflict> out;
  const workings::Report report = workings::check(record);
  for (const workings::Finding& f : report.findings) {
    if (f.verdict != workings::Verdict::conflicts) continue;
    Conflict c;
    c.relation = f.type ? model::name_of(*f.type) : "several";
    c.sentence = f.sentence;
    const auto place_of = [&](model::FigureId id) {
      const auto it =
          std::find_if(record.figures.begin(), record.figures.end(), [&](const auto& x) { return x.id == id; });
      for (std::size_t i = 0; i < reading.figures.size(); ++i) {
        const auto& piece = reading.figures[i].pieces.front();
        if (it->words && it->words->line.number == static_cast<std::int64_t>(piece.line) + 1 &&
            it->words->begin == piece.begin)
          return i;
      }
      return reading.figures.size();
    };
    if (f.said) c.figures.push_back(place_of(f.said->figure));
    for (const model::FigureId id : f.figures) c.figures.push_back(place_of(id));
    out.push_back(std::move(c));
  }
  return out;
}

}  // namespace sash::test
