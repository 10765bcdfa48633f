#include "narration/inner/phrase_weigher.h"

#include <array>
#include <cmath>

namespace sash::narration {

namespace {

using quantity::Kind;

/// A number of that size: "below 1", "1 to 9", "10 to 99", "100 to 999", "more".
std::string_view size_of(double value) {
  const double size = std::abs(value);
  if (size < 1) return "below 1";
  if (size < 10) return "1 to 9";
  if (size < 100) return "10 to 99";
  return size < 1000 ? "100 to 999" : "more";
}

/// How one number is to another of its sort.
std::string_view proportion(double value, double other) {
  if (other == 0 || value / other <= 0) return "none";
  if (value == other) return "same";
  const double ratio = value / other;
  if (ratio > 0.5 && ratio < 2) return "alike";
  return ratio > 0.05 && ratio < 20 ? "near" : "far";
}

std::string_view form_of(const Phrase& p) {
  if (p.fraction) return "fraction";
  if (p.upper) return "range";
  if (p.number.decimal) return "decimal";
  if (p.number.article) return "article";
  if (p.number.paired) return "paired";
  return p.number.written ? "digits" : "words";
}

std::optional<SpokenPiece> place_of(const Scene& s, const Phrase& p) {
  const Token& t = s.tokens[p.first];
  return SpokenPiece{t.line, t.begin, t.end - t.begin};
}

/// Puts what stands around a number on the scales: the answer, then the cue.
class Around {
 public:
  Around(const Scene& s, std::size_t index) : s_(s), p_(s.phrases[index]), index_(index) {}

  void weigh(Scale& scale, std::string_view question, std::string_view answer) const {
    const auto say = [&](auto... cue) { scale.add({question, answer, cue...}); };
    say("always");
    say("form", form_of(p_));
    say("form", form_of(p_), size_of(p_.value));
    if (!p_.unit.empty()) say("unit", p_.unit);
    words(say);
    neighbours(say);
  }

 private:
  void words(const auto& say) const {
    for (std::size_t t = p_.first; t-- > 0 && p_.first - t <= 6 && s_.same_sentence(t, p_.first);) {
      if (s_.phrase_at[t]) {
        say("right after", "a number");
        break;
      }
      const std::string_view word = s_.mention_at[t] ? "a material" : s_.word(t);
      say("after", word);
      if (p_.first - t == 1) say("right after", word, form_of(p_));
      if (p_.first - t == 1) say("right after", word);
      if (p_.first - t == 2) say("two after", word);
    }
    if (p_.first == s_.begin_of_sentence(p_.first)) say("opens the sentence", form_of(p_));
    const std::size_t reach = std::min(s_.size(), p_.last + 5);
    for (std::size_t t = p_.last; t < reach && s_.same_sentence(t, p_.first); ++t) {
      const std::string_view word = s_.mention_at[t] ? "a material" : s_.phrase_at[t] ? "a number" : s_.word(t);
      say("ahead of", word);
      if (t == p_.last) say("right ahead of", word);
      if (t == p_.last + 1) say("two ahead of", word);
    }
    for (std::size_t t = p_.first; t-- > 0 && p_.first - t <= 12 && s_.same_sentence(t, p_.first);) {
      if (s_.acts[t] == Act::none) continue;
      say("act", act_name(s_.acts[t]));
      break;
    }
  }

  void neighbours(const auto& say) const {
    for (std::size_t i = index_; i-- > 0;) {
      const Phrase& q = s_.phrases[i];
      if (q.fate != Fate::figure) continue;
      say("last figure", quantity::kind_name(q.kind), step_of(p_.first - q.last));
      break;
    }
    for (std::size_t i = index_ + 1; i < s_.phrases.size(); ++i) {
      const Phrase& q = s_.phrases[i];
      if (q.fate != Fate::figure && !(q.fate == Fate::open && q.unit_said)) continue;
      if (q.first - p_.last < 16) say("next figure", quantity::kind_name(q.kind), step_of(q.first - p_.last));
      break;
    }
  }

  const Scene& s_;
  const Phrase& p_;
  std::size_t index_;
};

/// Scales for one question, with the record of them when anybody wants it.
class Balance {
 public:
  Balance(const Scene& s, std::string_view question, std::size_t index) : s_(s) {
    decision_.question = question;
    decision_.place = place_of(s, s.phrases[index]);
  }
  void put(std::string answer, const auto& cues) {
    if (kept()) decision_.answers.push_back({std::move(answer), {}});
    Scale scale(*s_.study.weights, kept() ? &decision_.answers.back().cues : nullptr);
    cues(scale);
    if (count_ == 0 || scale.sum() > most_) {
      most_ = scale.sum();
      heaviest_ = count_;
    }
    ++count_;
  }
  /// The place of the heaviest answer.
  std::size_t heaviest() {
    if (kept()) s_.study.decisions->push_back(std::move(decision_));
    return heaviest_;
  }

 private:
  bool kept() const { return s_.study.decisions != nullptr; }
  const Scene& s_;
  Decision decision_;
  std::size_t count_ = 0;
  std::size_t heaviest_ = 0;
  double most_ = 0;
};

struct BareAnswer {
  Meaning meaning;
  const Phrase* like = nullptr;   ///< the figure whose unit it would have
  std::string_view from = "usual";
  std::size_t back = 0;           ///< how many others stand between
};

std::vector<BareAnswer> bare_answers(const Scene& s, std::size_t index, const std::optional<Meaning>& by_rule) {
  const Phrase& p = s.phrases[index];
  std::vector<BareAnswer> all;
  const auto known = [&](Kind kind, std::string_view unit) {
    for (const BareAnswer& a : all) {
      if (a.meaning.kind == kind && a.meaning.unit == unit) return true;
    }
    return false;
  };
  if (index + 1 < s.phrases.size()) {
    const Phrase& q = s.phrases[index + 1];
    if (q.unit_said && q.fate == Fate::figure && q.first - p.last < 12 && q.kind != Kind::other)
      all.push_back({{q.kind, q.unit, "the unit of the next", 0.7}, &q, "next", 0});
  }
  std::size_t back = 0;
  for (std::size_t i = index; i-- > 0 && back < 6 && p.first - s.phrases[i].first < 240;) {
    const Phrase& q = s.phrases[i];
    if (q.fate != Fate::figure || q.kind == Kind::count || q.kind == Kind::fraction || q.unit == "[drp]") continue;
    if (!known(q.kind, q.unit)) all.push_back({{q.kind, q.unit, "the unit of one before", 0.7}, &q, "before", back++});
  }
  if (!known(Kind::temperature, "Cel")) all.push_back({{Kind::temperature, "Cel", "a temperature by its words", 0.7}});
  if (!known(Kind::pH, "[pH]")) all.push_back({{Kind::pH, "[pH]", "an acidity by its words", 0.7}});
  if (!known(Kind::mass, "g")) all.push_back({{Kind::mass, "g", "a weight by its words", 0.7}});
  if (!known(Kind::volume, "mL")) all.push_back({{Kind::volume, "mL", "a volume by its words", 0.7}});
  if (by_rule && !known(by_rule->kind, by_rule->unit)) all.push_back({*by_rule, nullptr, "rule", 0});
  return all;
}

void by_likeness(Scale& scale, const Scene& s, std::size_t index, const BareAnswer& a) {
  const Phrase& p = s.phrases[index];
  scale.add({"bare", a.from, few(a.back)});
  bool said_before = false;
  for (std::size_t i = index; i-- > 0 && !said_before && p.first - s.phrases[i].first < 900;) {
    const Phrase& q = s.phrases[i];
    said_before = q.fate == Fate::figure && q.kind == a.meaning.kind && q.unit == a.meaning.unit && q.value == p.value;
  }
  if (said_before) scale.add({"bare", "said before", form_of(p)});
  if (a.like == nullptr) return;
  const Phrase& q = *a.like;
  const std::size_t far = q.first > p.first ? q.first - p.last : p.first - q.last;
  scale.add({"bare", a.from, "distance", step_of(far)});
  scale.add({"bare", a.from, s.same_sentence(q.first, p.first) ? "same sentence" : "another sentence"});
  scale.add({"bare", quantity::kind_name(q.kind), proportion(p.value, q.value)});
  scale.add({"bare", "like", form_of(q), form_of(p)});
  scale.add({"bare", a.from, "right after", s.word_before(p.first)});
  scale.add({"bare", a.from, few(a.back), "right after", s.word_before(p.first)});
  if (p.last < s.size()) scale.add({"bare", a.from, "right ahead of", s.word(p.last)});
}

}  // namespace

std::optional<Meaning> weigh_bare(const Scene& s, std::size_t index, const std::optional<Meaning>& by_rule) {
  const std::vector<BareAnswer> all = bare_answers(s, index, by_rule);
  const Around around(s, index);
  Balance balance(s, "bare", index);
  balance.put("none", [&](Scale& scale) {
    if (!by_rule) scale.add({"bare", "by rule"});
    if (!by_rule) scale.add({"bare", "by rule", "none"});
    around.weigh(scale, "bare", "none");
  });
  for (const BareAnswer& a : all) {
    balance.put(std::string(quantity::kind_name(a.meaning.kind)) + " " + a.meaning.unit, [&](Scale& scale) {
      if (by_rule && by_rule->kind == a.meaning.kind && by_rule->unit == a.meaning.unit) {
        scale.add({"bare", "by rule"});
        scale.add({"bare", "by rule", by_rule->rule});
      }
      scale.add({"bare", "some"});
      around.weigh(scale, "bare", quantity::kind_name(a.meaning.kind));
      by_likeness(scale, s, index, a);
    });
  }
  const std::size_t heaviest = balance.heaviest();
  if (heaviest == 0) return std::nullopt;
  const Meaning& meaning = all[heaviest - 1].meaning;
  return by_rule && by_rule->kind == meaning.kind && by_rule->unit == meaning.unit ? by_rule : meaning;
}

Fate weigh_fate(const Scene& s, std::size_t index, Fate by_rule) {
  constexpr std::array<std::pair<Fate, std::string_view>, 4> fates{{{Fate::figure, "figure"},
                                                                    {Fate::capacity, "capacity"},
                                                                    {Fate::distractor, "distractor"},
                                                                    {Fate::unscored, "unscored"}}};
  const Phrase& p = s.phrases[index];
  const Around around(s, index);
  Balance balance(s, "fate", index);
  for (const auto& [fate, name] : fates) {
    balance.put(std::string(name), [&, fate = fate, name = name](Scale& scale) {
      if (fate == by_rule) {
        scale.add({"fate", "by rule"});
        scale.add({"fate", "by rule", name});
        scale.add({"fate", "by rule", name, quantity::kind_name(p.kind)});
        scale.add({"fate", "by rule", p.rule});
      }
      scale.add({"fate", name, "kind", quantity::kind_name(p.kind)});
      around.weigh(scale, "fate", name);
    });
  }
  return fates[balance.heaviest()].first;
}

Kind weigh_percent(const Scene& s, std::size_t index, Kind by_rule) {
  constexpr std::array<Kind, 4> kinds{Kind::mass_percent, Kind::volume_percent, Kind::percent_yield, Kind::percent_other};
  const Phrase& p = s.phrases[index];
  const Mention* before = nullptr;
  for (std::size_t t = p.first; t-- > 0 && p.first - t < 60 && before == nullptr;) {
    if (s.mention_at[t]) before = &s.mentions[*s.mention_at[t]];
  }
  const Mention* behind = nullptr;
  for (std::size_t t = p.last; t < s.size() && t < p.last + 8 && s.same_sentence(t, p.first) && behind == nullptr; ++t) {
    if (s.mention_at[t]) behind = &s.mentions[*s.mention_at[t]];
  }
  const auto nature = [](const Mention& m) -> std::string_view {
    return m.gas ? "gas" : m.acid ? "acid" : m.solvent ? "solvent" : m.water ? "water" : m.dissolves ? "salt" : "other";
  };
  const std::string_view third = p.first * 3 < s.size() ? "early" : p.first * 3 < 2 * s.size() ? "middle" : "late";
  const Around around(s, index);
  Balance balance(s, "percent", index);
  for (const Kind kind : kinds) {
    const std::string_view name = quantity::kind_name(kind);
    balance.put(std::string(name), [&](Scale& scale) {
      if (kind == by_rule) {
        scale.add({"percent", "by rule"});
        scale.add({"percent", "by rule", name});
      }
      if (before != nullptr) scale.add({"percent", name, "behind", nature(*before), step_of(p.first - before->last)});
      if (before != nullptr) scale.add({"percent", name, "behind", before->name});
      if (behind != nullptr) scale.add({"percent", name, "in front of", nature(*behind)});
      if (behind != nullptr) scale.add({"percent", name, "in front of", behind->name});
      scale.add({"percent", name, third});
      for (std::size_t i = index; i-- > 0;) {
        if (s.phrases[i].fate != Fate::figure || s.phrases[i].unit != "%") continue;
        scale.add({"percent", name, "last was", quantity::kind_name(s.phrases[i].kind)});
        scale.add({"percent", name, "last was", quantity::kind_name(s.phrases[i].kind),
                   s.phrases[i].value == p.value ? "same" : "another"});
        break;
      }
      around.weigh(scale, "percent", name);
    });
  }
  return kinds[balance.heaviest()];
}

}  // namespace sash::narration
