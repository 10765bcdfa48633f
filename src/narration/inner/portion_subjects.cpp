#include "narration/inner/portion_subjects.h"

#include <string_view>

#include "narration/inner/matter.h"
#include "narration/inner/topics.h"

namespace sash::narration {

namespace {

using quantity::Kind;

bool is_liquid_strength(Kind k) {
  return k == Kind::mass_percent || k == Kind::molar_concentration || k == Kind::volume_percent;
}
bool is_measured(Kind k) { return k == Kind::mass || k == Kind::volume || k == Kind::amount; }

constexpr WordSet obtaining{"have", "got", "balance", "weighs", "weigh", "dry", "dried",
                            "day",  "now", "left",    "scale",  "final", "had"};

}  // namespace

void PortionNamer::name_portion(Draft& d) {
  const Phrase& p = s_.phrase_of(d);
  const bool per_mole = (s_.word(p.last) == "a" || s_.word(p.last) == "per") && s_.word(p.last + 1) == "mole";
  if (p.kind == Kind::volume && per_mole) {
    d.subject = "gas";
    d.subject_rule = "a mole of any gas";
    return;
  }
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
    for (std::size_t k = mentions_before(p.first); k-- > 0;) {
      if (s_.mentions[k].element) return take(d, &s_.mentions[k], "the metal of the piece");
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
  if (p.kind == Kind::volume && titrant(p.first) != nullptr && read_off_burette(d))
    return take(d, titrant(p.first), "what is in the burette");
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

const Draft* PortionNamer::said_before(const Phrase& p) const {
  const bool whole = s_.find_before(p.first, WordSet{"whole", "full", "original"}, 2).has_value();
  if (std::string_view(p.rule) != "said before with its unit" && !whole) return nullptr;
  for (std::size_t i = s_.figures.size(); i-- > 0;) {
    const Phrase& q = s_.phrase_of(s_.figures[i]);
    if (q.kind == p.kind && q.value == p.value && q.unit == p.unit) return &s_.figures[i];
  }
  return nullptr;
}

bool PortionNamer::is_made_up(const Phrase& p) const {
  constexpr WordSet making{"made",   "make", "making", "top",   "topped",  "topping", "diluted",
                           "dilute", "fill", "filled", "bring", "brought", "filling", "diluting"};
  return s_.find_before(p.first, WordSet{"to"}, 3) && s_.find_before(p.first, making, 8) &&
         (s_.find_before(p.first, WordSet{"up", "diluted", "dilute"}, 6) ||
          s_.find_after(p.last, WordSet{"mark", "line"}, 3));
}

void PortionNamer::name_made_up(Draft& d) {
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

void PortionNamer::name_unnamed_portion(Draft& d) {
  const Phrase& p = s_.phrase_of(d);
  const Mention* near = before_in_sentence(p.first, false);
  if (near != nullptr && (is_vague(near->name) || (stands_by(*near) && p.first - near->last > 2))) near = nullptr;
  const bool each = s_.word(p.last) == "each" || s_.word(p.last) == "apiece";
  const bool isolated = (each && p.kind == Kind::mass) || (p.kind == Kind::mass && nets(d.phrase)) || about_product(p);
  if (isolated && near == nullptr && product(p) != nullptr) return take(d, product(p), "the product of the procedure");
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
  const bool at_the_end = s_.workup_before(p.first) || (introduced(p.first, 90) == nullptr && materials() >= 2);
  if (p.kind == Kind::mass && product(p) != nullptr && at_the_end && s_.act_before(p.first, Acts(Act::reckon), 8))
    return take(d, product(p), "what is expected");
  if (p.kind == Kind::mass && s_.act_before(p.first, Acts(Act::remain), 5) && last_draft(p.first, 24) != nullptr)
    return copy(d, *last_draft(p.first, 24), "what is left of the figure before");
  const bool it_weighs = s_.find_before(p.first, WordSet{"weighs"}, 6) && s_.find_before(p.first, WordSet{"it"}, 8);
  if (p.kind == Kind::mass && it_weighs && product(p) != nullptr && materials() >= 3)
    return take(d, product(p), "the product of the procedure");
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

bool PortionNamer::yields_from(const Mention& m, const Phrase& p) const {
  constexpr WordSet giving{"gives", "give", "yields", "yield", "produces", "affords"};
  for (std::size_t t = m.last; t < p.first; ++t) {
    if (giving.has(s_.word(t)) && product_differs(m, p)) return true;
  }
  return false;
}

bool PortionNamer::product_differs(const Mention& m, const Phrase& p) const { return product(p)->name != m.name; }

const Draft* PortionNamer::same_strength(const Phrase& p) const {
  for (std::size_t t = p.last; t < p.last + 4 && t < s_.size(); ++t) {
    if (!s_.phrase_at[t] || s_.phrases[*s_.phrase_at[t]].unit != "%") continue;
    const double strength = s_.phrases[*s_.phrase_at[t]].value;
    for (std::size_t i = s_.figures.size(); i-- > 0;) {
      const Phrase& q = s_.phrase_of(s_.figures[i]);
      if (q.kind == Kind::mass_percent && q.value == strength && !s_.figures[i].subject.empty()) return &s_.figures[i];
    }
  }
  return nullptr;
}

void PortionNamer::name_pointed_at(Draft& d) {
  const Phrase& p = s_.phrase_of(d);
  if (const Mention* m = before_in_sentence(p.first, false); m != nullptr && p.first - m->last <= 8) {
    bool figure_between = false;
    for (std::size_t t = m->last; t < p.first; ++t) figure_between = figure_between || s_.phrase_at[t];
    if (p.first - m->last <= 3 || (!figure_between && !stands_by(*m))) return take(d, m, "named right before");
  }
  if (const Draft* strength = same_strength(p)) return copy(d, *strength, "of that strength before");
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

bool PortionNamer::boils_down(const Phrase& p) const {
  constexpr WordSet boiling{"boil",        "boiled",       "boiling", "evaporate", "evaporated", "reduce", "reduced",
                            "concentrate", "concentrated", "simmer",  "simmered",  "cook",       "cooked", "down"};
  constexpr WordSet less{"down", "reduce", "reduced", "evaporate", "evaporated", "concentrate", "concentrated"};
  return p.kind == Kind::volume && s_.find_before(p.first, boiling, 10) && s_.find_before(p.first, less, 9) &&
         s_.find_before(p.first, WordSet{"to", "have", "left", "about", "until"}, 4);
}

const Draft* PortionNamer::counted_before(const Phrase& p) const {
  if (s_.figures.empty()) return nullptr;
  const Draft& before = s_.figures.back();
  const Phrase& q = s_.phrase_of(before);
  const bool beside = p.first - q.last < 4 && s_.same_sentence(q.first, p.first);
  return q.kind == Kind::count && beside && !before.subject.empty() ? &before : nullptr;
}

const Draft* PortionNamer::puts_again(const Phrase& p) const {
  const Draft* last = nullptr;
  for (std::size_t i = s_.figures.size(); i-- > 0 && p.first - s_.phrase_of(s_.figures[i]).first < 60;) {
    const Kind k = s_.phrase_of(s_.figures[i]).kind;
    if (is_strength(k) || k == Kind::density) continue;  // said of the portion
    if (is_measured(k) && !s_.figures[i].subject.empty()) last = &s_.figures[i];
    break;
  }
  if (last == nullptr) return nullptr;
  const Phrase& q = s_.phrase_of(*last);
  if (q.kind == p.kind) return nullptr;
  if (p.kind == Kind::amount && last->mention != nullptr && last->mention->water) return nullptr;
  constexpr WordSet links{"that's", "or",    "which", "is",    "it's",  "so",
                          "equals", "moles", "that",  "comes", "works", "="};
  constexpr WordSet outcomes{"crude", "product", "crystals", "yield", "flask", "dish", "layer"};
  Acts anew(Act::add, Act::take, Act::measure, Act::reckon, Act::remain, Act::lose, Act::hearsay, Act::obtain,
            Act::recover, Act::have);
  if (p.kind == Kind::amount) anew = Acts(Act::add, Act::take, Act::measure, Act::remain, Act::lose, Act::obtain);
  bool density = false;
  for (std::size_t t = q.last; t < p.first; ++t) density = density || s_.word(t).starts_with("density");
  if (density) anew = Acts(Act::add, Act::measure, Act::remain, Act::lose, Act::obtain);
  bool link = p.first - q.last <= 2;
  std::size_t stops = 0;
  for (std::size_t t = q.last; t < p.first; ++t) {
    const Mention* m = mention_at(t);
    const bool told_of = t > q.last + 4 || s_.word(q.last) != "of";  // not the name of the portion itself
    if (m != nullptr && told_of && m->name != last->subject && !stands_by(*m)) return nullptr;
    constexpr WordSet sums{"work", "works", "comes", "make", "makes"};
    if ((anew.has(s_.acts[t]) && !sums.has(s_.word(t))) || outcomes.has(s_.word(t))) return nullptr;
    link = link || links.has(s_.word(t));
    stops += s_.word(t) == "." || s_.word(t) == "!" || s_.word(t) == "?" ? 1 : 0;
  }
  return link && (stops <= 1 || density) && (density || p.first - q.last < 24) ? last : nullptr;
}

}  // namespace sash::narration
