#pragma once
// Query: what was typed into the search field, and whether a pin answers to it. Words are joined by "and"; each is
// looked for in what the pin says and is (kind, substance, text, standing, verdict, type). Pure.

#include <string>
#include <string_view>
#include <vector>

#include "desk/shown/tone.h"
#include "model/record.h"
#include "safety/cover.h"

namespace sash::desk {

class Query {
 public:
  Query() = default;
  explicit Query(std::string_view typed);
  bool empty() const { return words_.empty(); }
  /// Whether each word is part of one of `texts` (already search_key'ed).
  bool finds(std::string_view texts) const;

 private:
  std::vector<std::string> words_;
};

/// Everything a pin can be found by, as one search_key'ed text.
std::string search_text(const model::Figure& figure, std::optional<Verdict> verdict);
std::string search_text(const model::Hazard& hazard, safety::Gap gap);
std::string search_text(const model::Callout& callout);
std::string search_text(const model::Note& note);
std::string search_text(const model::Chapter& chapter);
std::string search_text(const model::NarrationLine& line);

}  // namespace sash::desk
