#include "narration/inner/trail.h"

#include <algorithm>

#include "narration/inner/topics.h"
#include "support/text.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet burettes{"burette", "buret", "titrant", "titrate", "titrated", "titrating"};

}  // namespace

Trail::Trail(Scene& s) : Surroundings(s), introductions_(find_introductions(s)) {}

const Mention* Trail::introduced(std::size_t token, std::size_t reach) const {
  const auto behind_token = std::partition_point(introductions_.begin(), introductions_.end(),
                                                 [&](const Mention* m) { return m->last <= token; });
  if (behind_token == introductions_.begin()) return nullptr;
  const Mention* m = *(behind_token - 1);
  return token - m->last <= reach ? m : nullptr;
}

void Trail::follow_topic(const Draft& d) {
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

const Mention* Trail::spoken_of(std::size_t token, std::size_t reach) const {
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
    if (m != nullptr && !m->water && !m->solvent && !m->gas && !m->negated && !is_vague(m->name)) return m;
  }
  return topic_;
}

const Mention* Trail::product(const Phrase& p) const { return s_.product_at(p.first); }

const Mention* Trail::liquid_in_hand(const Phrase& p) const {
  const Mention* intro = introduced(p.first, 120);
  if (intro != nullptr && !intro->solvent && intro->first > solvent_token_) return nullptr;
  if (intro != nullptr && !intro->solvent) intro = nullptr;
  if (solvent_ != nullptr && p.first - solvent_token_ < 400 && (topic_ == nullptr || solvent_token_ > topic_token_) &&
      (intro == nullptr || intro->first < solvent_token_))
    return solvent_;
  return intro != nullptr && (topic_ == nullptr || intro->first > topic_token_) ? intro : nullptr;
}

void Trail::note_titrant(const Draft& d) {
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

const Mention* Trail::titrant(std::size_t token) const {
  if (titrant_ != nullptr || !s_.find_before(token, WordSet{"burette", "buret"}, 6)) return titrant_;
  for (std::size_t i = s_.figures.size(), seen = 0; i-- > 0 && seen < 60; ++seen) {
    const Draft& d = s_.figures[i];
    if (s_.phrase_of(d).kind != Kind::molar_concentration || d.mention == nullptr || d.mention->acid) continue;
    return d.mention;
  }
  return nullptr;
}

bool Trail::titrated() const {
  if (!analyte_) return false;
  for (std::size_t i = s_.figures.size(), seen = 0; i-- > *analyte_ + 1 && seen < 40; ++seen) {
    if (std::string_view(s_.figures[i].subject_rule) == "what is in the burette") return true;
  }
  return false;
}

bool Trail::read_off_burette(const Draft& d) const {
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

std::string Trail::in_solution(const Mention& m) {
  if (!m.dissolves && !m.solution) return m.name;
  if (m.name.ends_with("solution") || m.mixture || m.acid || m.water) return m.name;
  std::string name = m.name;
  for (const std::string_view part : split(m.name, ' ')) {
    if (part.ends_with("hydrate") && part != m.name) name = m.name.substr(0, m.name.size() - part.size() - 1);
  }
  return name + " solution";
}

void Trail::take(Draft& d, const Mention* m, const char* rule) {
  if (m == nullptr) return;
  const Kind k = s_.phrase_of(d).kind;
  // Spoons and cups of a salt are of the salt itself.
  const std::string& unit = s_.phrase_of(d).unit;
  const bool spooned = (unit == "[tsp_us]" || unit == "[tbs_us]" || unit == "[cup_us]") && !m->solution;
  const bool wet = (k == Kind::volume && !unit.empty() && !spooned) || k == Kind::mass_percent ||
                   k == Kind::molar_concentration || k == Kind::temperature || k == Kind::pH ||
                   k == Kind::temperature_change;
  d.mention = m;
  d.subject = wet && !m->gas ? in_solution(*m) : m->name;
  d.subject_rule = rule;
}

void Trail::copy(Draft& d, const Draft& from, const char* rule) {
  if (from.mention != nullptr) return take(d, from.mention, rule);
  d.subject = from.subject;
  d.subject_rule = rule;
}

void Trail::take(Draft& d, const About& about) {
  if (about.mention != nullptr && about.name == about.mention->name) return take(d, about.mention, about.rule);
  d.subject = about.name;
  d.mention = about.mention;
  d.subject_rule = about.rule;
}

void Trail::take_found(Draft& d, const Found& found, const char* rule) {
  const Mention* product = s_.product_at(s_.phrase_of(d).first);
  constexpr WordSet what_came_out{"pigment", "dye", "residue", "precipitate", "distillate"};
  if (found.mention != nullptr && what_came_out.has(found.mention->name) && product != nullptr)
    return take(d, product, "by what it is for");
  if (found.mention != nullptr) return take(d, found.mention, rule);
  d.subject = found.name;
  d.subject_rule = "named behind, in words no table knows";
}

}  // namespace sash::narration
