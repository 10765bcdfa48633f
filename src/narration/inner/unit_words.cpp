#include "narration/inner/unit_words.h"

#include <algorithm>
#include <array>
#include <unordered_map>
#include <vector>

#include "embedded/spoken_units.h"
#include "narration/inner/word_set.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

using quantity::Kind;

struct Row {
  std::vector<std::string_view> words;
  std::string_view unit;
  Kind kind = Kind::other;
  bool prefixable = false;     // p
  bool behind_digits = false;  // d
  bool capital = false;        // M: only with the capital letter that tells molar from metre
  bool bare_degrees = false;   // b
  bool misheard = false;       // x
};

struct Prefix {
  std::string_view word;
  std::string_view code;
};
constexpr std::array<Prefix, 10> prefixes = {{{"milli", "m"},
                                              {"mili", "m"},
                                              {"millie", "m"},
                                              {"milly", "m"},
                                              {"micro", "u"},
                                              {"kilo", "k"},
                                              {"centi", "c"},
                                              {"deci", "d"},
                                              {"nano", "n"},
                                              {"mega", "M"}}};

class Table {
 public:
  Table() {
    bool header = true;
    for (const std::string_view line : split_lines(embedded::spoken_units)) {
      if (header) {
        header = false;
        continue;
      }
      const auto cells = split(line, '\t');
      promise(cells.size() == 5, "a row of the spoken units has five cells");
      Row row;
      row.words = split(cells[0], ' ');
      row.unit = cells[1];
      row.kind = quantity::kind_from_name(cells[2]).value_or(Kind::other);
      const auto flag = [&](char c) { return cells[3].find(c) != std::string_view::npos; };
      row.prefixable = flag('p');
      row.behind_digits = flag('d');
      row.capital = flag('M');
      row.bare_degrees = flag('b');
      row.misheard = flag('x');
      by_first_[row.words[0]].push_back(std::move(row));
    }
    for (auto& [word, rows] : by_first_) {
      std::stable_sort(rows.begin(), rows.end(),
                       [](const Row& a, const Row& b) { return a.words.size() > b.words.size(); });
    }
  }

  const std::vector<Row>* starting_with(std::string_view word) const {
    const auto it = by_first_.find(word);
    return it == by_first_.end() ? nullptr : &it->second;
  }

 private:
  std::unordered_map<std::string_view, std::vector<Row>> by_first_;
};

const Table& table() {
  static const Table all;
  return all;
}

bool is_hyphen(const TokenStream& s, std::size_t at) { return s.is(at, "-") && s[at].glued; }

/// The rows' words at `at`; returns the token behind them.
std::optional<std::size_t> matched(const TokenStream& s, std::size_t at, const Row& row) {
  for (const std::string_view word : row.words) {
    if (!s.is(at, word)) return std::nullopt;
    ++at;
  }
  return at;
}

bool starts_capital(const TokenStream& s, std::size_t at) {
  const std::string_view raw = s[at].raw;
  return raw.back() == 'M';
}

std::optional<SpokenUnit> from_table(const TokenStream& s, std::size_t at, bool behind_digits) {
  const auto* rows = table().starting_with(s.text(at));
  if (rows == nullptr) return std::nullopt;
  for (const Row& row : *rows) {
    const auto last = matched(s, at, row);
    if (!last || (row.behind_digits && !behind_digits)) continue;
    if (row.capital && !starts_capital(s, at)) continue;
    // "5 m" is metre, "5 M" molar: the row without the flag must not take the capital.
    if (!row.capital && row.behind_digits && s.text(at) == "m" && starts_capital(s, at)) continue;
    if (s.text(at) == "mm" && !row.capital && s[at].raw == "mM") continue;
    SpokenUnit unit;
    unit.first = at;
    unit.last = *last;
    unit.unit = row.unit;
    unit.kind = row.kind;
    unit.bare_degrees = row.bare_degrees;
    unit.misheard = row.misheard;
    unit.plural = row.words.back().ends_with('s');
    return unit;
  }
  return std::nullopt;
}

/// "milligrams", "milli grams", "milli-grams".
std::optional<SpokenUnit> prefixed(const TokenStream& s, std::size_t at) {
  const std::string_view word = s.text(at);
  for (const Prefix& prefix : prefixes) {
    if (!word.starts_with(prefix.word)) continue;
    std::string_view base = word.substr(prefix.word.size());
    std::size_t last = at + 1;
    if (base.empty()) {
      if (is_hyphen(s, last)) ++last;
      base = s.text(last);
      ++last;
    }
    const auto* rows = table().starting_with(base);
    if (rows == nullptr) continue;
    for (const Row& row : *rows) {
      if (!row.prefixable || row.words.size() != 1) continue;
      SpokenUnit unit;
      unit.first = at;
      unit.last = last;
      unit.unit = std::string(prefix.code) + std::string(row.unit);
      unit.kind = row.kind;
      unit.plural = base.ends_with('s');
      return unit;
    }
  }
  return std::nullopt;
}

/// What "A per B" measures; an empty unit for rates and the like, which are no figures.
void put_together(SpokenUnit& top, const SpokenUnit& below) {
  const bool mass = top.kind == Kind::mass;
  const bool amount = top.kind == Kind::amount;
  top.last = below.last;
  const std::string code = top.unit + "/" + below.unit;
  if (mass && below.kind == Kind::volume) {
    const bool strong =
        below.unit == "mL" || below.unit == "cm3" || (below.unit == "L" && top.unit == "kg") || below.unit == "m3";
    top.kind = strong ? Kind::density : Kind::mass_concentration;
    top.unit = code;
  } else if (amount && below.unit == "L") {
    top.kind = Kind::molar_concentration;
    top.unit = code;
  } else if (mass && below.kind == Kind::amount) {
    top.kind = Kind::molar_mass;
    top.unit = code;
  } else {
    top.kind = Kind::other;
    top.unit.clear();
  }
}

}  // namespace

std::optional<SpokenUnit> read_spoken_unit(const TokenStream& s, std::size_t at, bool behind_digits) {
  if (at >= s.size()) return std::nullopt;
  auto unit = from_table(s, at, behind_digits);
  if (!unit) unit = prefixed(s, at);
  if (!unit) return std::nullopt;
  constexpr WordSet of_a_mole{"mass", "masses", "volume", "ratio", "weight", "quantity"};
  if (unit->kind == Kind::molar_concentration && of_a_mole.has(s.text(unit->last))) return std::nullopt;
  const bool a_mole = unit->kind == Kind::mass && (s.is(unit->last, "a") || s.is(unit->last, "an")) &&
                      (s.is(unit->last + 1, "mole") || s.is(unit->last + 1, "liter") || s.is(unit->last + 1, "litre"));
  const bool per = a_mole || s.is(unit->last, "per") || s.is(unit->last, "/") ||
                   (s.is(unit->last, "a") && unit->kind == Kind::length && s.is(unit->last + 1, "second"));
  if (per && !unit->unit.empty()) {
    std::size_t next = unit->last + 1;
    if (s.is(next, "hundred") || s.is(next, "100") || s.is(next, "1")) ++next;  // "36 grams per 100 mL"
    auto below = from_table(s, next, true);
    if (!below) below = prefixed(s, next);
    if (below) {
      put_together(*unit, *below);
      if (next != unit->last + 1 && unit->kind == Kind::other) unit->unit.clear();
    } else {
      unit->last = std::min(next + 1, s.size());  // "grams per person": a rate of some sort
      unit->kind = Kind::other;
      unit->unit.clear();
    }
  }
  return unit;
}

}  // namespace sash::narration
