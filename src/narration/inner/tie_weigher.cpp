#include "narration/inner/tie_weigher.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "model/names.h"
#include "narration/inner/matter.h"
#include "quantity/unit.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr std::size_t figures_back = 28;
/// What speaks for restating from the outset: figures of a new sample are many, and one that is missed costs as much.
constexpr double readiness = 0.5;

/// Whether figures of the two kinds can be of one sample.
bool can_restate(Kind a, Kind b) { return a == b || (is_portion(a) && is_portion(b)); }

std::string_view off_by(double a, double b) {
  if (b == 0) return "no size";
  const double off = std::abs(a / b - 1);
  if (off < 1e-9) return "equal";
  if (off < 0.006) return "equal to a digit";
  if (off < 0.035) return "close";
  return off < 0.12 ? "near" : "differ";
}

}  // namespace

TieWeigher::TieWeigher(Scene& s) : s_(s) {
  base_.reserve(s.figures.size());
  for (const Draft& d : s.figures) {
    const Phrase& p = s.phrase_of(d);
    const auto unit = quantity::Unit::parse(p.unit);
    base_.push_back(unit && !p.upper ? std::optional(unit->to_si(p.value)) : std::nullopt);
  }
}

bool TieWeigher::same_matter(std::size_t a, std::size_t b) const {
  const std::string_view x = bare(s_.figures[a].subject);
  return !x.empty() && x == bare(s_.figures[b].subject);
}

std::string_view TieWeigher::numbers(std::size_t k, std::size_t i) const {
  if (!base_[k] || !base_[i]) return phrase(k).upper && phrase(i).upper ? "ranges" : "unknown";
  const Kind a = phrase(k).kind;
  const Kind b = phrase(i).kind;
  if (a == b) return off_by(*base_[k], *base_[i]);
  const bool mass_and_amount = (a == Kind::mass && b == Kind::amount) || (a == Kind::amount && b == Kind::mass);
  if (mass_and_amount) {
    const std::string& name = s_.figures[k].subject.empty() ? s_.figures[i].subject : s_.figures[k].subject;
    const Mention* m = s_.figures[k].mention != nullptr ? s_.figures[k].mention : s_.figures[i].mention;
    const auto known = molar_masses_.of(m != nullptr ? m->name : name);
    const double molar = known ? known->value / 1000 : 0;  // kg/mol
    if (molar <= 0) return "no molar mass";
    const double mass = a == Kind::mass ? *base_[k] : *base_[i];
    const double amount = a == Kind::mass ? *base_[i] : *base_[k];
    return off_by(mass / molar, amount);
  }
  if ((a == Kind::mass && b == Kind::volume) || (a == Kind::volume && b == Kind::mass)) {
    const double mass = a == Kind::mass ? *base_[k] : *base_[i];
    const double volume = a == Kind::mass ? *base_[i] : *base_[k];
    if (volume == 0) return "no size";
    const double density = mass / volume;  // kg/m3
    return density < 600 ? "light" : density < 2000 ? "of a liquid" : density < 23000 ? "heavy" : "too heavy";
  }
  if ((a == Kind::volume && b == Kind::amount)) {
    // A strength said of that volume tells.
    for (std::size_t m = i; m-- > 0 && i - m < 8;) {
      if (phrase(m).kind != Kind::molar_concentration || !base_[m] || !same_matter(m, i)) continue;
      return off_by(*base_[m] * *base_[k], *base_[i]);
    }
  }
  return "unlike";
}

void TieWeigher::by_numbers(Scale& scale, std::size_t k, std::size_t i) const {
  const std::string_view a = sort_of(phrase(k).kind);
  const std::string_view b = sort_of(phrase(i).kind);
  const std::string_view how = numbers(k, i);
  const std::string_view matter = same_matter(k, i) ? "same matter" : "other matter";
  const std::string_view unit = phrase(k).unit == phrase(i).unit ? "same unit" : "another unit";
  const std::string_view form = phrase(i).number.decimal ? "decimal" : "whole";
  scale.add({"same", a, b, how});
  scale.add({"same", a, b, how, matter});
  scale.add({"same", how, unit, form});
  scale.add({"same", how, unit, form, matter});
  scale.add({"same", b, how, unit});
}

void TieWeigher::by_matter(Scale& scale, std::size_t k, std::size_t i) const {
  const std::string_view a = sort_of(phrase(k).kind);
  const std::string_view b = sort_of(phrase(i).kind);
  const std::string_view matter = same_matter(k, i) ? "same matter" : "other matter";
  const std::string_view was = model::name_of(s_.figures[k].role);
  const std::string_view is = model::name_of(s_.figures[i].role);
  scale.add({"same", a, b, matter});
  scale.add({"same", was, is});
  scale.add({"same", was, is, matter, phrase(k).kind == phrase(i).kind ? "one kind" : "two kinds"});
  scale.add({"same", a, b, was == is ? "same role" : "another role"});
  if (s_.figures[k].corrected_by) scale.add({"same", "taken back"});
}

void TieWeigher::by_place(Scale& scale, std::size_t k, std::size_t i) const {
  const std::size_t one = std::min(k, i);
  const std::size_t other = std::max(k, i);
  const std::size_t gap = phrase(other).first - std::min(phrase(other).first, phrase(one).last);
  const std::string_view a = sort_of(phrase(k).kind);
  const std::string_view b = sort_of(phrase(i).kind);
  const std::string_view way = k < i ? "before" : "behind";
  const std::string_view matter = same_matter(k, i) ? "same matter" : "other matter";
  scale.add({"same", way, few(other - one)});
  scale.add({"same", a, b, way, few(other - one)});
  scale.add({"same", way, step_of(gap), matter});
  scale.add({"same", a, b, way, step_of(gap)});
  const bool together = s_.same_sentence(phrase(k).first, phrase(i).first);
  scale.add({"same", a, b, way, together ? "same sentence" : "another sentence", matter});
  std::size_t nearer = 0;
  for (std::size_t m = other; m-- > one + 1 && nearer < 4;)
    nearer += phrase(m).kind == phrase(k).kind && same_matter(m, i) ? 1 : 0;
  scale.add({"same", b, "nearer ones of its kind", few(nearer)});
  constexpr std::size_t in_one_breath = 14;
  if (gap < in_one_breath) {
    for (std::size_t t = phrase(one).last; t < phrase(other).first; ++t) {
      if (!s_.mention_at[t] && !s_.phrase_at[t]) scale.add({"same", way, "between", s_.word(t)});
    }
  }
  if (k + 1 == i) {
    scale.add({"same", a, b, "right after", s_.word_before(phrase(i).first)});
    scale.add({"same", "right after", s_.word_before(phrase(i).first)});
  }
}

void TieWeigher::alone(Scale& scale, std::size_t i) const {
  const Phrase& p = phrase(i);
  const std::string_view kind = sort_of(p.kind);
  scale.add({"same", "none"});
  scale.add({"same", "none", kind});
  scale.add({"same", "none", kind, model::name_of(s_.figures[i].role)});
  for (std::size_t t = p.first; t-- > 0 && p.first - t <= 5 && s_.same_sentence(t, p.first);) {
    if (!s_.mention_at[t] && !s_.phrase_at[t]) scale.add({"same", "none", "after", s_.word(t)});
  }
  for (std::size_t t = p.last; t < s_.size() && t < p.last + 3 && s_.same_sentence(t, p.first); ++t) {
    if (!s_.mention_at[t]) scale.add({"same", "none", "ahead of", s_.word(t)});
  }
}

bool TieWeigher::is_plainly_another(std::size_t k, std::size_t i) const {
  constexpr std::size_t near =
      5;  // figures; so near even a different number may be the same sample, misread or rounded
  if (i - k <= near) return false;
  const std::string_view how = numbers(k, i);
  return how == "differ" || how == "unlike" || how == "light" || how == "too heavy" || how == "no size";
}

std::optional<std::size_t> TieWeigher::same_sample(std::size_t i, std::optional<std::size_t> by_rule) {
  Decision decision;
  decision.question = "same";
  decision.figure = i;
  const bool keep = s_.study.decisions != nullptr;
  std::optional<std::size_t> best;
  double most = 0;
  std::map<std::optional<std::size_t>, double> by_sample;  // several figures of one sample are one answer
  const auto put = [&](std::optional<std::size_t> k) {
    if (keep) decision.answers.push_back({k ? std::to_string(*k) : "none", {}});
    Scale scale(*s_.study.weights, keep ? &decision.answers.back().cues : nullptr);
    if (by_rule == k) {
      scale.add({"same", "by rule"});
      scale.add({"same", "by rule", k ? "one" : "none", sort_of(phrase(i).kind)});
    }
    if (k) {
      by_numbers(scale, *k, i);
      by_matter(scale, *k, i);
      by_place(scale, *k, i);
    } else {
      alone(scale, i);
    }
    const double sum = scale.sum() + (k ? readiness : 0);
    double& own = by_sample.try_emplace(k ? std::optional(first_of(*k)) : std::nullopt, sum).first->second;
    own = std::max(own, sum);
    if (k && sum <= most) return;
    most = sum;
    best = k;
  };
  put(std::nullopt);
  const std::size_t from = i - std::min(i, figures_back);
  if (by_rule && *by_rule < from) put(by_rule);
  for (std::size_t k = from; k < i; ++k) {
    const bool may = can_restate(phrase(k).kind, phrase(i).kind) && !s_.figures[k].corrected_by;
    if ((may && !is_plainly_another(k, i)) || by_rule == std::optional(k)) put(k);
  }
  if (keep) s_.study.decisions->push_back(std::move(decision));
  Certainty certainty;
  for (const auto& [sample, sum] : by_sample) certainty.add(sum);
  s_.figures[i].sample_sure = certainty.share();
  return best ? std::optional(first_of(*best)) : std::nullopt;
}

}  // namespace sash::narration
