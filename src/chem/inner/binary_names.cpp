// Names of two elements that count atoms: "dinitrogen pentoxide", "phosphorus trichloride", "antimony trioxide".

#include <algorithm>

#include "chem/inner/name_rules.h"

namespace sash::chem {
namespace {

using inner::Ion;

// Of the first element, where a name counts only the second. "Manganese heptoxide" and "antimony trioxide" leave the
// "di" out, and "sodium pentasulfide" is a salt: taken as written, these would have an element in a state it has not.
int unsaid_count(const Element& element, const Ion& anion, int anions) {
  if (anion.charge != -2 || anions % 2 == 0) return 1;
  const inner::CationElement* metal = inner::find_cation_element(element.symbol);
  const auto has_state = [metal](int state) {
    constexpr int highest = 8;  // of any element in a substance that can be weighed: ruthenium and osmium tetroxide
    return metal != nullptr ? std::ranges::find(metal->charges, state) != metal->charges.end() : state <= highest;
  };
  const bool polysulfide = metal != nullptr && metal->charges == std::vector{1} && anion.name == "sulfide";
  return polysulfide || (!has_state(2 * anions) && has_state(anions)) ? 2 : 1;
}

}  // namespace

// "disulfide" and "triiodide" are ions beside an alkali metal and numbers beside titanium or boron.
bool NameRules::counts_anions(std::size_t at, std::size_t end) const {
  return std::ranges::any_of(parts_.second_book.hits(tokens_, at),
                             [end](const auto& hit) { return hit.end == end && hit.value / 1000 > 1; });
}

void NameRules::binary(std::size_t at) {
  for (const auto& first : parts_.first_book.hits(tokens_, at)) {
    if (first.end >= tokens_.size() || tokens_[first.end - 1].stops) continue;
    for (const auto& second : parts_.second_book.hits(tokens_, first.end)) {
      const Element& e = element(first.value % 1000);
      const Ion& anion = inner::anions()[static_cast<std::size_t>(second.value % 1000)];
      const int m = second.value / 1000;
      const int said = first.value / 1000;
      const int n = said > 1 ? said : unsaid_count(e, anion, m);
      const std::string formula =
          std::string(e.symbol) + (n > 1 ? std::to_string(n) : "") + anion.core + (m > 1 ? std::to_string(m) : "");
      std::string name;
      for (std::size_t i = at; i < second.end; ++i) {
        name += tokens_[i].text;
        if (i + 1 < second.end && tokens_[i].ends_word) name += ' ';
      }
      KnownName known = from_formula(formula, std::move(name));
      if (const auto read = read_formula(formula)) {
        const auto names = names_by_rule(parts_, *read);
        if (!names.empty()) known.preferred = names.front();
      }
      offer(second.end, std::move(known));
    }
  }
}

}  // namespace sash::chem
