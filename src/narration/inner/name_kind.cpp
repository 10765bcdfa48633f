#include "narration/inner/name_kind.h"

#include <algorithm>
#include <string>
#include <unordered_set>

#include "embedded/kinds_by_name.h"
#include "narration/inner/word_set.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

struct KnownKinds {
  std::unordered_set<std::string_view> gases;
  std::unordered_set<std::string_view> solvents;
};

const KnownKinds& known_kinds() {
  static const KnownKinds known = [] {
    KnownKinds read;
    const std::vector<std::string_view> lines = split_lines(embedded::kinds_by_name);
    for (std::size_t i = 1; i < lines.size(); ++i) {
      const auto cells = split(lines[i], '\t');
      promise(cells.size() == 3 && (cells[1] == "gas" || cells[1] == "solvent"),
              "a row of the kinds by name holds a name, gas or solvent, and its source");
      (cells[1] == "gas" ? read.gases : read.solvents).insert(cells[0]);
    }
    return read;
  }();
  return known;
}

/// "isoamyl acetate", "benzoyl chloride": made of an organic group, so no salt.
bool is_of_a_group(std::string_view first_word) {
  constexpr WordSet oxo_cations{"vanadyl", "uranyl", "zirconyl", "titanyl", "bismuthyl", "antimonyl", "pervanadyl"};
  return first_word.ends_with("yl") && !oxo_cations.has(first_word);
}

bool is_salt_like(std::string_view name) {
  if (name.ends_with("peroxide") || name.find(' ') == std::string_view::npos) return false;
  const auto words = split(name, ' ');
  if (is_of_a_group(words.front())) return false;
  const auto has_word_ending = [&](std::string_view ending) {
    return std::ranges::any_of(words, [&](std::string_view word) { return word.ends_with(ending); });
  };
  if (has_word_ending("oxide") && !has_word_ending("hydroxide")) return false;
  return has_word_ending("ate") || has_word_ending("ite") || has_word_ending("ide") || has_word_ending("ate(ii)") ||
         name.find("ferrate(") != std::string_view::npos;
}

/// "potassium hydrogensulfate" as people say it: in three words.
void part_hydrogen(std::string& name) {
  constexpr std::string_view hydrogen = "hydrogen";
  for (std::size_t at = name.find(hydrogen); at != std::string::npos; at = name.find(hydrogen, at + 1)) {
    const std::size_t behind = at + hydrogen.size();
    const bool salt = name.ends_with("ate") || name.ends_with("ite") || name.ends_with("ide");
    if (salt && at > 0 && behind < name.size() && name[behind] != ' ') name.insert(behind, " ");
  }
}

}  // namespace

bool names_gas(std::string_view name) { return known_kinds().gases.contains(name); }

void set_kind_by_name(Mention& m) {
  part_hydrogen(m.name);
  m.gas = m.gas || names_gas(m.name);
  m.solvent = m.solvent || known_kinds().solvents.contains(m.name);
  m.acid = m.acid || m.name.ends_with("acid");
  m.water = m.water || m.name == "water";
  m.dissolves = m.dissolves || is_salt_like(m.name);
}

}  // namespace sash::narration
