#include "narration/inner/product_weigher.h"

#include <algorithm>

#include "chem/names.h"
#include "narration/inner/matter.h"
#include "narration/inner/topics.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr std::size_t opening = 150;  // words in which it is said what will be made

bool is_measure(const Phrase& p) {
  return p.fate == Fate::figure &&
         (p.kind == Kind::mass || p.kind == Kind::volume || p.kind == Kind::amount || is_strength(p.kind));
}

}  // namespace

ProductWeigher::ProductWeigher(Scene& scene, const Reckoning& reckoning) : s_(scene), reckoning_(reckoning) {
  gather();
  see_what_is_measured();
}

void ProductWeigher::gather() {
  for (const Mention& m : s_.mentions) {
    if (m.water || m.generic || m.indicator || is_vague(m.name)) continue;
    const std::string_view plain = bare(m.name);
    const auto same = [&](const Candidate& c) { return c.bare == plain; };
    auto known = std::find_if(all_.begin(), all_.end(), same);
    if (known == all_.end()) {
      Candidate c;
      c.mention = &m;
      c.bare = plain;
      all_.push_back(std::move(c));
      known = all_.end() - 1;
    }
    if (m.name.ends_with("hydrate") && !known->mention->name.ends_with("hydrate")) known->mention = &m;
    known->places.push_back(&m);
    known->come_out = known->come_out || has_come_out(s_, m);
  }
  for (Candidate& c : all_) {
    const auto formula = chem::formula_of(c.mention->name);
    if (!formula) continue;
    for (const auto& [nuclide, count] : formula->composition()) {
      if (nuclide.number != 1 && nuclide.number != 8) c.elements.set(nuclide.number);
    }
    if (const auto mass = molar_masses_.of(c.mention->name)) c.molar_mass = mass->value / 1000;
  }
}

void ProductWeigher::see_what_is_measured() {
  constexpr std::size_t near = 7;  // words
  for (const Phrase& p : s_.phrases) {
    if (!is_measure(p)) continue;
    for (Candidate& c : all_) {
      const auto stands_by_it = [&](const Mention* m) {
        const bool behind = m->first >= p.last && m->first - p.last < near && s_.same_sentence(p.first, m->first);
        const bool before = m->last <= p.first && p.first - m->last < near && s_.same_sentence(p.first, m->first);
        return behind || before;
      };
      if (std::none_of(c.places.begin(), c.places.end(), stands_by_it)) continue;
      if (c.measured == 0) c.first_measured = p.first;
      ++c.measured;
    }
  }
}

void ProductWeigher::by_place(Scale& scale, const Candidate& c) const {
  const Mention& first = *c.places.front();
  scale.add({"product", "first named", step_of(first.first)});
  scale.add({"product", "named", few(c.places.size())});
  scale.add({"product", "last named", s_.third_of(c.places.back()->first)});
  if (&c == &all_.front()) scale.add({"product", "named before all others"});
  constexpr WordSet making{"make",      "making",    "made",    "into",    "get",        "prepare",
                           "preparing", "grow",      "growing", "extract", "extracting", "recover",
                           "isolate",   "synthesis", "called",  "today",   "turn",       "turning"};
  for (const Mention* m : c.places) {
    if (m->first > opening) break;
    if (const auto verb = s_.find_before(m->first, making, 6)) scale.add({"product", "named after", s_.word(*verb)});
  }
  std::size_t isolated = 0;
  for (const std::size_t w : s_.workups) {
    const auto close = [&](const Mention* m) { return m->first + 12 > w && m->first < w + 12; };
    isolated += std::any_of(c.places.begin(), c.places.end(), close) ? 1 : 0;
  }
  scale.add({"product", "named where something is isolated", few(isolated)});
  if (c.come_out) scale.add({"product", "said to have come out"});
  scale.add({"product", "measured out", few(c.measured)});
  if (c.measured > 0) scale.add({"product", "first measured out", s_.third_of(c.first_measured)});
}

void ProductWeigher::by_chemistry(Scale& scale, const Candidate& c) const {
  const Mention& m = *c.mention;
  const std::pair<bool, std::string_view> natures[] = {
      {m.gas, "gas"},           {m.acid, "acid"},
      {m.solvent, "solvent"},   {m.dissolves, "salt"},
      {m.element, "element"},   {m.mixture, "mixture"},
      {m.solution, "solution"}, {m.name.ends_with("hydrate"), "hydrate"}};
  for (const auto& [is, nature] : natures) {
    if (is) scale.add({"product", "nature", nature});
  }
  if (c.molar_mass <= 0 || m.mixture) {
    scale.add({"product", "no formula"});
    return;
  }
  if (c.elements.any()) {
    Elements others;
    std::size_t givers = 0;
    for (const Candidate& other : all_) {
      if (&other == &c || other.measured == 0 || other.bare == c.bare) continue;
      if (c.measured > 0 && other.first_measured > c.first_measured) continue;
      if ((other.elements & c.elements & ~others).any()) ++givers;
      others |= other.elements;
    }
    const bool all = (c.elements & ~others).none();
    const std::string_view from = all ? "all its elements" : (c.elements & others).any() ? "some" : "none";
    scale.add({"product", "measured out before", from});
    scale.add({"product", "measured out before", from, "in", few(givers)});
  }
  std::size_t late = 0;
  std::size_t sharp = 0;
  for (std::size_t i = 0, k = 0; i < s_.phrases.size(); ++i) {
    if (s_.phrases[i].fate != Fate::figure) continue;
    const std::size_t figure = k++;
    if (s_.third_of(s_.phrases[i].first) == "early" || !reckoning_.weighs_with(figure, c.molar_mass)) continue;
    ++late;
    sharp += reckoning_.is_sharp(figure) ? 1 : 0;
  }
  scale.add({"product", "masses and amounts are its own", few(late)});
  scale.add({"product", "masses and amounts are its own", "sharp", few(sharp)});
}

void ProductWeigher::weigh_on(Scale& scale, const Candidate& c, const Mention* by_rule) const {
  if (by_rule != nullptr && bare(by_rule->name) == c.bare) scale.add({"product", "by rule"});
  by_place(scale, c);
  by_chemistry(scale, c);
}

const Mention* ProductWeigher::weigh(const Mention* by_rule) {
  Decision decision;
  decision.question = "product";
  const bool keep = s_.study.decisions != nullptr;
  const Mention* best = nullptr;
  double most = 0;
  const auto put = [&](const Candidate* c) {
    if (keep) decision.answers.push_back({c == nullptr ? std::string() : c->mention->name, {}});
    Scale scale(*s_.study.weights, keep ? &decision.answers.back().cues : nullptr);
    if (c != nullptr) {
      weigh_on(scale, *c, by_rule);
    } else {
      scale.add({"product", "none"});
      scale.add({"product", "none", "isolating", few(s_.workups.size())});
      if (by_rule == nullptr) scale.add({"product", "by rule"});
      if (by_rule == nullptr) scale.add({"product", "none", "by rule"});
    }
    if (c != nullptr && scale.sum() <= most) return;
    most = scale.sum();
    best = c == nullptr ? nullptr : c->mention;
  };
  put(nullptr);
  for (const Candidate& c : all_) put(&c);
  if (keep) s_.study.decisions->push_back(std::move(decision));
  return best;
}

}  // namespace sash::narration
