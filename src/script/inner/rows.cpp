#include "script/inner/rows.h"

#include <algorithm>

namespace sash::script::inner {
namespace {

// A pin this long after the words of a line have ended is in silence.
constexpr Moment silence = Moment::seconds(1.5);

struct Pinned {
  Moment at;
  model::Place place;
  const model::Chapter* chapter = nullptr;
  const model::Figure* figure = nullptr;
  const model::Hazard* hazard = nullptr;
  const model::Callout* callout = nullptr;
  const model::Note* note = nullptr;
};

bool stays(const model::Origin& origin) { return origin.standing != model::Standing::refused; }

std::vector<Pinned> pinned_things(const model::Record& record, const FilmTime& film) {
  std::vector<Pinned> out;
  const auto add = [&](const auto& thing, auto slot) {
    Pinned p;
    p.at = film.of(thing.place);
    p.place = thing.place;
    p.*slot = &thing;
    out.push_back(p);
  };
  for (const auto& chapter : record.chapters) add(chapter, &Pinned::chapter);
  for (const auto& figure : record.figures) {
    if (stays(figure.origin)) add(figure, &Pinned::figure);
  }
  for (const auto& hazard : record.hazards) {
    if (stays(hazard.origin)) add(hazard, &Pinned::hazard);
  }
  for (const auto& callout : record.callouts) {
    if (stays(callout.origin)) add(callout, &Pinned::callout);
  }
  for (const auto& note : record.notes) add(note, &Pinned::note);
  std::stable_sort(out.begin(), out.end(), [](const Pinned& a, const Pinned& b) { return a.at < b.at; });
  return out;
}

std::vector<Row> spoken_rows(const model::Record& record, const FilmTime& film) {
  std::vector<Row> rows;
  for (const auto& line : record.lines) {
    if (line.noise || line.text.empty()) continue;
    Row row;
    row.place = {line.footage, line.when.from, std::nullopt};
    row.at = film.of(line.footage, line.when.from);
    row.line = &line;
    rows.push_back(row);
  }
  std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.at < b.at; });
  return rows;
}

void put(Row& row, const Pinned& p) {
  if (p.chapter != nullptr) row.chapter = p.chapter;
  if (p.figure != nullptr) row.figures.push_back(p.figure);
  if (p.hazard != nullptr) row.hazards.push_back(p.hazard);
  if (p.callout != nullptr) row.callouts.push_back(p.callout);
  if (p.note != nullptr) row.notes.push_back(p.note);
}

}  // namespace

std::vector<Row> make_rows(const model::Record& record, const FilmTime& film) {
  std::vector<Row> spoken = spoken_rows(record, film);
  std::vector<Row> rows;
  const auto things = pinned_things(record, film);
  auto next_line = spoken.begin();
  for (const Pinned& p : things) {
    while (next_line != spoken.end() && next_line->at <= p.at) rows.push_back(std::move(*next_line++));
    const bool first = rows.empty();
    const Row* last = first ? nullptr : &rows.back();
    const bool heard = last != nullptr && last->line != nullptr &&
                       p.at <= film.of(last->line->footage, last->line->when.until) + silence;
    const bool same_silence = last != nullptr && last->line == nullptr && p.at <= last->at + silence;
    // A chapter opens a row, so that its heading never stands below what belongs to the chapter before.
    const bool opens = p.chapter != nullptr && last != nullptr && p.at != last->at;
    if ((!heard && !same_silence) || opens) {
      Row row;
      row.place = p.place;
      row.place.until.reset();
      row.at = p.at;
      rows.push_back(row);
    }
    put(rows.back(), p);
  }
  while (next_line != spoken.end()) rows.push_back(std::move(*next_line++));
  return rows;
}

}  // namespace sash::script::inner
