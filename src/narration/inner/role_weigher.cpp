#include "narration/inner/role_weigher.h"

#include <array>

#include "model/names.h"
#include "narration/inner/matter.h"

namespace sash::narration {

namespace {

using model::Role;
using quantity::Kind;

constexpr std::array<Role, 9> roles{Role::measured_out,  Role::added,     Role::solvent,
                                    Role::product,       Role::recovered, Role::condition,
                                    Role::stated_result, Role::remainder, Role::other};

}  // namespace

void RoleWeigher::look_at_words(const Phrase& p) {
  const std::string_view kind = sort_of(p.kind);
  std::size_t acts = 0;
  for (std::size_t t = p.first; t-- > 0 && p.first - t <= 14 && s_.same_sentence(t, p.first) && acts < 2;) {
    if (s_.acts[t] == Act::none || (t + 1 < p.first && s_.acts[t] == s_.acts[t + 1])) continue;
    say(acts == 0 ? "act before" : "second act before", act_name(s_.acts[t]), step_of(p.first - t));
    if (acts == 0) say(kind, "act before", act_name(s_.acts[t]));
    ++acts;
  }
  if (acts == 0) say(kind, "no act before");
  for (std::size_t t = p.last; t < s_.size() && t - p.last < 8 && s_.same_sentence(t, p.first); ++t) {
    if (s_.acts[t] == Act::none) continue;
    say("act behind", act_name(s_.acts[t]), step_of(t - p.last));
    say(kind, "act behind", act_name(s_.acts[t]));
    break;
  }
  for (std::size_t t = p.first; t-- > 0 && p.first - t <= 7 && s_.same_sentence(t, p.first);) {
    if (s_.mention_at[t] || !s_.tokens.is_type(t, Token::Type::word)) continue;
    say("after", s_.word(t));
    say(kind, "after", s_.word(t));
    if (p.first - t <= 2) say("right after", s_.word(t));
  }
  for (std::size_t t = p.last; t < s_.size() && t - p.last < 5 && s_.same_sentence(t, p.first); ++t) {
    if (s_.mention_at[t] || !s_.tokens.is_type(t, Token::Type::word)) continue;
    say("ahead of", s_.word(t));
    if (t - p.last < 2) say("right ahead of", s_.word(t), kind);
  }
  constexpr WordSet telling{"if",    "would",  "should",  "could", "theory",   "theoretical", "need",
                            "yield", "mark",   "titrate", "wash",  "dissolve", "filter",      "dry",
                            "dried", "expect", "label",   "book",  "expected", "supposed",    "burette",
                            "buret", "weigh",  "lost",    "left",  "total",    "altogether",  "each",
                            "makes", "gives",  "mole",    "moles", "used",     "plus",        "minus"};
  for (std::size_t t = s_.begin_of_sentence(p.first); t < s_.end_of_sentence(p.first); ++t) {
    if (telling.has(s_.word(t))) say("in a sentence with", s_.word(t), kind);
  }
}

void RoleWeigher::look_at_matter(std::size_t i) {
  const Draft& d = s_.figures[i];
  const Phrase& p = s_.phrase_of(d);
  const std::string_view kind = sort_of(p.kind);
  const Mention* product = s_.product_at(p.first);
  const bool made = product != nullptr && bare(product->name) == bare(d.subject);
  const std::string_view third = s_.third_of(p.first);
  const std::string_view worked = s_.workup_before(p.first) ? "worked up" : "before";
  say(kind, third);
  if (made) {
    say("product", kind, worked);
    say("product", kind, worked, third);
  } else {
    say("not product", kind, worked);
  }
  if (d.subject.empty()) say("about nothing", kind);
  if (d.mention != nullptr) {
    if (d.mention->water) say("water", kind);
    if (d.mention->solvent) say("solvent", kind);
    if (d.mention->gas) say("gas", kind);
    if (d.mention->indicator) say("indicator", kind);
    if (d.mention->acid) say("acid", kind);
  }
  if (d.subject.ends_with(" solution")) say("solution", kind);
  say("told by", d.subject_rule);
  const auto last = last_role_.find(std::string(bare(d.subject)));
  const std::string_view before = last == last_role_.end() ? "nothing" : model::name_of(last->second);
  say("its last portion was", before);
  say("its last portion was", before, kind);
  say("its last portion was", before, worked);
}

void RoleWeigher::look_at_neighbours(std::size_t i) {
  const Phrase& p = s_.phrase_of(s_.figures[i]);
  const std::string_view kind = sort_of(p.kind);
  if (p.hedge != model::Hedge::exact) say("hedged", kind);
  if (p.number.decimal) say("decimal", kind);
  say("unit", p.unit);
  if (i == 0) {
    say("first of all", kind);
    return;
  }
  const Draft& other = s_.figures[i - 1];
  const Phrase& q = s_.phrase_of(other);
  const bool same = bare(other.subject) == bare(s_.figures[i].subject);
  const std::string_view role = model::name_of(other.role);
  say("after one", role, same ? "of the same" : "of another");
  say("after one", role, kind, same ? "of the same" : "of another");
  say("after one", role, sort_of(q.kind), kind);
  if (p.first - q.last < 4) say("close after one", role, kind);
  if (i + 1 < s_.figures.size()) {
    const Draft& next = s_.figures[i + 1];
    const bool goes_on = bare(next.subject) == bare(s_.figures[i].subject) && s_.phrase_of(next).first - p.last < 12;
    say("ahead of one", sort_of(s_.phrase_of(next).kind), kind, goes_on ? "of the same" : "of another");
  }
}

void RoleWeigher::look(std::size_t i) {
  cues_.clear();
  say("of", sort_of(s_.phrase_of(s_.figures[i]).kind));
  look_at_words(s_.phrase_of(s_.figures[i]));
  look_at_matter(i);
  look_at_neighbours(i);
}

Role RoleWeigher::weigh(std::size_t i, Role by_rule) {
  look(i);
  const Draft& d = s_.figures[i];
  const std::string_view kind = sort_of(s_.phrase_of(d).kind);
  const bool keep = s_.study.decisions != nullptr;
  Decision decision;
  decision.question = "role";
  decision.figure = i;
  Role best = by_rule;
  double most = -1e9;
  Certainty certainty;
  for (const Role role : roles) {
    const std::string_view name = model::name_of(role);
    if (keep) decision.answers.push_back({std::string(name), {}});
    Scale scale(*s_.study.weights, keep ? &decision.answers.back().cues : nullptr);
    if (role == by_rule) {
      scale.add({"role", "by rule"});
      scale.add({"role", "by rule", kind});
      scale.add({"role", "by rule", name});
    }
    for (const Cue& cue : cues_) {
      if (cue.b.empty()) {
        scale.add({"role", name, cue.a});
      } else if (cue.c.empty()) {
        scale.add({"role", name, cue.a, cue.b});
      } else if (cue.d.empty()) {
        scale.add({"role", name, cue.a, cue.b, cue.c});
      } else {
        scale.add({"role", name, cue.a, cue.b, cue.c, cue.d});
      }
    }
    certainty.add(scale.sum());
    if (scale.sum() > most) {
      most = scale.sum();
      best = role;
    }
  }
  if (keep) s_.study.decisions->push_back(std::move(decision));
  s_.figures[i].role_sure = certainty.share();
  if (is_portion(s_.phrase_of(d).kind) && !d.subject.empty()) last_role_[std::string(bare(d.subject))] = best;
  return best;
}

}  // namespace sash::narration
