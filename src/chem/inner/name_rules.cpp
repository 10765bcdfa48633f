#include "chem/inner/name_rules.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "support/text.h"

namespace sash::chem {
namespace {

using inner::Ion;
using inner::NameToken;

std::string water_part(double water) {
  const std::string n = Fraction::ratio(static_cast<std::int64_t>(std::llround(2 * water)), 2).decimal_text();
  return "·" + (n == "1" ? "" : n) + "H2O";
}

// Anions whose salts with one metal are common in two states, so that an unsaid number is worth asking about.
bool state_matters(const Ion& anion) {
  return anion.name == "oxide" || anion.name == "sulfide" || anion.name == "chloride" || anion.name == "iodide" ||
         anion.name == "bromide" || anion.name == "fluoride" || anion.name == "hydroxide";
}

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace

// Numbers of water as words, for names made by rule.
std::string hydrate_word(double water) {
  constexpr std::array<std::string_view, 13> words{"",      "mono", "di",   "tri",  "tetra",  "penta", "hexa",
                                                   "hepta", "octa", "nona", "deca", "undeca", "dodeca"};
  if (water == 0.5) return "hemihydrate";
  if (water == 1.5) return "sesquihydrate";
  if (water == 16) return "hexadecahydrate";
  if (water == 18) return "octadecahydrate";
  const auto whole = static_cast<std::size_t>(water);
  if (whole < words.size() && static_cast<double>(whole) == water) return std::string(words[whole]) + "hydrate";
  return Fraction::ratio(static_cast<std::int64_t>(std::llround(2 * water)), 2).decimal_text() + "-hydrate";
}

std::optional<NameRules::Reading> NameRules::longest() {
  if (tokens_.empty()) return std::nullopt;
  std::size_t at = 0;
  if (tokens_[0].text == "anhydrous" && tokens_.size() > 1 && !tokens_[0].stops) {
    anhydrous_said_ = true;
    at = 1;
  }
  listed(at);
  salts(at);
  acids(at);
  binary(at);
  single_ions(at);
  element_names(at);
  if (at == 0) {
    written();
    spoken();
  }
  return best_;
}

bool NameRules::ends_here(std::size_t end) const { return end > 0 && tokens_[end - 1].ends_word; }

std::optional<int> NameRules::number_at(std::size_t at) const {
  return at < tokens_.size() ? inner::number_in(tokens_[at].text, true) : std::nullopt;
}

KnownName NameRules::with_water(KnownName known, double water) const {
  known.water = water;
  known.preferred += " " + hydrate_word(water);
  if (known.formula) *known.formula += water_part(water);
  for (std::string& candidate : known.candidates) candidate += " " + hydrate_word(water);
  if (known.formula) {
    if (const auto formula = read_formula(*known.formula)) {
      if (const ListedCompound* c = parts_.listed_solid(*formula)) {
        known.preferred = c->name;
        known.formula = c->formula;
      }
    }
  }
  return known;
}

void NameRules::offer(std::size_t end, KnownName known) {
  if (!ends_here(end)) return;
  const bool dry = !known.water || *known.water == 0;
  const bool may_go_on = end < tokens_.size() && !tokens_[end - 1].stops;
  if (may_go_on && dry && (known.formula || !known.candidates.empty())) {
    for (const auto& hydrate : parts_.hydrate_book.hits(tokens_, end)) {
      offer(hydrate.end, with_water(known, hydrate.value / 2.0));
    }
    if (tokens_[end].text == "anhydrous" && tokens_[end].ends_word) {
      known.anhydrous = true;
      known.water = 0;
      ++end;
    }
  }
  if (anhydrous_said_) {
    known.anhydrous = true;
    if (dry) known.water = 0;
  }
  if (!best_ || end > best_->end) best_ = Reading{end, std::move(known)};
}

void NameRules::listed(std::size_t at) {
  for (const auto& hit : parts_.compound_book.hits(tokens_, at)) {
    const ListedCompound& c = parts_.compounds[static_cast<std::size_t>(hit.value)];
    KnownName known;
    known.preferred = c.name;
    if (!c.formula.empty()) known.formula = c.formula;
    if (c.water > 0) known.water = c.water;
    known.is_solution_word = c.solution();
    known.is_mixture = c.kind == "mixture";
    offer(hit.end, std::move(known));
  }
}

KnownName NameRules::from_formula(const std::string& formula, std::string rule_name) const {
  KnownName known;
  known.preferred = std::move(rule_name);
  known.formula = formula;
  const auto read = read_formula(formula);
  if (!read) return known;
  if (const ListedCompound* c = parts_.listed_solid(*read)) {
    known.preferred = c->name;
    known.formula = c->formula;
  }
  return known;
}

void NameRules::salts(std::size_t at) {
  if (at >= tokens_.size()) return;
  for (const auto& hit : parts_.cation_book.hits(tokens_, at)) {
    if (!tokens_[hit.end - 1].stops) salt(parts_.cations[static_cast<std::size_t>(hit.value)], std::nullopt, hit.end);
  }
  // "disodium hydrogenphosphate"
  constexpr std::array<std::pair<std::string_view, int>, 5> prefixes{
      {{"mono", 1}, {"di", 2}, {"tri", 3}, {"tetra", 4}, {"penta", 5}}};
  for (const auto& [prefix, n] : prefixes) {
    if (!tokens_[at].text.starts_with(prefix) || tokens_[at].text.size() == prefix.size()) continue;
    std::vector<NameToken> rest(tokens_.begin() + static_cast<std::ptrdiff_t>(at), tokens_.end());
    rest[0].text.erase(0, prefix.size());
    for (const auto& hit : parts_.cation_book.hits(rest, 0)) {
      if (!rest[hit.end - 1].stops) salt(parts_.cations[static_cast<std::size_t>(hit.value)], n, at + hit.end);
    }
  }
}

void NameRules::salt(const CationChoice& choice, std::optional<int> multiplicity, std::size_t at) {
  const auto each_anion = [this](std::size_t start, const auto& take) {
    for (const auto& hit : parts_.anion_book.hits(tokens_, start)) {
      take(inner::anions()[static_cast<std::size_t>(hit.value)], hit.end);
    }
  };
  const auto offer_salt = [this](const Ion& cation, const Ion& anion, std::size_t end) {
    offer(end, from_formula(inner::salt_formula(cation, anion), inner::salt_name(cation, anion)));
  };
  if (choice.polyatomic != nullptr && !multiplicity) {
    each_anion(at, [&](const Ion& anion, std::size_t end) { offer_salt(*choice.polyatomic, anion, end); });
    return;
  }
  if (choice.polyatomic != nullptr) {
    each_anion(at,
               [&](const Ion& anion, std::size_t end) { counted_salt(*choice.polyatomic, *multiplicity, anion, end); });
    return;
  }
  const Element& e = element(choice.element);
  const inner::CationElement* known = inner::find_cation_element(e.symbol);
  if (choice.charge) {
    const Ion cation = inner::element_cation(e, *choice.charge);
    each_anion(at, [&](const Ion& anion, std::size_t end) { offer_salt(cation, anion, end); });
    return;
  }
  if (const auto said = number_at(at); said && *said >= 1 && *said <= 9 && !tokens_[at].stops) {
    const Ion cation = inner::element_cation(e, *said);
    each_anion(at + 1, [&](const Ion& anion, std::size_t end) { offer_salt(cation, anion, end); });
  }
  if (known == nullptr) return;
  const bool takes_compound_anions = std::ranges::max(known->charges) <= 2;
  each_anion(at, [&](const Ion& anion, std::size_t end) {
    if ((!takes_compound_anions && counts_anions(at, end)) || !inner::follows_charges(e, anion)) return;
    if (multiplicity) {
      const Ion cation = inner::element_cation(e, known->usual.value_or(known->charges.front()));
      counted_salt(cation, *multiplicity, anion, end);
    } else {
      unsaid_state(e, *known, anion, end);
    }
  });
}

void NameRules::counted_salt(const Ion& cation, int cations, const Ion& anion, std::size_t end) {
  const auto formula = inner::acid_salt_formula(cation, cations, anion);
  if (!formula) return;
  const auto read = read_formula(*formula);
  const auto names = read ? names_by_rule(parts_, *read) : std::vector<std::string>();
  KnownName known;
  known.preferred = names.empty() ? *formula : names.front();
  known.formula = formula;
  offer(end, std::move(known));
}

void NameRules::unsaid_state(const Element& e, const inner::CationElement& element, const Ion& anion, std::size_t end) {
  std::vector<std::string> others;
  for (const int charge : element.charges) {
    if (charge != element.usual) others.push_back(inner::salt_name(inner::element_cation(e, charge), anion));
  }
  if (!element.usual) {
    KnownName known;
    known.preferred = std::string(e.name) + " " + anion.name;
    known.candidates = std::move(others);
    known.assumption = capitalised(std::string(e.name)) + " has several states; say which one.";
    offer(end, std::move(known));
    return;
  }
  const Ion cation = inner::element_cation(e, *element.usual);
  KnownName known = from_formula(inner::salt_formula(cation, anion), inner::salt_name(cation, anion));
  if (cation.show_number) {
    known.assumption =
        capitalised(std::string(e.name)) + " is taken as " + inner::cation_name(cation) + ", its usual state.";
    if (state_matters(anion)) known.candidates = std::move(others);
  }
  offer(end, std::move(known));
}

void NameRules::acids(std::size_t at) {
  for (const auto& hit : parts_.acid_book.hits(tokens_, at)) {
    const Ion& anion = inner::anions()[static_cast<std::size_t>(hit.value)];
    KnownName known;
    known.preferred = anion.acids.front();
    known.formula = inner::acid_formula(anion);
    offer(hit.end, std::move(known));
  }
}

void NameRules::single_ions(std::size_t at) {
  const auto is_ion_word = [this](std::size_t i) {
    return i < tokens_.size() && (tokens_[i].text == "ion" || tokens_[i].text == "ions");
  };
  const auto offer_ion = [this](const Ion& ion, const std::string& name, std::size_t end) {
    KnownName known;
    known.preferred = name + " ion";
    known.formula = inner::ion_formula(ion);
    offer(end, std::move(known));
  };
  for (const auto& hit : parts_.anion_book.hits(tokens_, at)) {
    const Ion& ion = inner::anions()[static_cast<std::size_t>(hit.value)];
    if (is_ion_word(hit.end) && !tokens_[hit.end - 1].stops) offer_ion(ion, ion.name, hit.end + 1);
  }
  for (const auto& hit : parts_.cation_book.hits(tokens_, at)) {
    const CationChoice& choice = parts_.cations[static_cast<std::size_t>(hit.value)];
    if (tokens_[hit.end - 1].stops) continue;
    if (choice.polyatomic != nullptr) {
      if (is_ion_word(hit.end)) offer_ion(*choice.polyatomic, inner::cation_name(*choice.polyatomic), hit.end + 1);
      continue;
    }
    const Element& e = element(choice.element);
    const inner::CationElement* usual = inner::find_cation_element(e.symbol);
    std::optional<int> charge = choice.charge;
    std::size_t end = hit.end;
    if (!charge && number_at(end) && is_ion_word(end + 1)) charge = number_at(end++);
    if (!is_ion_word(end) || usual == nullptr) continue;
    if (!charge) charge = usual->usual;
    if (!charge || *charge < 1 || *charge > 9) continue;
    const Ion ion = inner::element_cation(e, *charge);
    offer_ion(ion, inner::cation_name(ion), end + 1);
  }
}

void NameRules::element_names(std::size_t at) {
  for (const auto& hit : parts_.element_book.hits(tokens_, at)) {
    const Element& e = element(hit.value);
    KnownName known;
    known.preferred = e.name;
    known.formula = e.symbol;
    offer(hit.end, std::move(known));
  }
}

void NameRules::written() {
  std::string_view word = tokens_[0].heard;
  while (!word.empty() && std::string_view(",.;:!?").find(word.back()) != std::string_view::npos) word.remove_suffix(1);
  const auto capitals = std::ranges::count_if(word, [](char c) { return c >= 'A' && c <= 'Z'; });
  const bool digit_inside = std::ranges::any_of(word, [](char c) { return (c >= '0' && c <= '9') || (c & 0x80) != 0; });
  if (capitals == 0 || (capitals < 2 && !digit_inside)) return;
  const auto formula = read_formula(word);
  if (!formula) return;
  std::size_t end = 1;
  while (end < tokens_.size() && tokens_[end].word == tokens_[0].word) ++end;
  const auto names = names_by_rule(parts_, *formula);
  // A word in capitals that merely happens to read ("COIN") is a formula only when the substance is known.
  if (names.empty() && !digit_inside) return;
  KnownName known;
  known.preferred = names.empty() ? std::string(word) : names.front();
  known.formula = std::string(word);
  if (names.size() > 1) known.candidates.assign(names.begin() + 1, names.end());
  if (const double water = formula->water_of_crystallisation().number(); water > 0) known.water = water;
  known.reading = NameReading::written;
  offer(end, std::move(known));
}

// "on" has the atoms of NO, but nobody says them so: the elements must come in the order of the known formula, or in
// the order of a summary formula.
bool NameRules::in_usual_order(const std::string& name, const Formula& formula) const {
  const auto words = inner::words_of(name);
  const auto tokens = inner::name_tokens(words, 0, words.size());
  const auto reading = NameRules(parts_, tokens).longest();
  if (!reading || !reading->known.formula) return false;
  if (reading->known.is_solution_word) return true;  // "N H four O H" is written as a salt and dissolved as NH3
  const auto usual = read_formula(*reading->known.formula);
  const auto same = [&formula](const Composition& other) {
    return std::ranges::equal(other, formula.composition(), {}, &AtomCount::what, &AtomCount::what);
  };
  const auto summary = usual ? read_formula(usual->hill()) : usual;
  return usual && (same(usual->composition()) || (summary && same(summary->composition())));
}

void NameRules::spoken() {
  struct Heard {
    std::size_t end;
    int rank;  // a listed compound before one by rule, before a lone element: "C O" is carbon monoxide
    KnownName known;
  };
  std::vector<Heard> heard;
  for (const SpokenFormula& s : spoken_formulas(tokens_)) {
    const auto formula = read_formula(s.formula);
    if (!formula) continue;
    const bool listed_atoms = parts_.by_composition.contains(formula->hill());
    const bool element = formula->composition().size() == 1;
    // A short word without a number ("nah", "gap"), and a lone letter with one, must be a listed substance.
    const bool one_short_word = s.end == 1 && tokens_[0].text.size() < 4;
    if (one_short_word && (s.english || tokens_[0].text.size() < 3)) continue;
    if ((one_short_word || element) && !listed_atoms) continue;
    const auto names = names_by_rule(parts_, *formula);
    const auto name = std::ranges::find_if(names, [&](const std::string& n) { return in_usual_order(n, *formula); });
    if (name == names.end()) continue;
    KnownName known;
    known.preferred = *name;
    known.formula = s.formula;
    known.doubtful = s.english;
    if (const double water = formula->water_of_crystallisation().number(); water > 0) known.water = water;
    known.reading = NameReading::spoken_formula;
    heard.push_back({s.end, element ? 2 : (listed_atoms ? 0 : 1), std::move(known)});
  }
  if (heard.empty()) return;
  std::ranges::stable_sort(
      heard, [](const Heard& a, const Heard& b) { return a.end != b.end ? a.end > b.end : a.rank < b.rank; });
  Heard& first = heard.front();
  for (const Heard& other : heard) {
    const bool rival = other.end == first.end && other.rank < 2 && other.known.preferred != first.known.preferred;
    if (rival && std::ranges::find(first.known.candidates, other.known.preferred) == first.known.candidates.end()) {
      first.known.candidates.push_back(other.known.preferred);
    }
  }
  if (!first.known.candidates.empty()) {
    // "C O C L two" is phosgene and cobalt(II) chloride: which one, only the person knows.
    first.known.candidates.insert(first.known.candidates.begin(), first.known.preferred);
    first.known.preferred = join(first.known.candidates, " or ");
    first.known.formula.reset();
    first.known.assumption = "The letters can be " + first.known.preferred + "; say which.";
  }
  offer(first.end, std::move(first.known));
}

}  // namespace sash::chem
