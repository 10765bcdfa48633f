#include "narration/inner/dangers.h"

#include <fmt/format.h>

#include <map>

#include "narration/inner/scene.h"

namespace sash::narration {

namespace {

using model::Level;
using model::Route;

constexpr WordSet toxic_gases{"chlorine",         "nitrogen dioxide", "nitrogen monoxide", "sulfur dioxide",
                              "hydrogen sulfide", "carbon monoxide",  "hydrogen chloride", "ozone",
                              "phosphine",        "bromine",          "hydrogen cyanide",  "phosgene",
                              "formaldehyde",     "chlorine dioxide"};
constexpr WordSet flammables{"hydrogen",      "methane",     "propane",       "butane",   "ethyne",
                             "ethene",        "acetone",     "ethanol",       "methanol", "propan-2-ol",
                             "diethyl ether", "hexane",      "heptane",       "pentane",  "petroleum ether",
                             "toluene",       "cyclohexane", "lighter fluid", "gasoline"};
constexpr WordSet corrosives{
    "sulfuric acid",    "nitric acid",         "hydrochloric acid", "phosphoric acid",  "acetic acid",
    "sodium hydroxide", "potassium hydroxide", "hydrogen peroxide", "acetic anhydride", "bromine",
    "ammonia",          "formic acid",         "perchloric acid",   "hydrofluoric acid"};
constexpr WordSet giving_off{"fume",  "fumes",  "fuming",  "evolve", "evolves", "releases", "release",
                             "gives", "makes",  "comes",   "smell",  "bubbles", "bubbling", "gas",
                             "fizz",  "fizzes", "fizzing", "brown",  "off",     "escape",   "escapes"};
constexpr WordSet igniting{"ignite", "ignites", "light", "lit",     "burn",     "burns", "burning", "flame",  "flames",
                           "spark",  "match",   "torch", "explode", "explodes", "pop",   "fire",    "lighter"};
constexpr WordSet handling{"pour",   "pouring", "add",   "adding",   "drip",  "dripping", "goes", "drop",  "tip",
                           "squirt", "poured",  "added", "dissolve", "weigh", "weighing", "mix",  "dilute"};
constexpr WordSet heating{"boil",   "boiling", "boils",  "heat", "heating", "oven", "hotplate",
                          "reflux", "distill", "distil", "melt", "molten",  "hot"};
constexpr WordSet spitting{"spit",  "spits",  "splash", "splashes", "splatter",  "quench",   "quenching",
                           "erupt", "erupts", "foam",   "violent",  "violently", "vigorous", "vigorously"};
constexpr WordSet cautioning{"careful", "carefully",  "never",     "don't",     "do",        "dont",
                             "goggles", "gloves",     "hood",      "warning",   "danger",    "dangerous",
                             "caution", "beware",     "away",      "stand",     "wear",      "ventilated",
                             "outside", "toxic",      "poisonous", "corrosive", "flammable", "shield",
                             "mask",    "respirator", "avoid",     "keep",      "watch"};
/// Words that make a sentence a warning by themselves; "don't" and "keep" need one of `at_stake` beside them.
constexpr WordSet plain_cautions{"goggles",   "gloves",     "careful",    "carefully", "warning",   "danger",
                                 "dangerous", "caution",    "beware",     "toxic",     "poisonous", "corrosive",
                                 "flammable", "respirator", "ventilated", "hood",      "shield"};
constexpr WordSet at_stake{"breathe", "flame", "flames", "fire", "skin",    "eyes", "eye",   "touch",
                           "eat",     "drink", "taste",  "home", "kitchen", "hot",  "fumes", "acid",
                           "smell",   "sink",  "drain",  "heat", "water",   "mix",  "back",  "children",
                           "kids",    "spill", "lean",   "over", "mouth",   "hold"};

class Watcher {
 public:
  explicit Watcher(std::span<const model::NarrationLine> lines) : lines_(lines), s_(open_scene(lines)) {}

  Dangers run() {
    for (std::size_t k = 0; k + 1 < s_.sentence_begin.size(); ++k) {
      begin_ = s_.sentence_begin[k];
      end_ = s_.sentence_begin[k + 1];
      if (begin_ >= end_) continue;
      look();
    }
    return std::move(out_);
  }

 private:
  template <std::size_t N>
  bool has(const WordSet<N>& words) const {
    for (std::size_t i = begin_; i < end_; ++i) {
      if (words.has(s_.word(i))) return true;
    }
    return false;
  }
  bool denied() const {
    for (std::size_t i = begin_; i < end_; ++i) {
      const std::string_view w = s_.word(i);
      if (w == "no" || w == "not" || w == "never" || w.ends_with("n't")) return true;
    }
    return false;
  }

  SpokenSpan span() const {
    const Token& a = s_.tokens[begin_];
    const Token& b = s_.tokens[end_ - 1];
    return {a.line, a.begin, b.line, b.end};
  }

  std::string text() const {
    std::string out;
    const SpokenSpan where = span();
    for (std::size_t l = where.line; l <= where.last_line; ++l) {
      if (lines_[l].noise) continue;
      const std::size_t from = l == where.line ? where.begin : 0;
      const std::size_t until = l == where.last_line ? where.end : lines_[l].text.size();
      if (!out.empty()) out += ' ';
      out += lines_[l].text.substr(from, until - from);
    }
    for (char& c : out) {
      if (c == '\n') c = ' ';
    }
    return out;
  }

  /// One danger of a kind for one substance, until it is spoken of again much later.
  void add(std::string cause, const std::string& substance, Route route, Level level, const char* rule,
           double confidence) {
    constexpr std::size_t again = 150;  // words; about a minute
    const auto key = std::pair(substance.empty() ? std::string(rule) : substance, route);
    const auto last = last_seen_.find(key);
    const bool fresh = last == last_seen_.end() || begin_ - last->second > again;
    last_seen_[key] = begin_;
    if (fresh) out_.dangers.push_back({span(), std::move(cause), substance, route, level, rule, confidence});
  }

  void look() {
    warn();
    const bool ignited = has(igniting) && !denied();
    for (std::size_t i = begin_; i < end_; ++i) {
      if (!s_.mention_at[i]) continue;
      const Mention& m = s_.mentions[*s_.mention_at[i]];
      if (m.first != i) continue;
      look_at(m, ignited);
    }
    if (has(heating) && heats())
      add("hot liquid or apparatus", "", Route::burn, Level::caution, "heated or boiled", 0.5);
    if (has(spitting) && !denied())
      add("splashing or foaming over", "", Route::eyes, Level::warning, "spits or foams", 0.6);
    if (has(WordSet{"sealed", "pressurized", "pressurised", "capped"}) && !denied()) {
      add("pressure in a closed vessel", "", Route::pressure, Level::warning, "closed vessel", 0.5);
    }
  }

  bool heats() const {
    for (const Phrase& p : s_.phrases) {
      if (p.first < begin_ || p.first >= end_) continue;
      if (p.bare_degrees || p.kind == quantity::Kind::temperature) {
        const double celsius = p.unit == "[degF]" ? (p.value - 32) / 1.8 : p.value;
        if (celsius >= 60) return true;
      }
    }
    return has(WordSet{"boil", "boiling", "boils", "oven", "reflux", "molten", "distill", "distil"}) && !denied();
  }

  bool concentrated(const Mention& m) const {
    for (std::size_t i = begin_; i < end_; ++i) {
      const std::string_view w = s_.word(i);
      if (w == "concentrated" || w == "glacial" || w == "fuming") return true;
    }
    for (const Phrase& p : s_.phrases) {
      if (p.first < begin_ || p.first >= end_ || p.first > m.last) continue;
      if (p.kind == quantity::Kind::molar_concentration && p.value >= 2) return true;
      if (p.unit == "%" && p.value >= 20) return true;
    }
    return false;
  }

  void look_at(const Mention& m, bool ignited) {
    if (toxic_gases.has(m.name) && (has(giving_off) || has(cautioning))) {
      add(fmt::format("{} given off", m.name), m.name, Route::inhalation, Level::warning, "toxic gas spoken of", 0.7);
    }
    if (flammables.has(m.name) && ignited) {
      add(fmt::format("{} lit or near a flame", m.name), m.name, Route::fire, Level::danger, "flammable and a flame",
          0.7);
    } else if (m.gas && m.name == "hydrogen" &&
               (has(giving_off) || has(WordSet{"balloon", "balloons", "flask", "cylinder", "fill", "filling"}))) {
      add("hydrogen given off", m.name, Route::fire, Level::warning, "flammable gas given off", 0.6);
    }
    const bool solid_base = m.name == "sodium hydroxide" || m.name == "potassium hydroxide";
    if (corrosives.has(m.name) && has(handling) && (solid_base || concentrated(m))) {
      add(fmt::format("corrosive {} handled", m.name), m.name, Route::skin, Level::danger,
          "corrosive poured or weighed", 0.6);
    }
    if ((m.name == "nitrogen" && s_.word_before(m.last, 2) == "liquid") || s_.word(m.first) == "dry") {
      if (s_.word(m.first + 1) == "ice" || m.name == "nitrogen")
        add("very cold material", m.name, Route::cold, Level::warning, "cryogen", 0.6);
    }
  }

  void warn() {
    const bool plain = has(plain_cautions);
    const bool imperative =
        (denied() || has(WordSet{"keep", "stand", "wear", "watch", "avoid"})) && has(at_stake) && has(cautioning);
    if (!plain && !imperative) return;
    SpokenWarning w;
    w.words = span();
    w.text = text();
    if (has(WordSet{"hood", "breathe", "fumes", "smell", "ventilated", "outside", "respirator", "mask"}))
      w.routes.push_back(Route::inhalation);
    if (has(WordSet{"flame", "flames", "fire", "flammable", "spark"})) w.routes.push_back(Route::fire);
    if (has(WordSet{"gloves", "skin", "corrosive", "touch"})) w.routes.push_back(Route::skin);
    if (has(WordSet{"goggles", "eyes", "eye", "shield"})) w.routes.push_back(Route::eyes);
    if (has(WordSet{"hot", "burn", "boiling"})) w.routes.push_back(Route::burn);
    if (has(WordSet{"eat", "drink", "taste", "poisonous", "mouth"})) w.routes.push_back(Route::ingestion);
    if (has(WordSet{"sink", "drain"})) w.routes.push_back(Route::environment);
    out_.warnings.push_back(std::move(w));
  }

  std::span<const model::NarrationLine> lines_;
  Scene s_;
  std::size_t begin_ = 0;
  std::size_t end_ = 0;
  std::map<std::pair<std::string, Route>, std::size_t> last_seen_;
  Dangers out_;
};

}  // namespace

Dangers find_dangers(std::span<const model::NarrationLine> lines) { return Watcher(lines).run(); }

}  // namespace sash::narration
