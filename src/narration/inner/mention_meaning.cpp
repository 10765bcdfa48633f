#include "narration/inner/mention_meaning.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "chem/names.h"
#include "narration/inner/word_set.h"

namespace sash::narration {

namespace {

/// "not the bicarb", "no the bicarb, the carbonate", "it's like water": expressly something else.
void mark_negated(const TokenStream& s, std::vector<Mention>& mentions) {
  for (Mention& m : mentions) {
    std::size_t i = m.first;
    if (i > 0 && (s.is(i - 1, "the") || s.is(i - 1, "a") || s.is(i - 1, "any"))) --i;
    const bool not_it = i > 0 && (s.is(i - 1, "not") || (s.is(i - 1, "no") && i < m.first) || s.is(i - 1, "isn't"));
    // "it's like water", "clear as water"
    m.negated =
        not_it || (i > 0 && s.is(i - 1, "like") && (s.is(i - 2, "it's") || s.is(i - 2, "looks") || s.is(i - 2, "is")));
  }
}

/// Whether different oils were spoken of before: "the oil" is then all of them.
bool several_oils(const std::vector<Mention>& mentions, std::size_t i) {
  const std::string* one = nullptr;
  for (std::size_t k = 0; k < i; ++k) {
    if (mentions[k].negated || !mentions[k].name.ends_with(" oil")) continue;
    if (one != nullptr && *one != mentions[k].name) return true;
    one = &mentions[k].name;
  }
  return false;
}

/// "The juice" of which none was named yet: of the fruit spoken of before, or the one named next.
void name_juice(const TokenStream& s, std::vector<Mention>& mentions, std::size_t i) {
  constexpr WordSet fruits{"lemon", "lemons", "oranges", "apples", "grapefruit"};
  for (std::size_t t = mentions[i].first; t-- > 0;) {
    std::string_view fruit = s.text(t);
    if (!fruits.has(fruit)) continue;
    if (fruit.ends_with('s')) fruit.remove_suffix(1);
    mentions[i].name = std::string(fruit) + " juice";
    return;
  }
  const auto named = std::find_if(mentions.begin() + static_cast<std::ptrdiff_t>(i), mentions.end(),
                                  [](const Mention& m) { return !m.generic && m.name.ends_with(" juice"); });
  if (named != mentions.end()) mentions[i].name = named->name;
}

/// A word for a kind of material stands for the one named before that ends in it: "the iodate" behind "sodium iodate".
void resolve_generic(const TokenStream& s, std::vector<Mention>& mentions) {
  const auto stands_for = [](const Mention& m, const Mention& before) {
    if (before.generic || before.negated) return false;
    if (m.gas) return before.gas && m.name == "gas";
    if (m.name == "solvent") return before.solvent;
    const std::string_view word = std::string_view(m.name).substr(m.name.rfind(' ') + 1);
    const bool acid_salt = before.name.find(" hydrogen ") != std::string::npos;
    return before.name.find(word) != std::string::npos && (!acid_salt || m.name.find("hydrogen") != std::string::npos);
  };
  bool named = false;  // an acid by its name
  bool vinegar = false;
  for (std::size_t i = 0; i < mentions.size(); ++i) {
    named = named || (mentions[i].acid && !mentions[i].generic);
    vinegar = vinegar || mentions[i].name == "vinegar";
    if (!mentions[i].generic) continue;
    if (mentions[i].name == "acid" && i > 0) {
      if (vinegar && !named) {
        mentions[i].name = "acetic acid";  // the acid in it
        mentions[i].generic = false;
        continue;
      }
    }
    if (mentions[i].name == "oil" && several_oils(mentions, i)) {
      mentions[i].name = "oils";
      mentions[i].generic = false;
      continue;
    }
    for (std::size_t k = i; k-- > 0;) {
      if (!stands_for(mentions[i], mentions[k])) continue;
      const std::size_t first = mentions[i].first;
      const std::size_t last = mentions[i].last;
      const bool solution = mentions[i].solution;
      mentions[i] = mentions[k];
      mentions[i].first = first;
      mentions[i].last = last;
      mentions[i].solution = solution || mentions[k].solution;
      break;
    }
    if (mentions[i].generic && mentions[i].name == "juice") name_juice(s, mentions, i);
  }
  // A class of matter of which none was named says nothing.
  constexpr WordSet classes{"solvent", "aldehyde", "anhydride", "oxide", "buffer"};
  std::erase_if(mentions, [&](const Mention& m) { return m.generic && classes.has(m.name); });
}

constexpr WordSet determiners{"the", "that", "this", "my", "our", "your"};

/// Puts what `before` names where `m` stands.
void stand_for(Mention& m, const Mention& before) {
  const std::size_t first = m.first;
  const std::size_t last = m.last;
  const bool negated = m.negated;
  m = before;
  m.first = first;
  m.last = last;
  m.negated = negated;
}

/// "5 mils of the cobalt" behind cobalt(II) chloride: a metal of which nothing but a salt was ever spoken of.
void shorten_salts(const TokenStream& s, std::vector<Mention>& mentions) {
  constexpr WordSet pieces{"metal",    "strip",   "wire",     "foil",      "powder", "plate", "rod",
                           "turnings", "nail",    "ribbon",   "sheet",     "coin",   "anode", "pipe",
                           "dust",     "filings", "granules", "electrode", "tape",   "gauze"};
  const auto shortened = [&](const Mention& m) {
    return m.element && m.first > 0 && determiners.has(s.text(m.first - 1)) && !pieces.has(s.text(m.last));
  };
  std::set<std::string, std::less<>> spoken_of_as_such;
  for (const Mention& m : mentions) {
    if (m.element && !m.negated && !shortened(m)) spoken_of_as_such.insert(m.name);
  }
  std::map<std::string, Mention, std::less<>> last_salt;  // by its metal
  for (Mention& m : mentions) {
    if (m.dissolves) last_salt[m.name.substr(0, m.name.find_first_of("( "))] = m;
    if (!shortened(m) || spoken_of_as_such.count(m.name) != 0) continue;
    if (const auto salt = last_salt.find(m.name); salt != last_salt.end()) stand_for(m, Mention(salt->second));
  }
}

/// "the alcohol" behind cyclohexanol: ethanol only when no other was named.
void resolve_alcohol(const TokenStream& s, std::vector<Mention>& mentions) {
  std::optional<Mention> last;
  for (Mention& m : mentions) {
    const bool some =
        m.last == m.first + 1 && s.is(m.first, "alcohol") && m.first > 0 && determiners.has(s.text(m.first - 1));
    const std::string_view name = m.name;
    const bool named = name.ends_with("anol") || name.ends_with("-ol") || name.ends_with(" alcohol");
    if (some && last) stand_for(m, *last);
    if (!some && named && !m.negated) last = m;
  }
}

/// "The sugar is glucose", "steel wool, which is near enough pure iron": from there on the first is the second.
void identify(const TokenStream& s, std::vector<Mention>& mentions) {
  constexpr WordSet hedging{"near",   "enough", "pure", "basically", "just",   "really", "mostly", "almost",
                            "pretty", "much",   "only", "actually",  "simply", "dilute", "plain"};
  for (std::size_t i = 0; i + 1 < mentions.size(); ++i) {
    const Mention& one = mentions[i];
    const Mention& other = mentions[i + 1];
    if (one.water || other.water || one.name == other.name || other.generic || other.gas) continue;
    std::size_t t = one.last;
    const bool the = one.first > 0 && s.is(one.first - 1, "the");
    if (s.is(t, ",")) ++t;
    const bool which = s.is(t, "which");
    if (which) ++t;
    if (!s.is(t, "is") || !(which || (the && t == one.last))) continue;
    ++t;
    while (t < other.first && hedging.has(s.text(t))) ++t;
    if (t != other.first) continue;
    const std::string known_as = one.name;
    const Mention meant = other;
    for (std::size_t k = i; k < mentions.size(); ++k) {
      if (mentions[k].name != known_as) continue;
      const std::size_t first = mentions[k].first;
      const std::size_t last = mentions[k].last;
      mentions[k] = meant;
      mentions[k].first = first;
      mentions[k].last = last;
    }
  }
}

/// "iron sulfate" without its number.
std::string without_number(const std::string& name) {
  std::string out;
  bool inside = false;
  for (const char c : name) {
    if (c == '(') inside = true;
    if (!inside) out += c;
    if (c == ')') inside = false;
  }
  return out;
}

/// "iron sulfate" is the "iron two sulfate" spoken of elsewhere.
void make_specific(std::vector<Mention>& mentions) {
  for (Mention& m : mentions) {
    if (!m.dissolves || m.generic || m.name.find('(') != std::string::npos || m.name.find(' ') == std::string::npos)
      continue;
    for (const Mention& other : mentions) {
      if (other.name.find('(') == std::string::npos) continue;
      const std::string plain = without_number(other.name);
      if (plain == m.name || plain.starts_with(m.name + " ")) {
        m.name = other.name;
        break;
      }
    }
  }
}

/// "the hexa hydrate", "trihydrate" a few words behind a name that lacks it.
void add_hydrates(const TokenStream& s, std::vector<Mention>& mentions) {
  constexpr WordSet multiples{"mono", "di", "tri", "tetra", "penta", "hexa", "hepta", "octa", "nona", "deca", "dodeca"};
  std::size_t next = 0;
  for (std::size_t i = 0; i < s.size(); ++i) {
    while (next < mentions.size() && mentions[next].last <= i) ++next;
    if (next == 0) continue;
    std::string hydrate;
    if (multiples.has(s.text(i)) && (s.is(i + 1, "hydrate") || (s.is(i + 1, "-") && s.is(i + 2, "hydrate")))) {
      hydrate = std::string(s.text(i)) + "hydrate";
    } else if (s.text(i).ends_with("hydrate") && multiples.has(s.text(i).substr(0, s.text(i).size() - 7))) {
      hydrate = s.text(i);
    }
    const bool inside = next < mentions.size() && mentions[next].first <= i;
    if (hydrate.empty() || inside) continue;
    // The salt it is said of, past a metal named in between ("that's the iron two one").
    std::size_t which = next - 1;
    if (!mentions[which].dissolves && which > 0) --which;
    Mention& last = mentions[which];
    if (i - last.last > 14 || !last.dissolves) {
      // Further back, the salt that has such a hydrate.
      bool found_salt = false;
      for (std::size_t k = next; k-- > 0 && i - mentions[k].last < 60 && !found_salt;) {
        if (mentions[k].name.find("hydrogen") != std::string::npos) continue;  // acid salts have none
        const std::string with_water = mentions[k].name + " " + hydrate;
        const auto known = mentions[k].dissolves ? chem::normalise_name(with_water) : std::nullopt;
        if (!known || !known->formula || known->preferred.find("hydrate") == std::string::npos) continue;
        found_salt = true;
        const std::string dry = mentions[k].name;
        for (std::size_t n = k; n < mentions.size(); ++n) {
          if (mentions[n].name == dry) mentions[n].name = with_water;
        }
        Mention here = mentions[k];  // it is spoken of here
        here.first = i;
        here.last = i + 1;
        mentions.insert(mentions.begin() + static_cast<std::ptrdiff_t>(next), here);
      }
      continue;
    }
    const std::string plain = last.name;
    if (plain.find("hydrate") != std::string::npos) continue;
    for (std::size_t k = which; k < mentions.size(); ++k) {
      if (mentions[k].name == plain) mentions[k].name += " " + hydrate;
    }
  }
}

/// "Solution A is the iodate": from there on a lone capital A is that solution.
void add_nicknames(const TokenStream& s, std::vector<Mention>& mentions) {
  struct Nickname {
    std::string_view letter;
    Mention stands_for;
  };
  std::vector<Nickname> known;
  std::vector<Mention> all;
  std::size_t next = 0;
  constexpr WordSet holders{"solution", "beaker", "flask", "bottle", "mixture", "part", "mix"};
  constexpr WordSet links{"is", "has", "contains", "holds", "will", "with"};
  for (std::size_t i = 0; i < s.size(); ++i) {
    while (next < mentions.size() && mentions[next].last <= i) all.push_back(mentions[next++]);
    const bool inside = next < mentions.size() && mentions[next].first <= i;
    const std::string_view raw = s[i].raw;
    if (inside || raw.size() != 1 || raw[0] < 'A' || raw[0] > 'F') continue;
    if (i > 0 && holders.has(s.text(i - 1)) && links.has(s.text(i + 1)) && next < mentions.size() &&
        mentions[next].first <= i + 6 && !mentions[next].water) {
      known.push_back({s.text(i), mentions[next]});
      continue;
    }
    const bool named = i > 0 && (s.is(i - 1, "of") || s.is(i - 1, "in") || holders.has(s.text(i - 1)) ||
                                 s.is(i - 1, "so") || links.has(s.text(i + 1)));
    if (!named) continue;
    for (std::size_t k = known.size(); k-- > 0;) {
      if (known[k].letter != s.text(i)) continue;
      Mention m = known[k].stands_for;
      m.first = i;
      m.last = i + 1;
      m.solution = true;
      m.generic = false;
      all.push_back(m);
      break;
    }
  }
  for (; next < mentions.size(); ++next) all.push_back(mentions[next]);
  std::stable_sort(all.begin(), all.end(), [](const Mention& a, const Mention& b) { return a.first < b.first; });
  mentions = std::move(all);
}

}  // namespace

void settle_mentions(const TokenStream& s, std::vector<Mention>& mentions) {
  mark_negated(s, mentions);
  identify(s, mentions);
  make_specific(mentions);
  resolve_generic(s, mentions);
  resolve_alcohol(s, mentions);
  shorten_salts(s, mentions);
  add_hydrates(s, mentions);
  add_nicknames(s, mentions);
}

}  // namespace sash::narration
