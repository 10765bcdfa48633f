#include "session/rewording.h"

#include <algorithm>
#include <cstdlib>

#include "support/check.h"

namespace sash::session {

std::optional<model::Words> carried_words(std::string_view before, std::string_view after, const model::Words& words) {
  const auto same_start = static_cast<std::size_t>(
      std::mismatch(before.begin(), before.end(), after.begin(), after.end()).first - before.begin());
  const std::size_t most = std::min(before.size(), after.size()) - same_start;
  std::size_t same_end = 0;
  while (same_end < most && before[before.size() - 1 - same_end] == after[after.size() - 1 - same_end]) ++same_end;

  model::Words moved = words;
  const std::size_t end = std::size_t{words.begin} + words.length;
  if (end <= same_start) return moved;
  if (words.begin >= before.size() - same_end) {
    moved.begin = static_cast<std::uint32_t>(words.begin + after.size() - before.size());
    return moved;
  }
  if (end > before.size()) return std::nullopt;
  const std::string_view said = before.substr(words.begin, words.length);
  std::optional<std::size_t> nearest;
  const auto way = [&](std::size_t at) { return at > words.begin ? at - words.begin : words.begin - at; };
  for (std::size_t at = after.find(said); at != std::string_view::npos; at = after.find(said, at + 1)) {
    if (!nearest || way(at) < way(*nearest)) nearest = at;
  }
  if (!nearest) return std::nullopt;
  moved.begin = static_cast<std::uint32_t>(*nearest);
  return moved;
}

Planned reword_line(const model::Record& record, const model::NarrationLine& line, std::string name) {
  const model::NarrationLine* stored = model::find(record, line.id);
  promise(stored != nullptr, "a line that is reworded is there");
  Draft draft(record, [](const model::Thing&) { return std::int64_t{0}; });
  model::NarrationLine reworded = line;
  if (line.text != stored->text) {
    reworded.words.clear();
    draft.change_where<model::Figure>([&](model::Figure& figure) {
      if (!figure.words || figure.words->line != line.id) return false;
      figure.words = carried_words(stored->text, line.text, *figure.words);
      return true;
    });
  }
  draft.put(std::move(reworded));
  return {draft.done(std::move(name)), line.id};
}

}  // namespace sash::session
