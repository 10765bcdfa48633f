// What each figure is about: the material named behind it ("of 68% nitric acid"), before it ("acetic anhydride, 7 mL"),
// the one spoken of last, the product of the whole procedure, or the mixture in the pot.

#include <algorithm>

#include "narration/inner/conditions.h"
#include "narration/inner/scene.h"
#include "narration/inner/surroundings.h"
#include "narration/inner/topics.h"
#include "support/text.h"

namespace sash::narration {

namespace {

using quantity::Kind;

bool is_liquid_strength(Kind k) {
  return k == Kind::mass_percent || k == Kind::molar_concentration || k == Kind::volume_percent;
}

class Namer : Surroundings {
 public:
  explicit Namer(Scene& s) : Surroundings(s), conditions_(s), introductions_(find_introductions(s)) {}

  void run() {
    for (std::size_t i = 0; i < s_.phrases.size(); ++i) {
      if (s_.phrases[i].fate != Fate::figure) continue;
      Draft d;
      d.phrase = i;
      name(d);
      follow_topic(d);
      make_gas(d);
      note_titrant(d);
      s_.figures.push_back(std::move(d));
    }
  }

 private:
  /// The last introduction before `token`.
  const Mention* introduced(std::size_t token, std::size_t reach) const {
    const auto behind_token = std::partition_point(introductions_.begin(), introductions_.end(),
                                                   [&](const Mention* m) { return m->last <= token; });
    if (behind_token == introductions_.begin()) return nullptr;
    const Mention* m = *(behind_token - 1);
    return token - m->last <= reach ? m : nullptr;
  }

  /// What is being spoken of from this figure on.
  void follow_topic(const Draft& d) {
    if (d.mention == nullptr || d.mention->water || !is_material(s_.phrase_of(d).kind)) return;
    if (d.mention->indicator) return;
    if (d.mention->solvent) {
      solvent_ = d.mention;
      solvent_token_ = std::max(s_.phrase_of(d).first, d.mention->first);
      return;
    }
    topic_ = d.mention;
    topic_token_ = std::max(s_.phrase_of(d).first, d.mention->first);
    ++materials_;
  }

  /// The material spoken of last: introduced, measured or isolated, whichever came later; or else named at all.
  const Mention* spoken_of(std::size_t token, std::size_t reach) const {
    const Mention* best = topic_ != nullptr && token - topic_token_ < 200 ? topic_ : nullptr;
    std::size_t best_token = topic_token_;
    const auto prefer = [&](const Mention* m, std::size_t at) {
      if (m == nullptr || (best != nullptr && at <= best_token)) return;
      best = m;
      best_token = at;
    };
    const Mention* begun = introduced(token, 150);
    if (begun != nullptr && !begun->solvent) prefer(begun, begun->first);
    const auto isolated = s_.workup_before(token);
    // "Now the benzaldehyde. I distilled it first": cleaned, not made.
    constexpr WordSet cleaning{"distilled",      "distil",        "distill", "recrystallised",
                               "recrystallized", "recrystallise", "dried",   "recrystallize"};
    const bool cleaned = begun != nullptr && isolated && *isolated > begun->last && *isolated - begun->last < 25 &&
                         cleaning.has(s_.word(*isolated)) && s_.word(*isolated + 1) == "it";
    if (isolated && !cleaned && materials_ >= 2 && token - *isolated < 200) prefer(s_.product_at(token), *isolated);
    if (best != nullptr) return best;
    for (std::size_t i = token; i-- > 0 && token - i < reach;) {
      const Mention* m = mention_at(i);
      if (m != nullptr && !m->water && !m->solvent && !m->gas && !is_vague(m->name)) return m;
    }
    return topic_;
  }

  const Mention* product(const Phrase& p) const { return s_.product_at(p.first); }

  /// Volumes and strengths of a dissolved salt are those of its solution.
  static std::string in_solution(const Mention& m) {
    if (!m.dissolves && !m.solution) return m.name;
    if (m.name.ends_with("solution") || m.mixture || m.acid || m.water) return m.name;
    std::string name = m.name;
    for (const std::string_view part : split(m.name, ' ')) {
      if (part.ends_with("hydrate") && part != m.name) name = m.name.substr(0, m.name.size() - part.size() - 1);
    }
    return name + " solution";
  }

  void take(Draft& d, const Mention* m, const char* rule) {
    if (m == nullptr) return;
    const Kind k = s_.phrase_of(d).kind;
    const bool wet = (k == Kind::volume && !s_.phrase_of(d).unit.empty()) || k == Kind::mass_percent ||
                     k == Kind::molar_concentration || k == Kind::temperature || k == Kind::pH ||
                     k == Kind::temperature_change;
    d.mention = m;
    d.subject = wet && !m->gas ? in_solution(*m) : m->name;
    d.subject_rule = rule;
  }

  void copy(Draft& d, const Draft& from, const char* rule) {
    if (from.mention != nullptr) return take(d, from.mention, rule);
    d.subject = from.subject;
    d.subject_rule = rule;
  }
  void take(Draft& d, const About& about) {
    if (about.mention != nullptr && about.name == about.mention->name) return take(d, about.mention, about.rule);
    d.subject = about.name;
    d.mention = about.mention;
    d.subject_rule = about.rule;
  }

  void name(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    switch (p.kind) {
      case Kind::mass:
      case Kind::volume:
      case Kind::gas_volume:
        return name_portion(d);
      case Kind::amount:
        return name_amount(d);
      case Kind::molar_concentration:
      case Kind::mass_percent:
      case Kind::volume_percent:
      case Kind::mass_concentration:
        return name_strength(d);
      case Kind::count:
      case Kind::fraction:
        return name_count(d);
      case Kind::density:
      case Kind::molar_mass:
      case Kind::equivalents:
        if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
        if (const Draft* last = last_draft(p.first, 60)) return copy(d, *last, "as the figure before");
        return take(d, spoken_of(p.first, 40), "spoken of last");
      case Kind::percent_yield:
      case Kind::percent_other:
        return name_share(d);
      case Kind::temperature:
      case Kind::temperature_change:
        return take(d, conditions_.temperature(p));
      case Kind::duration:
        return take(d, conditions_.duration(p));
      case Kind::pH:
        return take(d, conditions_.acidity(p));
      case Kind::length:
        if (const Mention* m = before_in_sentence(p.first, true)) return take(d, m, "named before");
        if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
        if (const Draft* last = last_draft(p.first, 24)) return copy(d, *last, "as the figure before");
        return;
      default:
        return;
    }
  }

  void take_found(Draft& d, const Found& found, const char* rule) {
    const Mention* product = s_.product_at(s_.phrase_of(d).first);
    constexpr WordSet what_came_out{"pigment", "dye", "residue", "precipitate", "distillate"};
    if (found.mention != nullptr && what_came_out.has(found.mention->name) && product != nullptr)
      return take(d, product, "by what it is for");
    if (found.mention != nullptr) return take(d, found.mention, rule);
    d.subject = found.name;
    d.subject_rule = "named behind, in words no table knows";
  }

  void name_portion(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
    if (const auto noun = product_noun(p.last)) {
      const bool out = *noun == Noun::outcome || s_.workup_before(p.first).has_value();
      const Mention* before = before_in_sentence(p.first, true);
      if (!out && before != nullptr) return take(d, before, "named before");
      return take(d, out && product(p) != nullptr ? product(p) : spoken_of(p.first, 60), "by what it looks like");
    }
    if (points_back(p.last)) return name_pointed_at(d);
    if (boils_down(p)) {
      d.subject = pot;
      d.subject_rule = "what is boiled down";
      return;
    }
    constexpr WordSet pieces{"cathode", "anode",   "strip",       "electrode", "plate", "foil", "cathode's",
                             "anode's", "strip's", "electrode's", "plate's",   "nail",  "coin"};
    if (p.kind == Kind::mass && s_.find_before(p.first, pieces, 9)) {
      for (std::size_t k = s_.mentions.size(); k-- > 0;) {
        if (s_.mentions[k].first < p.first && s_.mentions[k].element)
          return take(d, &s_.mentions[k], "the metal of the piece");
      }
    }
    if (weighs_a_vessel(p)) {
      d.subject_rule = "a vessel is weighed";
      return;
    }
    if (p.kind == Kind::volume && water_unsaid(p)) {
      d.subject = "water";
      d.mention = last_water(p.first);
      d.subject_rule = "dissolved or washed, in what goes without saying";
      return;
    }
    if (!s_.figures.empty() && s_.figures.back().subject == "gas" &&
        p.first - s_.phrase_of(s_.figures.back()).first < 12) {
      return copy(d, s_.figures.back(), "as the figure before");
    }
    if (p.kind == Kind::volume && speaks_of_gas(p)) {
      if (const Mention* gas = last_gas(p.first)) return take(d, gas, "the gas that is caught");
    }
    if (p.kind == Kind::volume && titrant_ != nullptr && read_off_burette(d))
      return take(d, titrant_, "what is in the burette");
    if (const Draft* before = said_before(p)) return copy(d, *before, "said before");
    if (p.kind == Kind::volume && is_made_up(p)) return name_made_up(d);
    if (const Draft* before = puts_again(p)) return copy(d, *before, "the figure before in other words");
    if (const Draft* count = counted_before(p)) return copy(d, *count, "as what is counted");
    if (p.kind == Kind::volume) {
      if (const Mention* m = solvent_spoken_of(p.first)) return take(d, m, "the solvent spoken of");
    }
    if (const Mention* m = asked_for(p.first)) return take(d, m, "what was asked for");
    name_unnamed_portion(d);
  }

  /// The figure of which the number was recognised as said again.
  const Draft* said_before(const Phrase& p) const {
    if (std::string_view(p.rule) != "said before with its unit") return nullptr;
    for (std::size_t i = s_.figures.size(); i-- > 0;) {
      const Phrase& q = s_.phrase_of(s_.figures[i]);
      if (q.kind == p.kind && q.value == p.value && q.unit == p.unit) return &s_.figures[i];
    }
    return nullptr;
  }

  /// "top it up to the 250 line", "make it up to 250 with distilled water".
  bool is_made_up(const Phrase& p) const {
    constexpr WordSet making{"made",   "make", "making", "top",   "topped",  "topping", "diluted",
                             "dilute", "fill", "filled", "bring", "brought", "filling", "diluting"};
    return s_.find_before(p.first, WordSet{"to"}, 3) && s_.find_before(p.first, making, 8) &&
           (s_.find_before(p.first, WordSet{"up", "diluted", "dilute"}, 6) ||
            s_.find_after(p.last, WordSet{"mark", "line"}, 3));
  }

  /// Of the aliquot that is diluted in the same breath, else of the last solid that was weighed in, in solution.
  void name_made_up(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    const Draft* solute = nullptr;
    for (std::size_t i = s_.figures.size(); i-- > 0 && p.first - s_.phrase_of(s_.figures[i]).first < 150;) {
      const Draft& other = s_.figures[i];
      const Phrase& q = s_.phrase_of(other);
      const bool dry = other.mention != nullptr && !other.mention->water && !other.mention->solvent;
      if (!dry || (q.kind != Kind::mass && q.kind != Kind::volume) || q.unit == "[drp]") continue;
      const bool same_breath = p.first - q.last < 24;
      if (same_breath || (q.kind == Kind::mass && other.mention->dissolves)) {
        solute = &other;
        break;
      }
    }
    if (solute != nullptr) return take(d, solute->mention, "what is made up to a volume");
    take(d, spoken_of(p.first, 60), "what is made up to a volume");
  }

  /// Nothing behind the figure names its matter: what the sentence is about, what is expected, isolated, spoken of.
  void name_unnamed_portion(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    const Mention* near = before_in_sentence(p.first, false);
    if (near != nullptr && (is_vague(near->name) || (stands_by(*near) && p.first - near->last > 2))) near = nullptr;
    const bool each = s_.word(p.last) == "each" || s_.word(p.last) == "apiece";
    const bool isolated =
        (each && p.kind == Kind::mass) || (p.kind == Kind::mass && nets(d.phrase)) || about_product(p);
    if (isolated && near == nullptr && product(p) != nullptr)
      return take(d, product(p), "the product of the procedure");
    // "so that's 6.5 grams": the same again in another unit, of what the figure before is about.
    constexpr WordSet same_again{"that's", "so",   "or",   "is",    "which", "it's",
                                 "makes",  "that", "this", "again", "say",   "dropped"};
    const bool again = same_again.has(s_.word_before(p.first)) || same_again.has(s_.word_before(p.first, 2));
    const Draft* last = last_draft(p.first, 40);
    const Mention* intro = introduced(p.first, 60);
    if (intro != nullptr && intro->solvent && p.kind != Kind::volume) intro = nullptr;
    if (intro != nullptr && last != nullptr && intro->first > s_.phrase_of(*last).first) last = nullptr;
    if (p.kind == Kind::volume && s_.act_before(p.first, Acts(Act::obtain, Act::reckon), 14)) {
      for (std::size_t i = p.first; i-- > 0 && p.first - i < 16;) {
        if (const Mention* gas = mention_at(i); gas != nullptr && gas->gas) return take(d, gas, "the gas spoken of");
      }
    }
    if (near != nullptr && product(p) != nullptr && p.kind == Kind::mass && yields_from(*near, p))
      return take(d, product(p), "what it gives");
    if (near != nullptr && last != nullptr && again && s_.phrase_of(*last).first > near->last)
      return copy(d, *last, "as the figure before");
    if (near != nullptr) return take(d, near, "named before");
    const bool at_the_end = s_.workup_before(p.first) || (introduced(p.first, 90) == nullptr && materials_ >= 2);
    if (p.kind == Kind::mass && product(p) != nullptr && at_the_end && s_.act_before(p.first, Acts(Act::reckon), 8))
      return take(d, product(p), "what is expected");
    const bool late = p.first * 2 > s_.size();
    if (late && p.kind == Kind::mass && product(p) != nullptr && !again && s_.find_before(p.first, obtaining, 8)) {
      return take(d, product(p), "the product of the procedure");
    }
    if (last != nullptr && again) return copy(d, *last, "as the figure before");
    if (p.kind == Kind::volume) {
      if (const Mention* m = liquid_in_hand(p)) return take(d, m, "the solvent in hand");
    }
    if (const Mention* m = spoken_of(p.first, 60)) return take(d, m, "spoken of last");
    if (last != nullptr) return copy(d, *last, "as the figure before");
    take(d, product(p), "the product of the procedure");
  }

  /// A solvent that was introduced or measured after anything else was.
  const Mention* liquid_in_hand(const Phrase& p) const {
    const Mention* intro = introduced(p.first, 120);
    if (intro != nullptr && !intro->solvent && intro->first > solvent_token_) return nullptr;
    if (intro != nullptr && !intro->solvent) intro = nullptr;
    if (solvent_ != nullptr && p.first - solvent_token_ < 400 && (topic_ == nullptr || solvent_token_ > topic_token_) &&
        (intro == nullptr || intro->first < solvent_token_))
      return solvent_;
    return intro != nullptr && (topic_ == nullptr || intro->first > topic_token_) ? intro : nullptr;
  }

  /// "0.386 of magnesium gives 0.640 grams": the figure is of what comes of the material named before.
  bool yields_from(const Mention& m, const Phrase& p) const {
    constexpr WordSet giving{"gives", "give", "yields", "yield", "produces", "affords"};
    for (std::size_t t = m.last; t < p.first; ++t) {
      if (giving.has(s_.word(t)) && product_differs(m, p)) return true;
    }
    return false;
  }
  bool product_differs(const Mention& m, const Phrase& p) const { return product(p)->name != m.name; }

  /// "20 mL of that": of what a strength was just given, or what is spoken of.
  void name_pointed_at(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const Mention* m = before_in_sentence(p.first, false); m != nullptr && p.first - m->last <= 8) {
      bool figure_between = false;
      for (std::size_t t = m->last; t < p.first; ++t) figure_between = figure_between || s_.phrase_at[t];
      if (p.first - m->last <= 3 || (!figure_between && !stands_by(*m))) return take(d, m, "named right before");
    }
    if (p.kind == Kind::volume && s_.figures.size() >= 2) {
      // "three grams in 20 mL of water, and I take 4 mL of that": of the solution.
      const Draft& solvent = s_.figures.back();
      const Draft& solute = s_.figures[s_.figures.size() - 2];
      const bool in_solvent = solvent.mention != nullptr && (solvent.mention->water || solvent.mention->solvent);
      const bool beside = s_.phrase_of(solvent).first - s_.phrase_of(solute).last < 8;
      if (in_solvent && beside && s_.phrase_of(solute).kind == Kind::mass && solute.mention != nullptr) {
        d.mention = solute.mention;
        d.subject = solute.mention->name + " solution";
        d.subject_rule = "of the solution just made";
        return;
      }
    }
    if (!s_.figures.empty()) {
      const Draft& before = s_.figures.back();
      const Phrase& q = s_.phrase_of(before);
      bool named_between = false;
      for (std::size_t i = q.last; i < p.first; ++i) named_between = named_between || mention_at(i) != nullptr;
      if (is_liquid_strength(q.kind) && p.first - q.last < 16 && !named_between)
        return copy(d, before, "of what the strength is said");
    }
    if (p.kind == Kind::volume) {
      if (const Mention* m = solvent_spoken_of(p.first)) return take(d, m, "the solvent spoken of");
    }
    if (const Draft* before = puts_again(p)) return copy(d, *before, "the figure before in other words");
    const Mention* topic = spoken_of(p.first, 60);
    for (std::size_t i = p.first; i-- > 0 && topic == nullptr && p.first - i < 40;) {
      if (const Mention* m = mention_at(i); m != nullptr && !m->water && !m->generic) topic = m;
    }
    take(d, topic, "pointed back at");
  }

  bool boils_down(const Phrase& p) const {
    constexpr WordSet boiling{"boil",        "boiled",       "boiling", "evaporate", "evaporated", "reduce", "reduced",
                              "concentrate", "concentrated", "simmer",  "simmered",  "cook",       "cooked", "down"};
    constexpr WordSet less{"down", "reduce", "reduced", "evaporate", "evaporated", "concentrate", "concentrated"};
    return p.kind == Kind::volume && s_.find_before(p.first, boiling, 10) && s_.find_before(p.first, less, 9) &&
           s_.find_before(p.first, WordSet{"to", "have", "left", "about", "until"}, 4);
  }

  const Draft* counted_before(const Phrase& p) const {
    if (s_.figures.empty()) return nullptr;
    const Draft& before = s_.figures.back();
    const Phrase& q = s_.phrase_of(before);
    const bool beside = p.first - q.last < 4 && s_.same_sentence(q.first, p.first);
    return q.kind == Kind::count && beside && !before.subject.empty() ? &before : nullptr;
  }

  /// "so that's 82.8 grams", "or 38 millimoles", "in moles it's 0.42": the portion said just before, put in another
  /// quantity.
  const Draft* puts_again(const Phrase& p) const {
    const Draft* last = last_draft(p.first, 60);
    if (last == nullptr) return nullptr;
    const Phrase& q = s_.phrase_of(*last);
    if (q.kind == p.kind || !is_portion(q.kind)) return nullptr;
    constexpr WordSet links{"that's", "or",    "which", "is",    "it's",  "so",
                            "equals", "moles", "that",  "comes", "works", "="};
    constexpr WordSet outcomes{"crude", "product", "crystals", "yield", "flask", "dish", "layer"};
    Acts anew(Act::add, Act::take, Act::measure, Act::reckon, Act::remain, Act::lose, Act::hearsay, Act::obtain,
              Act::recover, Act::have);
    if (p.kind == Kind::amount) anew = Acts(Act::add, Act::take, Act::measure, Act::remain, Act::lose, Act::obtain);
    bool link = p.first - q.last <= 2;
    bool density = false;
    std::size_t stops = 0;
    for (std::size_t t = q.last; t < p.first; ++t) {
      const Mention* m = mention_at(t);
      const bool told_of = t > q.last + 4 || s_.word(q.last) != "of";  // not the name of the portion itself
      if (m != nullptr && told_of && m->name != last->subject && !stands_by(*m)) return nullptr;
      constexpr WordSet sums{"work", "works", "comes", "make", "makes"};
      if ((anew.has(s_.acts[t]) && !sums.has(s_.word(t))) || outcomes.has(s_.word(t))) return nullptr;
      density = density || s_.word(t).starts_with("density");
      link = link || links.has(s_.word(t));
      stops += s_.word(t) == "." || s_.word(t) == "!" || s_.word(t) == "?" ? 1 : 0;
    }
    return link && (stops <= 1 || density) && (density || p.first - q.last < 24) ? last : nullptr;
  }
  static bool is_portion(Kind k) { return k == Kind::mass || k == Kind::volume || k == Kind::amount; }

  static constexpr WordSet burettes{"burette", "buret", "titrant", "titrate", "titrated", "titrating"};
  /// "In the burette is 0.1 molar sodium hydroxide".
  void note_titrant(const Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (d.mention == nullptr || p.kind != Kind::molar_concentration || !s_.find_in_sentence(p.first, burettes)) return;
    titrant_ = d.mention;
    for (std::size_t i = s_.figures.size(); i-- > 0 && p.first - s_.phrase_of(s_.figures[i]).first < 160;) {
      const Draft& portion = s_.figures[i];
      const Phrase& q = s_.phrase_of(portion);
      const bool taken = (q.kind == Kind::volume && q.unit != "[drp]") || q.kind == Kind::mass;
      if (!taken || portion.subject == d.subject || portion.subject.empty()) continue;
      if (portion.mention != nullptr && (portion.mention->solvent || portion.mention->water)) continue;
      analyte_ = i;
      break;
    }
  }
  /// Whether the burette was read since it was filled.
  bool titrated() const {
    if (!analyte_) return false;
    for (std::size_t i = s_.figures.size(); i-- > *analyte_ + 1;) {
      if (std::string_view(s_.figures[i].subject_rule) == "what is in the burette") return true;
    }
    return false;
  }
  bool read_off_burette(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    constexpr WordSet reading{"burette", "buret",    "titre", "titer", "used", "reading",
                              "reads",   "endpoint", "this",  "time",  "run",  "took"};
    if (s_.word(p.last) == "of" || (s_.mention_at[p.last < s_.size() ? p.last : 0] && p.last < s_.size())) return false;
    if (s_.find_before(p.first, reading, 10)) return true;
    // A volume read to a tenth while a titration is under way.
    if (analyte_ && p.number.decimal && p.first - s_.phrase_of(s_.figures[*analyte_]).first < 160 &&
        before_in_sentence(p.first, false) == nullptr)
      return true;
    // Right behind the change of colour.
    constexpr WordSet colours{"pink",   "colour",   "color", "colorless", "colourless",
                              "yellow", "endpoint", "red",   "orange"};
    for (std::size_t t = p.first; t-- > 0 && p.first - t < 16;) {
      if (colours.has(s_.word(t))) return true;
    }
    return false;
  }

  static constexpr WordSet obtaining{"have", "got", "balance", "weighs", "weigh", "dry", "dried",
                                     "day",  "now", "left",    "scale",  "final", "had"};

  void name_amount(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
    const Draft* last = last_draft(p.first, 50);
    // Moles are of what is dissolved, not of what it is dissolved in.
    if (last != nullptr && last->mention != nullptr && (last->mention->water || last->mention->solvent)) {
      for (std::size_t i = s_.figures.size(); i-- > 0 && p.first - s_.phrase_of(s_.figures[i]).first < 50;) {
        const Draft& d2 = s_.figures[i];
        if (d2.subject.empty() || !is_material(s_.phrase_of(d2).kind) ||
            (d2.mention != nullptr && (d2.mention->water || d2.mention->solvent)))
          continue;
        last = &d2;
        break;
      }
    }
    const std::size_t last_end = last != nullptr ? s_.phrase_of(*last).last : 0;
    const Mention* near = nullptr;
    for (std::size_t i = p.first; i-- > last_end && p.first - i < 22;) {
      const Mention* m = mention_at(i);
      if (m != nullptr && !m->water && !m->solvent && !is_vague(m->name) && m->first >= last_end) {
        // What directly follows its amount ("of copper wire") is what was measured anyway.
        near = stands_by(*m) && !m->gas && last != nullptr ? nullptr : m;
        break;
      }
    }
    if (near != nullptr && s_.same_sentence(near->first, p.first)) return take(d, near, "named before");
    // The same amount said again is of the same matter.
    for (std::size_t i = s_.figures.size(); i-- > 0 && p.first - s_.phrase_of(s_.figures[i]).first < 900;) {
      const Phrase& q = s_.phrase_of(s_.figures[i]);
      if (q.kind == Kind::amount && q.value == p.value && q.unit == p.unit)
        return copy(d, s_.figures[i], "the amount said before");
    }
    if (near != nullptr) return take(d, near, "named before");
    if (last != nullptr && last->subject != pot) return copy(d, *last, "as the figure before");
    take(d, spoken_of(p.first, 60), "spoken of last");
  }

  void name_strength(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last)) {
      if (named->mention == nullptr || !named->mention->water) return take_found(d, *named, "named behind");
    }
    if (!s_.figures.empty()) {
      const Draft& before = s_.figures.back();
      const Phrase& q = s_.phrase_of(before);
      const std::size_t gap = p.first - q.last;
      if (q.kind == Kind::volume && gap <= 2 && s_.word(q.last) == "of" && !before.subject.empty())
        return copy(d, before, "of the volume before");
      if (q.kind == Kind::amount && gap < 20 && !before.subject.empty() &&
          before_in_sentence(p.first, true) == nullptr && p.kind == Kind::molar_concentration)
        return copy(d, before, "of the amount before");
    }
    if (!s_.figures.empty() && std::string_view(s_.figures.back().subject_rule) == "what is made up to a volume" &&
        p.first - s_.phrase_of(s_.figures.back()).last < 30)
      return copy(d, s_.figures.back(), "what was made up");
    if (titrated() && before_in_sentence(p.first, true) == nullptr)
      return copy(d, s_.figures[*analyte_], "what was titrated");
    // Another strength of the same material as the last strength.
    for (std::size_t i = s_.figures.size();
         i-- > 0 && p.kind == Kind::mass_percent && before_in_sentence(p.first, true) == nullptr;) {
      if (s_.phrase_of(s_.figures[i]).kind == Kind::mass_percent)
        return copy(d, s_.figures[i], "as the strength before");
    }
    if (const Mention* m = before_in_sentence(p.first, true);
        m != nullptr && !(stands_by(*m) && p.first - m->last > 6)) {
      return take(d, m, "named before");
    }
    if (p.kind == Kind::volume_percent) {
      if (const Mention* m = before_in_sentence(p.first, false)) return take(d, m, "named before");
    }
    take(d, spoken_of(p.first, 80), "spoken of last");
    if (!d.subject.empty() && d.mention != nullptr && !d.mention->acid && !d.mention->mixture &&
        d.subject == d.mention->name && p.kind != Kind::volume_percent) {
      d.subject += " solution";
    }
  }

  void name_count(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last)) return take_found(d, *named, "named behind");
    if (p.kind == Kind::count && d.phrase + 1 < s_.phrases.size()) {
      const Phrase& each = s_.phrases[d.phrase + 1];
      const bool unnamed = each.fate == Fate::figure && each.kind == Kind::volume && !behind(each.last);
      const bool washing =
          s_.find_before(p.first, WordSet{"wash", "rinse", "washed", "rinsed", "washing"}, 8).has_value();
      if (unnamed && !washing && each.first - p.last < 10 && before_in_sentence(p.first, false) == nullptr) {
        if (const Mention* m = liquid_in_hand(p)) return take(d, m, "the solvent in hand");
      }
    }
    if (p.kind == Kind::count && s_.find_in_sentence(p.first, WordSet{"add", "adding", "added", "in"})) {
      if (const Mention* m = before_in_sentence(p.first, true)) return take(d, m, "named before");
    }
    // "wash three times, with 150 mL": filled in from what each of them is
    for (std::size_t i = d.phrase + 1; i < s_.phrases.size() && s_.phrases[i].first < p.last + 10; ++i) {
      if (s_.phrases[i].fate != Fate::figure) continue;
      if (const auto named = behind(s_.phrases[i].last)) return take_found(d, *named, "as what each of them is");
      if (p.kind == Kind::count &&
          s_.find_before(p.first, WordSet{"wash", "rinse", "washed", "rinsed", "washing"}, 8)) {
        for (std::size_t k = s_.mentions.size(); k-- > 0;) {
          const Mention& m = s_.mentions[k];
          if (m.first < p.first && p.first - m.first < 40 && (m.water || m.solvent))
            return take(d, &m, "what is washed with");
        }
      }
    }
    if (p.kind == Kind::count) {
      constexpr WordSet pieces{"bars", "tablets", "candles", "bars", "pieces", "crystals", "pills", "coins"};
      if (product(p) != nullptr && pieces.has(s_.word(p.last - 1)) && before_in_sentence(p.first, true) == nullptr) {
        return take(d, product(p), "the product of the procedure");
      }
      if (const Draft* last = last_draft(p.first, 40)) return copy(d, *last, "as the figure before");
    }
    if (const Draft* last = last_draft(p.first, 60)) return copy(d, *last, "as the figure before");
    take(d, product(p) != nullptr ? product(p) : spoken_of(p.first, 60), "spoken of last");
  }

  void name_share(Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    if (const auto named = behind(p.last); named && named->mention != nullptr && !named->mention->water) {
      return take_found(d, *named, "named behind");
    }
    if (const Draft* last = last_draft(p.first, 90)) return copy(d, *last, "as the figure before");
    if (product(p) != nullptr) return take(d, product(p), "the product of the procedure");
    take(d, spoken_of(p.first, 60), "spoken of last");
  }

  void make_gas(Draft& d) {
    Phrase& p = s_.phrase_of(d);
    const bool gas = d.mention != nullptr ? d.mention->gas : d.subject == "gas";
    if (p.kind == Kind::volume && gas && p.unit != "[drp]") p.kind = Kind::gas_volume;
  }

  Conditions conditions_;
  std::vector<const Mention*> introductions_;
  const Mention* titrant_ = nullptr;    ///< what is in the burette
  std::optional<std::size_t> analyte_;  ///< the figure of what it is run into
  const Mention* topic_ = nullptr;
  std::size_t topic_token_ = 0;
  const Mention* solvent_ = nullptr;
  std::size_t solvent_token_ = 0;
  std::size_t materials_ = 0;  ///< figures about materials so far
};

}  // namespace

void name_subjects(Scene& scene) { Namer(scene).run(); }

}  // namespace sash::narration
