#include "narration/inner/dangers.h"

#include <fmt/format.h>

#include <map>
#include <unordered_map>
#include <utility>

#include "embedded/corrosive_limits.h"
#include "narration/inner/scene.h"
#include "support/check.h"
#include "support/text.h"

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
/// From which strength a solution is corrosive.
struct CorrosiveLimit {
  double percent = 0;
  double molar = 0;
};
const std::unordered_map<std::string_view, CorrosiveLimit>& corrosives() {
  static const std::unordered_map<std::string_view, CorrosiveLimit> all = [] {
    std::unordered_map<std::string_view, CorrosiveLimit> limits;
    bool header = true;
    for (const std::string_view line : split_lines(embedded::corrosive_limits)) {
      if (std::exchange(header, false)) continue;
      const auto cells = split(line, '	');
      promise(cells.size() == 4, "a row of the corrosive limits has four cells");
      limits.emplace(cells[0], CorrosiveLimit{read_number(cells[1]).value_or(0), read_number(cells[2]).value_or(0)});
    }
    return limits;
  }();
  return all;
}
constexpr WordSet giving_off{"fume",  "fumes",  "fuming",  "evolve", "evolves", "releases", "release",
                             "gives", "makes",  "comes",   "smell",  "bubbles", "bubbling", "gas",
                             "fizz",  "fizzes", "fizzing", "brown",  "off",     "escape",   "escapes"};
constexpr WordSet igniting{"ignite", "ignites", "light", "lit",     "burn",     "burns", "burning", "flame",  "flames",
                           "spark",  "match",   "torch", "explode", "explodes", "pop",   "fire",    "lighter"};
/// What is to be kept away from what burns.
constexpr WordSet kept_away{"flame", "flames", "spark", "sparks", "smoking", "lighter", "match", "matches", "naked"};
constexpr WordSet harmful_vapours{"dichloromethane",  "chloroform",      "toluene",       "benzene",
                                  "pyridine",         "acetonitrile",    "bromine",       "hexane",
                                  "formaldehyde",     "aniline",         "diethyl ether", "acetyl chloride",
                                  "thionyl chloride", "carbon disulfide"};
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
  explicit Watcher(std::span<const model::NarrationLine> lines) : lines_(lines), s_(read_scene(lines)) {}

  Dangers run() {
    for (std::size_t k = 0; k + 1 < s_.sentence_begin.size(); ++k) {
      begin_ = s_.sentence_begin[k];
      end_ = s_.sentence_begin[k + 1];
      if (begin_ >= end_) continue;
      look();
      look_at_figures();
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
  bool follows(std::string_view one, std::string_view other) const {
    for (std::size_t i = begin_; i + 1 < end_; ++i) {
      if (s_.word(i) == one && s_.word(i + 1) == other) return true;
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
    constexpr std::size_t again = 300;  // words; about two minutes
    const auto key = std::pair(substance.empty() ? std::string(rule) : substance, route);
    const auto last = last_seen_.find(key);
    if (last != last_seen_.end() && begin_ - last->second <= again) return;
    last_seen_[key] = begin_;
    out_.dangers.push_back({span(), std::move(cause), substance, route, level, rule, confidence});
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
    if (boils()) add("hot liquid or apparatus", "", Route::burn, Level::caution, "heated or boiled", 0.5);
    if (has(WordSet{"hot"}) && has(WordSet{"touch", "touching", "burn", "burnt", "hands"}))
      add("hot liquid or apparatus", "", Route::burn, Level::caution, "too hot to touch", 0.6);
    if (denied() && has(WordSet{"taste", "eat", "drink", "swallow", "lick"}))
      add("harmful when swallowed", "", Route::ingestion, Level::warning, "not to be eaten", 0.6);
    if (has(spitting) && !denied())
      add("splashing or foaming over", "", Route::eyes, Level::warning, "spits or foams", 0.6);
    const bool vented = has(WordSet{"vent", "venting", "vents"}) &&
                        has(WordSet{"funnel", "pressure", "stopper", "bung", "shake", "shaking", "build"});
    if (vented || (has(WordSet{"sealed", "pressurized", "pressurised", "capped"}) && !denied())) {
      add("pressure in a closed vessel", "", Route::pressure, Level::warning, "closed vessel", 0.5);
    }
  }

  /// Whether something is boiled: the verb is not taken back right before.
  bool boils() const {
    constexpr WordSet boiling{"boil",   "boiling", "boils", "boiled",  "reflux",   "refluxing", "molten",
                              "distil", "distill", "oven",  "heating", "hotplate", "simmer",    "melt"};
    for (std::size_t i = begin_; i < end_; ++i) {
      if (!boiling.has(s_.word(i))) continue;
      bool taken_back = false;
      for (std::size_t k = i; k-- > begin_ && i - k <= 4;) {
        const std::string_view w = s_.word(k);
        taken_back = taken_back || w == "no" || w == "not" || w == "never" || w.ends_with("n't");
      }
      const std::string_view next = s_.word(i + 1);
      const bool point = next == "point" || next == "at" || next == "stones" || next == "chips";
      if (!taken_back && !point) return true;
    }
    return false;
  }

  /// What the figures of the sentence tell: how hot, how much of a corrosive, a flammable near heat, a harmful vapour.
  void look_at_figures() {
    for (; next_ < s_.figures.size() && s_.phrase_of(s_.figures[next_]).first < end_; ++next_) {
      const Draft& d = s_.figures[next_];
      const Phrase& p = s_.phrase_of(d);
      if (d.role == model::Role::other) continue;
      if (p.kind == quantity::Kind::temperature && d.role == model::Role::condition) {
        const double top = p.upper.value_or(p.value);
        const double celsius = p.unit == "[degF]" ? (top - 32) / 1.8 : p.unit == "K" ? top - 273.15 : top;
        if (celsius >= 60) add("hot liquid or apparatus", "", Route::burn, Level::caution, "heated or boiled", 0.6);
      }
      const bool portion = p.kind == quantity::Kind::volume || p.kind == quantity::Kind::mass;
      const bool handled =
          d.role == model::Role::measured_out || d.role == model::Role::added || d.role == model::Role::solvent;
      if (portion && handled && d.mention != nullptr) look_at_portion(d, p);
    }
  }

  void look_at_portion(const Draft& d, const Phrase& p) {
    const std::string& name = d.mention->name;
    const bool solid = p.kind == quantity::Kind::mass;
    if (corrosives().count(name) != 0 &&
        (is_strong(next_) || (solid && name.ends_with("hydroxide")) || name.ends_with("anhydride")))
      add(fmt::format("corrosive {} handled", name), name, Route::skin, Level::danger, "corrosive poured or weighed",
          0.65);
    const bool drops = p.unit == "[drp]";
    if (flammables.has(name) && !drops && heat_near(p))
      add(fmt::format("flammable {} heated", name), name, Route::fire, Level::danger, "flammable and heat", 0.6);
    if (harmful_vapours.has(name) && !drops)
      add(fmt::format("vapour of {}", name), name, Route::inhalation, Level::warning, "volatile and harmful", 0.6);
  }

  /// Whether the corrosive of that figure is strong: by its strength, or as bought when no strength makes it weak.
  bool is_strong(std::size_t figure) const {
    const Draft& d = s_.figures[figure];
    const CorrosiveLimit& limit = corrosives().at(d.mention->name);
    for (std::size_t k = figure > 4 ? figure - 4 : 0; k < s_.figures.size() && k < figure + 5; ++k) {
      const Draft& other = s_.figures[k];
      const Phrase& q = s_.phrase_of(other);
      if (other.mention == nullptr || other.mention->name != d.mention->name) continue;
      if (q.kind == quantity::Kind::molar_concentration) return q.value >= limit.molar;
      if (q.unit == "%") return q.value >= limit.percent;
    }
    const Phrase& p = s_.phrase_of(d);
    for (std::size_t t = p.first > 12 ? p.first - 12 : 0; t < p.last + 8 && t < s_.size(); ++t) {
      const std::string_view w = s_.word(t);
      if (w == "dilute" || w == "diluted" || w == "weak") return false;
      if (w == "concentrated" || w == "glacial" || w == "fuming" || w == "conc") return true;
    }
    return name_of_strong_acid(d.mention->name);
  }
  static bool name_of_strong_acid(std::string_view name) {
    return name == "sulfuric acid" || name == "nitric acid" || name == "perchloric acid" || name == "bromine";
  }

  bool heat_near(const Phrase& p) const {
    constexpr WordSet warm{"hot",    "boil",   "boiling", "boils",    "heat",  "heated", "heating",
                           "reflux", "distil", "distill", "hotplate", "flame", "burner", "warm"};
    for (std::size_t t = p.first > 8 ? p.first - 8 : 0; t < p.last + 10 && t < s_.size(); ++t) {
      if (warm.has(s_.word(t)) && s_.word(t + 1) != "water") return true;
      if (s_.phrase_at[t]) {
        const Phrase& q = s_.phrases[*s_.phrase_at[t]];
        if (q.kind == quantity::Kind::temperature && q.fate == Fate::figure && q.unit == "Cel" && q.value >= 40)
          return true;
      }
    }
    return false;
  }

  void look_at(const Mention& m, bool ignited) {
    if (toxic_gases.has(m.name) && (has(giving_off) || has(cautioning))) {
      add(fmt::format("{} given off", m.name), m.name, Route::inhalation, Level::warning, "toxic gas spoken of", 0.7);
    }
    constexpr WordSet warm{"hot", "boiling", "warm", "refluxing"};
    if (flammables.has(m.name) && m.first > begin_ && warm.has(s_.word(m.first - 1)))
      add(fmt::format("flammable {} heated", m.name), m.name, Route::fire, Level::danger, "flammable and heat", 0.6);
    if (flammables.has(m.name) && denied() && has(kept_away)) {
      add(fmt::format("{} and flames that are warned of", m.name), m.name, Route::fire, Level::warning,
          "flames warned of", 0.65);
    } else if (flammables.has(m.name) && ignited) {
      add(fmt::format("{} lit or near a flame", m.name), m.name, Route::fire, Level::danger, "flammable and a flame",
          0.7);
    } else if (m.gas && m.name == "hydrogen" &&
               (has(giving_off) || has(WordSet{"balloon", "balloons", "flask", "cylinder", "fill", "filling"}))) {
      add("hydrogen given off", m.name, Route::fire, Level::warning, "flammable gas given off", 0.6);
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
    const bool forbidden = denied() && has(kept_away);  // "no flames in here"
    const bool drawn_off = follows("fume", "cupboard") || follows("fume", "hood") || has(WordSet{"extractor"});
    const bool covered = follows("safety", "glasses") || follows("safety", "specs") || has(WordSet{"visor"});
    if (!plain && !imperative && !forbidden && !drawn_off && !covered) return;
    SpokenWarning w;
    w.words = span();
    w.text = text();
    if (has(WordSet{"hood", "breathe", "fumes", "smell", "ventilated", "outside", "respirator", "mask"}) || drawn_off)
      w.routes.push_back(Route::inhalation);
    if (has(WordSet{"fire", "flammable"}) || has(kept_away)) w.routes.push_back(Route::fire);
    if (has(WordSet{"gloves", "skin", "corrosive", "touch"})) w.routes.push_back(Route::skin);
    if (has(WordSet{"goggles", "eyes", "eye", "shield", "visor"}) || covered) w.routes.push_back(Route::eyes);
    if (has(WordSet{"hot", "burn", "boiling"})) w.routes.push_back(Route::burn);
    if (has(WordSet{"eat", "drink", "taste", "poisonous", "mouth"})) w.routes.push_back(Route::ingestion);
    if (has(WordSet{"sink", "drain"})) w.routes.push_back(Route::environment);
    out_.warnings.push_back(std::move(w));
  }

  std::span<const model::NarrationLine> lines_;
  Scene s_;
  std::size_t begin_ = 0;
  std::size_t end_ = 0;
  std::size_t next_ = 0;                                            ///< the first figure not looked at yet
  std::map<std::pair<std::string, Route>, std::size_t> last_seen_;  ///< where it was told last
  Dangers out_;
};

}  // namespace

Dangers find_dangers(std::span<const model::NarrationLine> lines) { return Watcher(lines).run(); }

}  // namespace sash::narration
