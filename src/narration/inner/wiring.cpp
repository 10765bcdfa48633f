#include "narration/inner/wiring.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace sash::narration {

double ground_of_pair(const Ledger& told, std::size_t a, std::size_t b) {
  if (!told.one_sample(a, b)) return ground::loose;
  const double apart = 0.001 * static_cast<double>(a > b ? a - b : b - a);
  // Said in one breath; further off, the tie itself may be wrong.
  return (told.sentences_between(a, b) <= 2 ? ground::firm : ground::fair) - apart;
}

/// Numbers that agree go before words, but for vague ones: those agree with anything.
int Wirings::rank(const Way& way) {
  switch (way.fit) {
    case Fit::agrees:
      return 4;
    case Fit::nearly:
      return 3;
    case Fit::vaguely:
      return 1;
    case Fit::off:
      break;
  }
  return way.relation.confidence >= ground::fair ? 2 : 0;
}

bool Wirings::better(const Way& a, const Way& b) {
  if (rank(a) != rank(b)) return rank(a) > rank(b);
  return a.relation.confidence > b.relation.confidence;
}

Wirings::Fit Wirings::fit_of(std::size_t result, const std::optional<Sized>& gives, double ground) const {
  // What people round twice, or compute with a rounded molar mass, comes out this far off without a mistake.
  constexpr double a_little = 0.006;
  // Numbers this vague agree with anything.
  constexpr double telling = 0.06;
  constexpr double coverage = 2;
  if (!gives) return Fit::off;
  const Sized said = told_.sized(result);
  if (told_.agrees(result, *gives)) {
    const bool vague = coverage * std::hypot(said.spread, gives->spread) > telling * std::abs(said.value);
    return vague && ground <= ground::weak ? Fit::vaguely : Fit::agrees;
  }
  return std::abs(said.value - gives->value) <= a_little * std::abs(said.value) ? Fit::nearly : Fit::off;
}

bool Wirings::is_far_off(std::size_t result, const Sized& gives, bool certain) const {
  const double far = certain ? 12 : 3;
  constexpr double close = 0.05;
  const double said = told_.sized(result).value;
  if (said <= 0 || gives.value <= 0) return true;
  const double ratio = gives.value / said;
  const double tens = std::log10(ratio);
  const bool slipped = std::abs(tens - std::round(tens)) < close && std::abs(tens) > 0.5;
  const double limit = told_[result].unit_said ? far : far / 2;
  return !slipped && (ratio > limit || ratio < 1 / limit);
}

void Wirings::offer(std::size_t result, double ground, std::optional<Sized> gives, SpokenRelation relation) {
  std::set<std::size_t> figures;
  for (const SpokenTerm& term : relation.terms) {
    if (!figures.insert(term.figure).second) return;
  }
  Way way{std::move(relation), fit_of(result, gives, ground)};
  constexpr double sure_reading = 0.95;
  const bool certain = way.relation.type == model::RelationType::in_solution && ground >= ground::sure &&
                       certainty(way.relation) > sure_reading;
  // A speaker seldom errs that much; we may well have misread.
  const bool doubtful = way.fit == Fit::off && gives && is_far_off(result, *gives, certain);
  way.relation.confidence = doubtful ? std::min(ground, ground::weak) : ground;
  const auto [it, first] = best_.try_emplace(result, way);
  if (!first && better(way, it->second)) it->second = std::move(way);
}

double Wirings::certainty(const SpokenRelation& relation) const {
  double logs = 0;
  for (const SpokenTerm& term : relation.terms) {
    const SpokenFigure& f = told_[term.figure];
    logs += std::log(std::max(f.subject_sure * f.sample_sure, 1e-6));
  }
  return std::exp(logs / (2 * static_cast<double>(std::max<std::size_t>(relation.terms.size(), 1))));
}

std::vector<SpokenRelation> Wirings::chosen() const {
  std::vector<SpokenRelation> out;
  for (const auto& [result, way] : best_) {
    SpokenRelation r = way.relation;
    if (way.fit == Fit::agrees)
      r.confidence = r.confidence < ground::loose ? ground::weak : std::max(r.confidence, ground::fair);
    if (way.fit == Fit::nearly || way.fit == Fit::vaguely) r.confidence = ground::weak;
    if (r.confidence < ground::weak) continue;
    // An objection is worth no more than the reading it rests on.
    if (way.fit == Fit::off) r.confidence *= certainty(r);
    out.push_back(std::move(r));
  }
  return out;
}

}  // namespace sash::narration
