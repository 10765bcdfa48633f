#include "desk/shown/query.h"

#include <algorithm>
#include <initializer_list>

#include "desk/shown/words.h"
#include "support/text.h"

namespace sash::desk {
namespace {

std::string joined(std::initializer_list<std::string_view> parts) {
  std::string out;
  for (const std::string_view part : parts) {
    out += part;
    out += '\n';  // no word reaches over two parts
  }
  return search_key(out);
}

}  // namespace

Query::Query(std::string_view typed) {
  const std::string key = search_key(typed);
  for (const std::string_view word : split(key, ' ')) {
    if (!word.empty()) words_.emplace_back(word);
  }
}

bool Query::finds(std::string_view texts) const {
  return std::all_of(words_.begin(), words_.end(), [&](const std::string& w) { return texts.find(w) != texts.npos; });
}

std::string search_text(const model::Figure& f, std::optional<Verdict> verdict) {
  return joined({"figure", replace_all(figure_text(f), "\u00A0", " "), f.subject, f.label, kind_words(f.kind),
                 words_of(family_of(f.kind)), words_of(f.role), words_of(f.source), words_of(f.origin.standing),
                 verdict ? word_of(*verdict) : ""});
}

std::string search_text(const model::Hazard& h, safety::Gap gap) {
  return joined({"hazard", h.cause, h.substance, h.note, words_of(h.route), words_of(h.level),
                 words_of(h.origin.standing), safety::gap_label(gap)});
}

std::string search_text(const model::Callout& c) {
  return joined({"callout", c.text, words_of(c.level), words_of(c.delivery), words_of(c.origin.standing)});
}

std::string search_text(const model::Note& n) { return joined({"note", n.text}); }
std::string search_text(const model::Chapter& c) { return joined({"chapter", c.title}); }
std::string search_text(const model::NarrationLine& l) { return joined({"narration", l.speaker, l.text}); }

}  // namespace sash::desk
