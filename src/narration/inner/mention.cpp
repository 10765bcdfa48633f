#include "narration/inner/mention.h"

#include <algorithm>
#include <array>
#include <unordered_map>

#include "chem/names.h"
#include "embedded/bench_materials.h"
#include "narration/inner/mention_meaning.h"
#include "narration/inner/number_words.h"
#include "narration/inner/sounds.h"
#include "narration/inner/unit_words.h"
#include "narration/inner/word_set.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

struct Material {
  std::vector<std::string_view> words;
  std::string_view name;
  std::string_view flags;  ///< letters as the table's header explains
};

class Materials {
 public:
  /// "oil's" is oil.
  static std::string_view stem(std::string_view word) {
    return word.ends_with("'s") ? word.substr(0, word.size() - 2) : word;
  }

  Materials() {
    bool header = true;
    for (const std::string_view line : split_lines(embedded::bench_materials)) {
      if (header) {
        header = false;
        continue;
      }
      const auto cells = split(line, '\t');
      promise(cells.size() == 4, "a row of the bench materials has four cells");
      Material m{split(cells[0], ' '), cells[1], cells[2]};
      by_first_[m.words[0]].push_back(std::move(m));
    }
    for (const auto& [word, list] : by_first_) {
      for (const Material& m : list) {
        if (m.flags.find('r') != std::string_view::npos) continue;
        std::string spoken;
        for (const std::string_view part : m.words) spoken.append(spoken.empty() ? "" : " ").append(part);
        if (std::string key = sounds_of(spoken); key.size() >= 3) by_sound_.try_emplace(std::move(key), m);
      }
    }
    for (auto& [word, list] : by_first_) {
      std::stable_sort(list.begin(), list.end(),
                       [](const Material& a, const Material& b) { return a.words.size() > b.words.size(); });
    }
  }

  /// The row that sounds like `key`.
  const Material* sounding(const std::string& key) const {
    const auto it = by_sound_.find(key);
    return it == by_sound_.end() ? nullptr : &it->second;
  }

  /// The longest row that begins at `at`, and the token behind it.
  const Material* longest(const TokenStream& s, std::size_t at, std::size_t& last) const {
    auto it = by_first_.find(s.text(at));
    if (it == by_first_.end()) it = by_first_.find(stem(s.text(at)));
    if (it == by_first_.end()) return nullptr;
    for (const Material& m : it->second) {
      std::size_t p = at;
      bool all = true;
      for (const std::string_view word : m.words) {
        const std::string_view said = s.text(p++);
        all = all && (said == word || stem(said) == word);
      }
      if (!all) continue;
      last = at + m.words.size();
      return &m;
    }
    return nullptr;
  }

 private:
  std::unordered_map<std::string_view, std::vector<Material>> by_first_;
  std::unordered_map<std::string, Material> by_sound_;
};

const Materials& materials() {
  static const Materials all;
  return all;
}

/// The words as the name book wants them: parted by white space, with their punctuation; and which tokens each covers.
struct Pieces {
  std::vector<std::string_view> words;
  std::vector<std::size_t> first_token;  ///< per word, one more at the end
  std::vector<std::size_t> word_of;      ///< per token
};

Pieces pieces_of(const TokenStream& s, std::span<const model::NarrationLine> lines) {
  Pieces out;
  out.word_of.resize(s.size());
  std::uint32_t line = 0;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  const auto close = [&] {
    if (!out.first_token.empty()) out.words.push_back(std::string_view(lines[line].text).substr(begin, end - begin));
  };
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (!s[i].glued || out.first_token.empty() || s[i].line != line) {
      close();
      out.first_token.push_back(i);
      line = s[i].line;
      begin = s[i].begin;
    }
    end = s[i].end;
    out.word_of[i] = out.first_token.size() - 1;
  }
  close();
  out.first_token.push_back(s.size());
  return out;
}

constexpr WordSet gases{"hydrogen",
                        "oxygen",
                        "nitrogen",
                        "chlorine",
                        "carbon dioxide",
                        "carbon monoxide",
                        "methane",
                        "nitrogen dioxide",
                        "nitrogen monoxide",
                        "nitric oxide",
                        "dinitrogen monoxide",
                        "sulfur dioxide",
                        "hydrogen sulfide",
                        "ethene",
                        "ethyne",
                        "propane",
                        "butane",
                        "helium",
                        "argon",
                        "neon",
                        "ozone",
                        "hydrogen chloride",
                        "dinitrogen tetroxide",
                        "phosphine",
                        "chlorine dioxide"};
constexpr WordSet solvents{"ethanol",    "methanol",      "acetone",    "propan-2-ol", "diethyl ether",
                           "hexane",     "heptane",       "pentane",    "toluene",     "dichloromethane",
                           "chloroform", "ethyl acetate", "cyclohexane"};

bool is_salt_like(std::string_view name) {
  if (name.ends_with("peroxide") || name == "ethyl acetate" || name.ends_with("methyl salicylate")) return false;
  const std::string_view base = name.substr(0, name.find(' ') == std::string_view::npos ? 0 : name.size());
  if (base.empty()) return false;
  const auto has_word_ending = [&](std::string_view ending) {
    for (const std::string_view word : split(base, ' ')) {
      if (word.ends_with(ending)) return true;
    }
    return false;
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

void set_kind_by_name(Mention& m) {
  part_hydrogen(m.name);
  m.gas = m.gas || gases.has(m.name);
  m.solvent = m.solvent || solvents.has(m.name);
  m.acid = m.acid || m.name.ends_with("acid");
  m.water = m.water || m.name == "water";
  m.dissolves = m.dissolves || is_salt_like(m.name);
}

Mention of_material(const Material& m, std::size_t first, std::size_t last) {
  Mention out;
  out.first = first;
  out.last = last;
  out.name = m.name;
  const auto flag = [&](char c) { return m.flags.find(c) != std::string_view::npos; };
  out.gas = flag('g');
  out.acid = flag('a');
  out.water = flag('w');
  out.solvent = flag('s');
  out.solution = flag('l');
  out.dissolves = flag('d');
  out.element = flag('e');
  out.indicator = flag('i');
  out.mixture = flag('m');
  out.generic = flag('r');
  set_kind_by_name(out);
  if (flag('k')) out.gas = false;  // a gas by its name, here solid or liquid
  return out;
}

constexpr std::array<std::string_view, 30> endings = {
    "aldehyde", "phenol",    "anisole",  "amine",         "amide",   "anilide", "toluene", "benzene",
    "xylene",   "pyridine",  "oate",     "ketone",        "lactone", "quinone", "glycol",  "thiol",
    "nitrile",  "anol",      "anone",    "ylate",         "azole",   "idine",   "oline",   "ophenone",
    "zine",     "carbazide", "naphthol", "naphthylamine", "uracil",  "oxime"};

/// Common words that begin no name of a compound: the name book need not be asked. Sorted.
constexpr std::array<std::string_view, 176> common = {
    "a",         "about",  "add",   "after", "again",   "all",   "also",    "an",     "and",    "any",    "are",
    "around",    "as",     "at",    "away",  "back",    "be",    "because", "been",   "before", "bit",    "but",
    "by",        "came",   "can",   "come",  "comes",   "could", "did",     "do",     "does",   "don't",  "down",
    "each",      "easy",   "even",  "every", "fine",    "first", "for",     "from",   "get",    "gets",   "give",
    "go",        "goes",   "going", "good",  "got",     "had",   "has",     "have",   "he",     "her",    "here",
    "his",       "hold",   "hot",   "how",   "i",       "i'm",   "i've",    "if",     "in",     "into",   "is",
    "it",        "it's",   "its",   "just",  "keep",    "know",  "last",    "leave",  "left",   "less",   "let",
    "like",      "little", "long",  "look",  "look's",  "make",  "makes",   "maybe",  "me",     "mine",   "more",
    "most",      "much",   "my",    "need",  "never",   "new",   "next",    "not",    "now",    "off",    "okay",
    "on",        "one",    "only",  "onto",  "or",      "other", "our",     "out",    "over",   "part",   "pour",
    "put",       "really", "right", "said",  "say",     "see",   "she",     "should", "small",  "so",     "some",
    "something", "start",  "stays", "step",  "still",   "stir",  "take",    "than",   "that",   "that's", "the",
    "their",     "them",   "then",  "there", "there's", "these", "they",    "thing",  "this",   "those",  "time",
    "to",        "today",  "too",   "turn",  "two",     "until", "up",      "us",     "use",    "very",   "want",
    "was",       "wash",   "way",   "we",    "we're",   "weigh", "well",    "were",   "what",   "when",   "where",
    "which",     "while",  "who",   "will",  "with",    "would", "yes",     "yet",    "you",    "you're", "your"};
static_assert(std::is_sorted(common.begin(), common.end()));

/// Whether a name is to be expected at `at`: "ten mils of ...", "0.02 molar ...".
bool name_expected(const TokenStream& s, std::size_t at) {
  constexpr WordSet describing{"cold", "hot",   "warm",    "dilute", "dry", "pure",
                               "the",  "fresh", "boiling", "this",   "my",  "concentrated"};
  for (int k = 0; k < 2 && at > 0 && describing.has(s.text(at - 1)); ++k) --at;
  const std::size_t unit_end = at > 0 && s.is(at - 1, "of") ? at - 1 : at;
  for (std::size_t words = 1; words <= 2 && words <= unit_end; ++words) {
    const auto unit = read_spoken_unit(s, unit_end - words,
                                       unit_end - words > 0 && s.is_type(unit_end - words - 1, Token::Type::number));
    if (unit && unit->last == unit_end && unit->kind != quantity::Kind::duration) return true;
  }
  return false;
}

/// A material that sounds like the words at `at`: where a name is expected, any; elsewhere only what is long and in
/// several words, so that it cannot be chance.
const Material* heard(const TokenStream& s, std::size_t at, std::size_t& last) {
  const bool expected = name_expected(s, at);
  if (expected && read_spoken_number(s, at)) return nullptr;  // "20 mils of point one molar"
  const Material* found = nullptr;
  std::string words;
  for (std::size_t i = at; i < s.size() && i < at + 4; ++i) {
    const std::string_view word = s.text(i);
    const bool common_word = std::binary_search(common.begin(), common.end(), word) && word != "all" && word != "for";
    if (s[i].type != Token::Type::word || (i == at && (common_word || (!expected && word.size() < 3)))) break;
    words.append(words.empty() ? "" : " ").append(word);
    if (common_word) continue;
    const bool enough = expected ? i > at || word.size() >= 5 : i > at;
    if (!enough) continue;
    const std::string key = sounds_of(words);
    if (key.size() < (expected ? 3u : 7u)) continue;
    if (const Material* m = materials().sounding(key)) {
      // Few sounds are alike by chance: "brown" is no "piranha".
      constexpr std::size_t telling = 5;
      if (i == at && key.size() < telling && !nearest_spelling(word, m->words)) continue;
      found = m;
      last = i + 1;
    }
  }
  return found;
}

/// A word that no table lists but that ends as names of substances do ("4-aminophenol", "benzilic acid", "thionyl
/// chloride"): the token behind it, or 0.
std::size_t name_by_ending(const TokenStream& s, std::size_t at) {
  std::size_t word = at;
  // Locants: "4-", "2,4-", "n-", "para-"
  while (word + 2 < s.size() && s.is(word + 1, "-") && s[word + 1].glued && s[word + 2].glued &&
         (s.is_type(word, Token::Type::number) || s.text(word).size() == 1 || s.is(word, "para") ||
          s.is(word, "ortho") || s.is(word, "meta") || s.is(word, "tert")))
    word += 2;
  if (!s.is_type(word, Token::Type::word) || s.text(word).size() < 6) return 0;
  const std::string_view text = s.text(word);
  if (text.ends_with("ic") && s.is(word + 1, "acid")) return word + 2;
  constexpr WordSet behind_radical{"chloride", "bromide", "iodide",   "acetate",
                                   "alcohol",  "ether",   "benzoate", "formate"};
  if (text.ends_with("yl") && behind_radical.has(s.text(word + 1))) return word + 2;
  constexpr WordSet salts{"hydrochloride", "hydrobromide", "sulfate",     "sulphate", "dihydrochloride", "oxalate",
                          "phosphate",     "nitrate",      "monohydrate", "chloride", "bromide",         "iodide"};
  for (const std::string_view ending : endings) {
    if (text.ends_with(ending) && text.size() >= ending.size() + (word > at ? 0u : 2u))
      return salts.has(s.text(word + 1)) ? word + 2 : word + 1;
  }
  return 0;
}

/// "CuSO4" is meant as a formula, "up" and "so" are not, though they could be read as one.
bool is_plainly_formula(std::string_view written) {
  std::size_t capitals = 0;
  std::size_t digits = 0;
  for (const char c : written) {
    capitals += c >= 'A' && c <= 'Z' ? 1 : 0;
    digits += c >= '0' && c <= '9' ? 1 : 0;
  }
  return (capitals >= 2 && written.size() > 2) || (digits > 0 && capitals + digits >= 2) ||
         (digits > 0 && written.size() > 3);
}

/// "H two S O four": letters and numbers only. "up to" is none.
bool is_spelled_out(const TokenStream& s, std::size_t first, std::size_t last) {
  constexpr WordSet numbers{"two", "three", "four", "five", "six", "seven", "eight", "to", "too", "for"};
  std::size_t letters = 0;
  for (std::size_t i = first; i < last; ++i) {
    const bool letter = s[i].type == Token::Type::word && s.text(i).size() == 1;
    letters += letter ? 1 : 0;
    const bool number = s[i].type == Token::Type::number || numbers.has(s.text(i));
    if (!letter && !number && !(s[i].type == Token::Type::word && is_plainly_formula(s[i].raw))) return false;
  }
  return letters > 0;
}

constexpr WordSet containers{"can",     "cans",  "carton", "bottle",  "bottles", "jar",   "bag",  "bath",  "dish",
                             "crate",   "maker", "stand",  "pipe",    "cycle",   "box",   "mill", "board", "filter",
                             "filters", "cup",   "mug",    "grinder", "spoon",   "knife", "shop", "pot",   "machine"};

/// Words that name a compound but are ordinary English where they stand.
bool is_everyday(const TokenStream& s, std::size_t at, std::size_t last) {
  if (containers.has(s.text(last))) return true;
  if (last != at + 1) return false;
  const std::string_view word = s.text(at);
  if (word == "lead") return s.is(at - 1, "the") ? false : s.is(at + 1, "to") || s.is(at + 1, "the");
  if (word == "tin") return s.is(at + 1, "can") || s.is(at + 1, "of");
  if (word == "gold" || word == "silver")
    return s.is(at + 1, "colored") || s.is(at + 1, "medal") || s.is(at + 1, "color");
  if (word == "air") return s.is(at - 1, "the") || s.is(at - 1, "fresh") || s.is(at - 1, "in");
  if (word == "ice") return true;
  return false;
}

}  // namespace

namespace {

/// What was heard where a name was expected is that name everywhere, in whatever words it is written there.
void recognise_again(const TokenStream& s, const std::unordered_map<std::string, const Material*>& learned,
                     std::vector<Mention>& found) {
  if (learned.empty()) return;
  std::vector<Mention> all;
  std::size_t next = 0;
  for (std::size_t i = 0; i < s.size();) {
    while (next < found.size() && found[next].last <= i) ++next;
    std::string words;
    std::size_t last = i;
    const Material* known = nullptr;
    for (std::size_t k = i; k < i + 4 && k < s.size() && s[k].type == Token::Type::word; ++k) {
      words.append(words.empty() ? "" : " ").append(s.text(k));
      if (const auto it = learned.find(sounds_of(words)); it != learned.end() && k > i) {
        known = it->second;
        last = k + 1;
      }
    }
    const bool mention_here = next < found.size() && found[next].first == i;
    if (known != nullptr && (!mention_here || found[next].last < last)) {
      all.push_back(of_material(*known, i, last));
      i = last;
    } else if (mention_here) {
      i = found[next].last;
      all.push_back(std::move(found[next++]));
    } else {
      ++i;
    }
  }
  found = std::move(all);
}

}  // namespace

bool names_gas(std::string_view name) { return gases.has(name); }

std::vector<Mention> find_mentions(const TokenStream& s, std::span<const model::NarrationLine> lines) {
  const Pieces pieces = pieces_of(s, lines);
  const chem::NameBook& book = chem::NameBook::standard();
  std::vector<Mention> found;
  std::unordered_map<std::string, const Material*>
      learned;  ///< what the recogniser wrote for names, where that is certain
  for (std::size_t i = 0; i < s.size();) {
    const bool locant = s[i].type == Token::Type::number && s.is(i + 1, "-") && s[i + 1].glued &&
                        s.is_type(i + 2, Token::Type::word) && s[i + 2].glued;  // "4-aminophenol"
    if (s[i].type != Token::Type::word && !locant) {
      ++i;
      continue;
    }
    std::size_t material_last = i;
    const Material* material = materials().longest(s, i, material_last);
    std::optional<chem::NameMatch> match;
    std::size_t match_last = i;
    if (pieces.first_token[pieces.word_of[i]] == i && !std::binary_search(common.begin(), common.end(), s.text(i))) {
      match = book.find_longest(pieces.words, pieces.word_of[i]);
      if (match) {
        match_last = pieces.first_token[pieces.word_of[i] + match->length];
        // The last word may carry its comma or full stop.
        while (match_last > i + 1 && s[match_last - 1].type == Token::Type::sign && s[match_last - 1].text != ")") {
          --match_last;
        }
      }
    }
    const bool name = match && match->known.reading == chem::NameReading::name;
    bool formula = match && match_last == i + 1 && is_plainly_formula(s[i].raw);
    if (match && match_last > i + 1) formula = is_spelled_out(s, i, match_last);
    std::size_t heard_last = i;
    const Material* sounding = locant ? nullptr : heard(s, i, heard_last);
    if (sounding != nullptr &&
        heard_last <= std::max(match ? match_last : i, material != nullptr ? material_last : i)) {
      sounding = nullptr;  // as it is written it says at least as much
      heard_last = i;
    }
    const bool plain = match && !match->known.doubtful && (name || formula) && (!locant || match_last > i + 2);
    if (plain && match_last > material_last && heard_last <= match_last && !is_everyday(s, i, match_last)) {
      Mention m;
      m.first = i;
      m.last = match_last;
      m.name = match->known.preferred;
      m.mixture = match->known.is_mixture;
      m.solution = match->known.is_solution_word;
      set_kind_by_name(m);
      found.push_back(std::move(m));
    } else if (material != nullptr && !is_everyday(s, i, material_last) && heard_last <= material_last) {
      found.push_back(of_material(*material, i, material_last));
    } else if (sounding != nullptr) {
      found.push_back(of_material(*sounding, i, heard_last));
      std::string words;
      for (std::size_t k = i; k < heard_last; ++k) words.append(words.empty() ? "" : " ").append(s.text(k));
      learned.emplace(sounds_of(words), sounding);
    } else if (const std::size_t last = name_by_ending(s, i); last != 0) {
      Mention m;
      m.first = i;
      m.last = last;
      for (std::size_t k = i; k < last; ++k) m.name += (k > i && !s[k].glued ? " " : "") + std::string(s.text(k));
      set_kind_by_name(m);
      found.push_back(std::move(m));
    } else {
      ++i;
      continue;
    }
    i = found.back().last;
    if (s.is(i, "solution")) found.back().solution = true;
    // "borax water": its solution.
    const bool watery = s.is(i, "water") && !s.is(i + 1, "bath") && found.back().dissolves && !found.back().generic;
    if (watery) {
      found.back().solution = true;
      found.back().last = ++i;
    }
  }
  recognise_again(s, learned, found);
  settle_mentions(s, found);
  return found;
}

}  // namespace sash::narration
