#include <algorithm>

#include "chem/inner/name_parts.h"
#include "chem/inner/name_rules.h"
#include "chem/names.h"
#include "support/text.h"

namespace sash::chem {
namespace {

constexpr std::size_t most_words = 24;
constexpr std::size_t longest_text = 512;

// After one of these, "no two" is a gas.
constexpr std::string_view matter_words[] = {"gas", "fumes", "vapour", "vapor", "molecule", "molecules", "solution"};

}  // namespace

NameBook::NameBook() : parts_(std::make_unique<const Parts>()) {}
NameBook::~NameBook() = default;

const NameBook& NameBook::standard() {
  static const NameBook book;
  return book;
}

std::optional<NameMatch> NameBook::find_longest(std::span<const std::string_view> words, std::size_t at) const {
  if (at >= words.size()) return std::nullopt;
  const std::vector<inner::NameToken> tokens = inner::name_tokens(words, at, most_words);
  auto reading = NameRules(*parts_, tokens).longest();
  if (!reading) return std::nullopt;
  NameMatch match{tokens[reading->end - 1].word - at + 1, std::move(reading->known)};
  if (match.known.doubtful && match.length < words.size()) {
    const std::size_t next = at + match.length;
    const bool matter_follows =
        next < words.size() && std::ranges::find(matter_words, to_lower(words[next])) != std::end(matter_words);
    if (!matter_follows) return std::nullopt;
  }
  return match;
}

std::optional<KnownName> NameBook::find(std::string_view text) const {
  if (text.size() > longest_text) return std::nullopt;
  const std::vector<std::string_view> words = inner::words_of(text);
  auto match = find_longest(words, 0);
  if (!match || match->length != words.size()) return std::nullopt;
  return std::move(match->known);
}

std::vector<std::string> NameBook::names_of(const Formula& formula) const { return names_by_rule(*parts_, formula); }

std::optional<std::string> NameBook::nearest(std::string_view text) const {
  std::vector<std::string_view> spellings;
  for (const ListedCompound& c : parts_->compounds) {
    spellings.push_back(c.name);
    spellings.insert(spellings.end(), c.synonyms.begin(), c.synonyms.end());
  }
  std::vector<std::string> salts;
  for (const char* metal :
       {"sodium", "potassium", "ammonium", "calcium", "magnesium", "zinc", "copper(II)", "silver"}) {
    for (const inner::Ion& anion : inner::anions()) salts.push_back(std::string(metal) + " " + anion.name);
  }
  spellings.insert(spellings.end(), salts.begin(), salts.end());
  const auto found = nearest_spelling(text.substr(0, longest_text), spellings);
  return found ? std::optional<std::string>(*found) : std::nullopt;
}

std::optional<KnownName> normalise_name(std::string_view text) { return NameBook::standard().find(text); }

Outcome<Formula> formula_of(std::string_view text) {
  Outcome<Formula> as_formula = read_formula(trim(text));
  const bool counts = std::ranges::any_of(text, [](char c) { return c >= '0' && c <= '9'; });
  if (as_formula && counts) return as_formula;  // an acronym counts no atoms
  const NameBook& book = NameBook::standard();
  const auto known = book.find(text);
  if (as_formula) {
    // "KHP", "TNT" and "THF" read as formulas too, of nothing anybody has met.
    const bool acronym = known && known->formula && known->reading == NameReading::name && text.size() > 2 &&
                         book.names_of(*as_formula).empty();
    return acronym ? read_formula(*known->formula) : as_formula;
  }
  // A formula with a fault in it is still a formula: what is wrong with it says more than what it may stand for.
  if (known && known->reading != NameReading::name && text.find(' ') == std::string_view::npos) return as_formula;
  if (known && known->formula) return read_formula(*known->formula);
  if (known && known->is_mixture) {
    return Fault::of(Code::unsupported, "'" + std::string(text) + "' is a mixture and has no single formula.",
                     std::string(text));
  }
  if (known && !known->candidates.empty()) {
    Fault fault = Fault::of(Code::ambiguous,
                            "'" + std::string(text) + "' can be " + join(known->candidates, " or ") + "; say which.",
                            std::string(text));
    fault.others = known->candidates;
    return fault;
  }
  // Something with a capital inside or a digit was meant as a formula: its own complaint says more.
  const bool formula_like =
      counts || as_formula.fault().code == Code::ambiguous || text.find(' ') == std::string_view::npos;
  const auto nearest = book.nearest(text);
  if (formula_like && !nearest) return as_formula;
  return Fault::of(Code::unknown_name,
                   "No compound is known as '" + std::string(text) + "'" +
                       (nearest ? "; did you mean '" + *nearest + "'?" : "; type its formula instead."),
                   std::string(text));
}

std::optional<std::string> name_of(const Formula& formula) {
  auto names = NameBook::standard().names_of(formula);
  if (names.empty()) return std::nullopt;
  return std::move(names.front());
}

}  // namespace sash::chem
