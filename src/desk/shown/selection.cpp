#include "desk/shown/selection.h"

#include <algorithm>
#include <string_view>

namespace sash::desk {
namespace {

struct Piece {
  std::uint32_t begin;
  std::uint32_t end;
};

bool is_space(char c) { return c == ' ' || c == '\n' || c == '\t'; }

std::vector<Piece> words_in(std::string_view text) {
  std::vector<Piece> words;
  for (std::size_t at = 0; at < text.size();) {
    if (is_space(text[at])) {
      ++at;
      continue;
    }
    const std::size_t begin = at;
    while (at < text.size() && !is_space(text[at])) ++at;
    words.push_back({static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(at)});
  }
  return words;
}

model::Words as_words(model::LineId line, Piece p) { return {line, p.begin, p.end - p.begin}; }

}  // namespace

std::optional<model::Thing> thing_of(const model::Record& record, const session::ThingRef& ref) {
  return std::visit(
      [&](auto id) -> std::optional<model::Thing> {
        const auto* thing = model::find(record, id);
        if (thing == nullptr) return std::nullopt;
        return *thing;
      },
      ref);
}

session::ThingRef ref_of(const model::Thing& thing) {
  return std::visit([](const auto& t) -> session::ThingRef { return t.id; }, thing);
}

std::optional<model::Place> place_of(const model::Record& record, const session::ThingRef& ref) {
  return std::visit(
      [&](auto id) -> std::optional<model::Place> {
        const auto* thing = model::find(record, id);
        if (thing == nullptr) return std::nullopt;
        if constexpr (requires { thing->place; }) return thing->place;
        if constexpr (requires { thing->when; })
          return model::Place{thing->footage, thing->when.from, thing->when.until};
        return std::nullopt;
      },
      ref);
}

model::Standing standing_of(const model::Record& record, const session::ThingRef& ref) {
  return std::visit(
      [&](auto id) {
        const auto* thing = model::find(record, id);
        if constexpr (requires { thing->origin; }) {
          if (thing != nullptr) return thing->origin.standing;
        }
        return model::Standing::confirmed;
      },
      ref);
}

std::optional<model::Words> step_words(const model::Record& record, std::optional<model::Words> words, int by,
                                       const model::Place& from) {
  if (record.lines.empty()) return std::nullopt;
  // Lines in the order they are said; a record keeps them by id.
  std::vector<const model::NarrationLine*> lines;
  for (const auto& line : record.lines) {
    if (!words || line.footage == from.footage || line.id == words->line) lines.push_back(&line);
  }
  std::stable_sort(lines.begin(), lines.end(), [](const auto* a, const auto* b) {
    return std::pair(a->footage, a->when.from) < std::pair(b->footage, b->when.from);
  });
  if (!words) {
    for (const auto* line : lines) {
      if (line->footage != from.footage || line->when.until <= from.from) continue;
      for (const Piece p : words_in(line->text)) {
        if (moment_of(*line, p.end) > from.from) return as_words(line->id, p);
      }
    }
    const auto& last = *lines.back();
    const auto pieces = words_in(last.text);
    return pieces.empty() ? std::nullopt : std::optional(as_words(last.id, pieces.back()));
  }
  auto at = std::find_if(lines.begin(), lines.end(), [&](const auto* l) { return l->id == words->line; });
  if (at == lines.end()) return std::nullopt;
  const auto here = words_in((*at)->text);
  if (by > 0) {
    const auto next =
        std::find_if(here.begin(), here.end(), [&](Piece p) { return p.begin >= words->begin + words->length; });
    if (next != here.end()) return as_words((*at)->id, *next);
    while (++at != lines.end()) {
      if (const auto pieces = words_in((*at)->text); !pieces.empty()) return as_words((*at)->id, pieces.front());
    }
  } else {
    const auto next = std::find_if(here.rbegin(), here.rend(), [&](Piece p) { return p.end <= words->begin; });
    if (next != here.rend()) return as_words((*at)->id, *next);
    while (at != lines.begin()) {
      --at;
      if (const auto pieces = words_in((*at)->text); !pieces.empty()) return as_words((*at)->id, pieces.back());
    }
  }
  return words;
}

model::Words grow_words(const model::Record& record, model::Words words, int by) {
  const auto* line = model::find(record, words.line);
  if (line == nullptr) return words;
  const auto pieces = words_in(line->text);
  const std::uint32_t end = words.begin + words.length;
  if (by > 0) {
    for (const Piece p : pieces) {
      if (p.begin >= end) return {words.line, words.begin, p.end - words.begin};
    }
  } else {
    for (auto p = pieces.rbegin(); p != pieces.rend(); ++p) {
      if (p->end < end && p->begin >= words.begin) return {words.line, words.begin, p->end - words.begin};
    }
  }
  return words;
}

std::optional<model::Words> whole_words(const model::NarrationLine& line, std::size_t begin, std::size_t end) {
  std::optional<Piece> all;
  for (const Piece p : words_in(line.text)) {
    const bool touched = begin == end ? p.begin <= begin && begin < p.end : p.begin < end && begin < p.end;
    if (!touched) continue;
    if (!all) all = p;
    all->end = p.end;
  }
  if (!all) return std::nullopt;
  return as_words(line.id, *all);
}

Moment moment_of(const model::NarrationLine& line, std::size_t byte) {
  if (!line.words.empty()) {
    const auto after = std::upper_bound(line.words.begin(), line.words.end(), byte,
                                        [](std::size_t b, const model::Word& w) { return b < w.begin; });
    return after == line.words.begin() ? line.when.from : std::prev(after)->from;
  }
  if (line.text.empty()) return line.when.from;
  const auto share = static_cast<WideInteger>(line.when.length().count()) *
                     static_cast<std::int64_t>(std::min(byte, line.text.size()));
  return line.when.from + Moment::ticks(static_cast<std::int64_t>(share / static_cast<std::int64_t>(line.text.size())));
}

}  // namespace sash::desk
