#include "narration/inner/subject_weigher.h"

#include <algorithm>
#include <cmath>

#include "narration/inner/matter.h"
#include "narration/inner/topics.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr std::size_t reach_before = 170;  // words
constexpr std::size_t reach_behind = 16;
constexpr std::size_t figures_back = 24;
constexpr std::size_t opening = 70;  // words

}  // namespace

SubjectWeigher::SubjectWeigher(Scene& s, const Reckoning& reckoning)
    : PortionNamer(s), reckoning_(reckoning), titration_(s) {
  for (const Mention& m : s.mentions) {
    const auto known = [&](const Mention* other) { return other->name == m.name; };
    if (!m.generic && std::none_of(names_.begin(), names_.end(), known) && molar_masses_.of(m.name))
      names_.push_back(&m);
  }
}

std::optional<double> SubjectWeigher::molar_mass(const Mention& m) const {
  const auto known = molar_masses_.of(m.name);
  return known ? std::optional(known->value / 1000) : std::nullopt;
}

void SubjectWeigher::note_strengths() {
  for (; strengths_noted_ < s_.figures.size(); ++strengths_noted_) {
    const Draft& d = s_.figures[strengths_noted_];
    if (s_.phrase_of(d).kind == Kind::molar_concentration) of_known_strength_.emplace(bare(d.subject));
  }
}

std::vector<SubjectWeigher::Candidate> SubjectWeigher::candidates(const Draft& d) const {
  const Phrase& p = s_.phrase_of(d);
  std::vector<Candidate> all;
  const auto of = [&](std::string_view name) -> Candidate& {
    const std::string_view plain = bare(name);
    for (Candidate& c : all) {
      if (c.bare == plain) return c;
    }
    Candidate c;
    c.name = name;
    c.bare = plain;
    return all.emplace_back(std::move(c));
  };
  if (!d.subject.empty()) {
    Candidate& c = of(d.subject);
    c.mention = d.mention;
    c.chosen = true;
  }
  std::size_t named = 0;
  for (std::size_t k = mentions_before(p.first); k-- > 0;) {
    const Mention& m = s_.mentions[k];
    if (p.first - m.first > reach_before) break;
    if (!s_.mention_at[m.first]) continue;  // "manganese seven" is no manganese
    Candidate& c = of(m.name);
    if (c.before != nullptr) continue;
    c.before = &m;
    if (c.mention == nullptr) c.mention = &m;
    c.nearer = named++;
  }
  for (std::size_t t = p.last; t < s_.size() && t < p.last + reach_behind && s_.same_sentence(p.last - 1, t); ++t) {
    const Mention* m = mention_at(t);
    if (m == nullptr) continue;
    Candidate& c = of(m->name);
    if (c.behind != nullptr) continue;
    c.behind = m;
    if (c.mention == nullptr) c.mention = m;
  }
  std::size_t spoken_of = 0;
  for (std::size_t k = s_.figures.size(), n = 0; k-- > 0 && n < figures_back; ++n) {
    const Draft& other = s_.figures[k];
    if (other.subject.empty()) continue;
    Candidate& c = of(other.subject);
    if (c.figure) continue;
    c.figure = k;
    c.later = spoken_of++;
    if (c.mention == nullptr) c.mention = other.mention;
  }
  if (const Mention* made = product(p)) {
    Candidate& c = of(made->name);
    if (c.mention == nullptr) c.mention = made;
  }
  for (const Mention& m : s_.mentions) {
    if (m.first > opening || m.first > p.first) break;
    if (m.water || m.generic || is_vague(m.name)) continue;
    Candidate& c = of(m.name);
    c.opening = true;
    if (c.mention == nullptr) c.mention = &m;
  }
  // A mass and an amount tell what they are of, wherever it is named.
  const std::size_t place = s_.figures.size();
  for (const Mention* m : names_) {
    const auto other = reckoning_.weighs_with(place, *molar_mass(*m));
    if (!other) continue;
    Candidate& c = of(m->name);
    if (c.mention == nullptr) c.mention = m;
    if (!c.weighs) c.weighs = other;
  }
  for (Candidate& c : all) c.titrant = titration_.is_titrant(c.bare);
  of(pot);
  Candidate nothing;
  // That the rules found nothing is no finding.
  nothing.chosen = d.subject.empty() && !std::string_view(d.subject_rule).empty();
  all.push_back(std::move(nothing));
  return all;
}

SubjectWeigher::Place SubjectWeigher::place_of(const Draft& d) const {
  const Phrase& p = s_.phrase_of(d);
  Place at;
  at.phrase = &p;
  at.kind = sort_of(p.kind);
  at.act = "none";
  for (std::size_t t = p.first; t-- > 0 && p.first - t <= 10 && s_.same_sentence(t, p.first);) {
    if (s_.acts[t] == Act::none) continue;
    at.act = act_name(s_.acts[t]);
    break;
  }
  for (std::size_t t = s_.begin_of_sentence(p.first); t < s_.end_of_sentence(p.first); ++t) {
    if (s_.acts[t] == Act::none) continue;
    const std::string_view name = act_name(s_.acts[t]);
    if (std::find(at.acts.begin(), at.acts.end(), name) == at.acts.end()) at.acts.push_back(name);
  }
  at.third = s_.third_of(p.first);
  at.product = product(p);
  at.titrating = titration_.goes_on_at(p.first);
  std::vector<std::string_view> in;
  const auto emptied = s_.workup_before(p.first);
  constexpr std::size_t reach = 260;  // words
  for (std::size_t k = s_.figures.size(); k-- > 0;) {
    const Draft& other = s_.figures[k];
    const Phrase& q = s_.phrase_of(other);
    if (p.first - q.first > reach || (emptied && q.first < *emptied)) break;
    const bool put = (q.kind == Kind::mass || q.kind == Kind::volume) && other.mention != nullptr &&
                     !other.mention->water && !other.mention->solvent && !other.mention->indicator;
    if (!put) continue;
    const std::string_view plain = bare(other.subject);
    if (std::find(in.begin(), in.end(), plain) == in.end()) in.push_back(plain);
  }
  at.in_the_pot = std::move(in);
  const auto isolated = s_.workup_before(p.first);
  at.worked_up = isolated && p.first - *isolated < 200;
  return at;
}

std::string_view SubjectWeigher::standing(const Candidate& c, const Place& at) const {
  const Phrase& p = *at.phrase;
  if (c.name.empty()) return "nothing";
  if (c.bare == pot) return "pot";
  if (c.behind != nullptr && c.behind->first - p.last < 5) return "behind";
  if (c.before != nullptr && s_.same_sentence(c.before->first, p.first)) return "here";
  const bool made = at.product != nullptr && bare(at.product->name) == c.bare;
  if (c.figure && *c.figure + 1 == s_.figures.size()) return made ? "last product" : "last";
  if (made) return "product";
  if (c.figure) return "earlier";
  return "before";
}

void SubjectWeigher::by_names(Scale& scale, const Candidate& c, const Place& at) const {
  const Phrase& p = *at.phrase;
  if (c.before != nullptr) {
    const std::size_t gap = p.first - std::min(p.first, c.before->last);
    const bool here = s_.same_sentence(c.before->first, p.first);
    const std::string_view where = here ? "same sentence" : "sentence before";
    scale.add({"subject", "named before", step_of(gap), where});
    scale.add({"subject", at.kind, "named before", step_of(gap), where});
    scale.add({"subject", "named nearer", few(c.nearer)});
    scale.add({"subject", at.kind, "named nearer", few(c.nearer)});
    std::size_t between = 0;
    for (std::size_t k = s_.figures.size(); k-- > 0 && s_.phrase_of(s_.figures[k]).first >= c.before->last;) ++between;
    scale.add({"subject", at.kind, "figures since its name", few(between)});
    if (stands_by(*c.before)) scale.add({"subject", "only stands by", where});
    if (c.before->negated) scale.add({"subject", "expressly not"});
    scale.add({"subject", "word before its name", s_.word_before(c.before->first)});
    if (here) scale.add({"subject", "word behind its name", s_.word(c.before->last)});
    const std::size_t begin = s_.begin_of_sentence(c.before->first);
    if (c.before->first - begin < 4 && here) scale.add({"subject", at.kind, "opens the sentence"});
    const Mention* begun = introduced(p.first, reach_before);
    if (begun != nullptr && bare(begun->name) == c.bare) {
      scale.add({"subject", "introduced last"});
      scale.add({"subject", at.kind, "introduced last", few(between)});
    }
  }
  if (c.behind != nullptr) {
    const std::size_t gap = c.behind->first - p.last;
    const std::string_view word = s_.word(p.last);
    scale.add({"subject", "named behind", step_of(gap)});
    scale.add({"subject", at.kind, "named behind", step_of(gap)});
    if (gap < 8) scale.add({"subject", "named behind", step_of(gap), word});
    if (gap < 8) scale.add({"subject", at.kind, "named behind", "by", s_.word_before(c.behind->first)});
    std::size_t between = 0;
    for (std::size_t t = p.last; t < c.behind->first; ++t) between += s_.phrase_at[t] ? 1 : 0;
    if (between > 0) scale.add({"subject", "another figure stands between"});
  }
  if (c.before == nullptr && c.behind == nullptr) scale.add({"subject", at.kind, "not named around"});
  if (c.opening) scale.add({"subject", at.kind, "named in the opening"});
  if (c.opening) scale.add({"subject", "named in the opening", at.worked_up ? "worked up" : "before", at.third});
}

void SubjectWeigher::by_figures(Scale& scale, const Candidate& c, const Place& at) const {
  if (!c.figure) {
    scale.add({"subject", at.kind, "no figure yet"});
    scale.add({"subject", at.kind, "no figure yet", at.act});
    return;
  }
  const Phrase& q = s_.phrase_of(s_.figures[*c.figure]);
  const std::size_t back = s_.figures.size() - 1 - *c.figure;
  const std::string_view before = sort_of(q.kind);
  scale.add({"subject", "figures back", few(back)});
  scale.add({"subject", at.kind, "figures back", few(back)});
  scale.add({"subject", at.kind, "others since", few(c.later)});
  scale.add({"subject", at.kind, "last one was", before});
  if (back == 0) {
    scale.add({"subject", at.kind, "right after", before, step_of(at.phrase->first - q.last)});
    scale.add({"subject", "right after", s_.same_sentence(q.first, at.phrase->first) ? "same sentence" : "other",
               s_.word_before(at.phrase->first)});
  }
  bool same_kind = false;
  for (std::size_t k = s_.figures.size(); k-- > 0 && s_.figures.size() - k < figures_back;) {
    same_kind =
        same_kind || (s_.phrase_of(s_.figures[k]).kind == at.phrase->kind && bare(s_.figures[k].subject) == c.bare);
  }
  scale.add({"subject", at.kind, same_kind ? "had one of this kind" : "had none of this kind"});
  scale.add({"subject", at.kind, same_kind ? "had one of this kind" : "had none of this kind", at.act});
}

void SubjectWeigher::by_nature(Scale& scale, const Candidate& c, const Place& at) const {
  const bool made = at.product != nullptr && bare(at.product->name) == c.bare;
  if (made) {
    scale.add({"subject", at.kind, "product", at.act});
    scale.add({"subject", at.kind, "product", at.worked_up ? "worked up" : "before", at.third});
    scale.add({"subject", "product", at.worked_up ? "worked up" : "before"});
  }
  const Mention* m = c.mention;
  if (m == nullptr) {
    scale.add({"subject", at.kind, "no name in the tables"});
    return;
  }
  const std::pair<bool, std::string_view> natures[] = {
      {m->gas, "gas"},         {m->acid, "acid"},           {m->water, "water"},     {m->solvent, "solvent"},
      {m->dissolves, "salt"},  {m->element, "element"},     {m->mixture, "mixture"}, {m->indicator, "indicator"},
      {m->generic, "generic"}, {is_vague(m->name), "vague"}};
  for (const auto& [is, nature] : natures) {
    if (!is) continue;
    scale.add({"subject", at.kind, nature});
    scale.add({"subject", nature, at.act});
    for (const std::string_view act : at.acts) scale.add({"subject", at.kind, nature, "in a sentence with", act});
  }
}

void SubjectWeigher::by_words(Scale& scale, const Candidate& c, const Place& at, std::string_view standing) const {
  const Phrase& p = *at.phrase;
  scale.add({"subject", standing, at.kind});
  scale.add({"subject", standing, at.kind, at.act});
  if (c.name.empty() || c.bare == pot) scale.add({"subject", standing, at.kind, at.third});
  for (std::size_t t = p.first; t-- > 0 && p.first - t <= 6 && s_.same_sentence(t, p.first);) {
    if (!s_.mention_at[t] && s_.tokens.is_type(t, Token::Type::word))
      scale.add({"subject", standing, "after", s_.word(t)});
  }
  for (std::size_t t = p.last; t < s_.size() && t - p.last < 4 && s_.same_sentence(t, p.first); ++t) {
    if (!s_.mention_at[t] && s_.tokens.is_type(t, Token::Type::word))
      scale.add({"subject", standing, "ahead of", s_.word(t)});
  }
}

void SubjectWeigher::by_titration(Scale& scale, const Candidate& c, const Place& at) const {
  const bool named = c.behind != nullptr && c.behind->first - at.phrase->last <= 2;  // "three drops of phenolphthalein"
  if (!at.titrating || named) return;
  const bool indicator = (c.mention != nullptr && c.mention->indicator) || c.bare == "starch";
  const std::string_view part = c.titrant ? "titrant" : indicator ? "indicator" : c.bare == pot ? "pot" : "other";
  const std::string_view form = at.phrase->number.decimal ? "decimal" : "whole";
  scale.add({"subject", "titrating", part});
  scale.add({"subject", "titrating", part, at.kind, form});
  // The strength that was given is known; the one that is worked out is of the other.
  const bool strong = of_known_strength_.count(c.bare) != 0;
  scale.add({"subject", "titrating", part, at.kind, strong ? "of known strength" : "of unknown strength"});
}

void SubjectWeigher::by_reckoning(Scale& scale, const Candidate& c, const Place& at) const {
  const std::size_t place = s_.figures.size();
  const std::string_view form = reckoning_.is_sharp(place) ? "sharp" : "coarse";
  for (const Reckoned& way : reckoning_.ways(place)) {
    const bool one = bare(s_.figures[way.one].subject) == c.bare;
    const bool other = bare(s_.figures[way.other].subject) == c.bare;
    const std::string_view whose = one && other ? "both" : one ? "the first" : other ? "the second" : "none";
    scale.add({"subject", "follows as", way.how, "of it", whose});
    scale.add({"subject", "follows as", way.how, "of it", whose, form});
  }
  if (c.weighs) {
    const bool before = *c.weighs < place;
    const bool own = before && bare(s_.figures[*c.weighs].subject) == c.bare;
    scale.add({"subject", at.kind, "weighs with one", before ? "before" : "behind", form});
    scale.add({"subject", at.kind, "weighs with one", own ? "of its own" : "of another"});
    scale.add({"subject", "weighs with one", form});
  } else if (at.told_by_weight) {
    scale.add({"subject", at.kind, "weighs with none", form});
  }
}

void SubjectWeigher::by_numbers(Scale& scale, const Candidate& c, const Place& at) const {
  const Phrase& p = *at.phrase;
  for (std::size_t k = s_.figures.size(), n = 0; k-- > 0 && n < figures_back; ++n) {
    const Phrase& q = s_.phrase_of(s_.figures[k]);
    if (q.kind != p.kind || q.unit != p.unit || q.value != p.value) continue;
    if (bare(s_.figures[k].subject) != c.bare) continue;
    scale.add({"subject", "said of it before", p.number.decimal ? "decimal" : "whole"});
    break;
  }
  by_chemistry(scale, c, at);
  by_titration(scale, c, at);
  by_reckoning(scale, c, at);
}

void SubjectWeigher::by_chemistry(Scale& scale, const Candidate& c, const Place& at) const {
  const Phrase& p = *at.phrase;
  if (p.kind != Kind::amount && p.kind != Kind::mass && p.kind != Kind::molar_concentration) return;
  const auto mass = c.mention == nullptr ? std::nullopt : molar_masses_.of(c.mention->name);
  const double molar = mass ? mass->value / 1000 : 0;  // kg/mol
  const auto mine = reckoning_.value(s_.figures.size());
  if (!mine || *mine == 0) return;
  // What its own figures make of each other: n = m / M, n = c V, c = n / V.
  std::optional<double> strength;
  std::optional<double> volume;
  std::optional<double> amount;
  std::string_view found = "does not fit";
  bool any = false;
  const auto compare = [&](double made) {
    any = true;
    const double off = std::abs(made / *mine - 1);
    if (off < 0.025) found = "fits";
    if (off < 0.08 && found != "fits") found = "nearly";
  };
  for (std::size_t k = s_.figures.size(), n = 0; k-- > 0 && n < 10; ++n) {
    const Phrase& q = s_.phrase_of(s_.figures[k]);
    const auto value = reckoning_.value(k);
    if (!value) continue;
    const bool own = bare(s_.figures[k].subject) == c.bare;
    if (q.kind == Kind::volume && !volume) volume = value;  // of the solution or of what it was dissolved in
    if (!own) continue;
    if (q.kind == Kind::molar_concentration && !strength) strength = value;
    if (q.kind == Kind::amount && !amount) amount = value;
    if (p.kind == Kind::amount && q.kind == Kind::mass && molar > 0) compare(*value / molar);
    if (p.kind == Kind::mass && q.kind == Kind::amount && molar > 0) compare(*value * molar);
  }
  if (p.kind == Kind::amount && strength && volume) compare(*strength * *volume);
  if (p.kind == Kind::molar_concentration && amount && volume && *volume != 0) compare(*amount / *volume);
  if (any) scale.add({"subject", at.kind, "by its own figures", found});
}

void SubjectWeigher::weigh_on(Scale& scale, const Candidate& c, const Draft& d, const Place& at) const {
  if (c.chosen) {
    scale.add({"subject", "by rule"});
    scale.add({"subject", "by rule", d.subject_rule});
    scale.add({"subject", "by rule", at.kind});
  }
  by_words(scale, c, at, standing(c, at));
  if (c.name.empty()) return;
  const bool inside = std::find(at.in_the_pot.begin(), at.in_the_pot.end(), c.bare) != at.in_the_pot.end();
  const std::string_view where = c.bare == pot ? "the pot" : inside ? "in the pot" : "not in the pot";
  scale.add({"subject", at.kind, where, few(at.in_the_pot.size())});
  if (inside) scale.add({"subject", at.kind, where, at.in_the_pot.front() == c.bare ? "put in last" : "earlier"});
  if (c.bare != pot) {
    by_names(scale, c, at);
    by_nature(scale, c, at);
  }
  by_figures(scale, c, at);
  by_numbers(scale, c, at);
}

void SubjectWeigher::settle(Draft& d, const Candidate& c) {
  if (c.chosen) return;
  constexpr const char* rule = "weighed against what else is spoken of";
  if (c.mention != nullptr) return take(d, c.mention, rule);
  d.subject = c.name;
  d.mention = nullptr;
  d.subject_rule = rule;
}

void SubjectWeigher::keep_water(Draft& d, const Candidate& c) {
  const bool dry = s_.phrase_of(d).kind == Kind::mass && !d.subject.ends_with("hydrate");
  if (dry && c.before != nullptr && c.before->name.ends_with("hydrate") && bare(c.before->name) == c.bare)
    take(d, c.before, d.subject_rule);
}

void SubjectWeigher::weigh(Draft& d) {
  note_strengths();
  const std::vector<Candidate> all = candidates(d);
  Place at = place_of(d);
  at.told_by_weight = std::any_of(all.begin(), all.end(), [](const Candidate& c) { return c.weighs.has_value(); });
  Decision decision;
  decision.question = "subject";
  decision.figure = s_.figures.size();
  const bool keep = s_.study.decisions != nullptr;
  const Candidate* best = nullptr;
  double most = 0;
  Certainty certainty;
  for (const Candidate& c : all) {
    if (keep) decision.answers.push_back({std::string(c.name), {}});
    Scale scale(*s_.study.weights, keep ? &decision.answers.back().cues : nullptr);
    weigh_on(scale, c, d, at);
    certainty.add(scale.sum());
    if (best == nullptr || scale.sum() > most) {
      best = &c;
      most = scale.sum();
    }
  }
  if (keep) s_.study.decisions->push_back(std::move(decision));
  d.subject_sure = certainty.share();
  settle(d, *best);
  keep_water(d, *best);
}

}  // namespace sash::narration
