// What a figure qualifies: the volume of a strength or a density, the portion of a percent, each of the counted.

#include "narration/inner/tier.h"

#include <algorithm>
#include <cmath>

#include "quantity/unit.h"

namespace sash::narration {

using quantity::Kind;

void Tier::attach(std::size_t i) {
  const Kind kind = phrase(i).kind;
  if (is_strength(kind)) return attach_strength(i);
  if (kind == Kind::density) return attach_to_portion(i, 40);
  if (kind == Kind::percent_yield) return attach_yield(i);
  if (kind == Kind::percent_other) return attach_loss(i);
  if (kind == Kind::mass || kind == Kind::volume) return attach_each(i);
}

void Tier::attach_strength(std::size_t i) {
  if (s_.figures[i].same_as) return;
  if (phrase(i).kind == Kind::molar_concentration && s_.figures[i].role == model::Role::stated_result) {
    // "3.16 grams in a litre, so it ought to be 0.02 molar": still of what was just made.
    const bool just_made = i >= 2 && s_.figures[i - 1].subject == "water" && distance(i - 1, i) < 14 &&
                           phrase(i - 1).kind == Kind::volume && same_matter(i - 2, i) && distance(i - 2, i) < 24;
    if (just_made) s_.figures[i].attached_to = i - 1;
    return;
  }
  if (s_.act_before(phrase(i).first, Acts(Act::hearsay), 8)) return;
  const auto fits = [&](std::size_t k) {
    const Kind kind = phrase(k).kind;
    return (kind == Kind::volume || kind == Kind::mass) && !s_.figures[k].corrected_by;
  };
  // Right before or behind, in the same sentence and about the same matter.
  for (const std::size_t k : {i - 1, i + 1}) {
    if (k >= s_.figures.size() || !fits(k) || !same_matter(k, i)) continue;
    const bool beside =
        s_.same_sentence(phrase(k).first, phrase(i).first) && (k > i ? distance(i, k) : distance(k, i)) < 16;
    if (beside || (k < i && distance(k, i) < 12)) {
      s_.figures[i].attached_to = k;
      return;
    }
  }
  // What is in the burette: its volume is read later.
  if (s_.find_in_sentence(phrase(i).first, WordSet{"burette", "buret"})) {
    for (std::size_t k = i + 1; k < s_.figures.size() && distance(i, k) < 220; ++k) {
      if (phrase(k).kind == Kind::volume && same_matter(k, i) && s_.figures[k].role == model::Role::added) {
        s_.figures[i].attached_to = k;
        return;
      }
    }
    return;
  }
  // The strength of what was just made: of the solution, or of the solvent that was measured. One that is expected or
  // found by titration belongs to no portion.
  if (s_.figures[i].role == model::Role::stated_result || phrase(i).kind != Kind::molar_concentration) return;
  for (std::size_t k = i; k-- > 0;) {
    if (distance(k, i) > 45) return;
    if (is_strength(phrase(k).kind) && same_matter(k, i)) return;  // the strength of that volume was given already
    if (!fits(k) || phrase(k).kind != Kind::volume || phrase(k).unit == "[drp]") continue;
    const bool solvent = s_.figures[k].mention != nullptr && s_.figures[k].mention->water;
    // Made up in a solvent only when the solute was measured.
    bool solute = false;
    for (std::size_t m = i; m-- > 0 && solvent && distance(m, i) < 70 && !solute;) {
      solute = (phrase(m).kind == Kind::mass || phrase(m).kind == Kind::amount) && same_matter(m, i);
    }
    if (same_matter(k, i) || (solvent && solute)) {
      s_.figures[i].attached_to = k;
      return;
    }
  }
}

void Tier::attach_loss(std::size_t i) {
  if (i > 0 && phrase(i - 1).kind == Kind::mass && distance(i - 1, i) < 24) {
    for (std::size_t k = i - 1; k-- > 0 && distance(k, i) < 160;) {
      if (!makes_percent(i - 1, k, i) || s_.figures[i - 1].role != model::Role::other) continue;
      s_.figures[i].attached_to = first_of(k);
      return;
    }
  }
  attach_to_portion(i, 80);
}

void Tier::attach_to_portion(std::size_t i, std::size_t reach) {
  for (std::size_t k = i; k-- > 0;) {
    if (distance(k, i) > reach) return;
    const Kind kind = phrase(k).kind;
    if ((kind == Kind::volume || kind == Kind::mass) && same_matter(k, i) && !s_.figures[k].corrected_by) {
      s_.figures[i].attached_to = first_of(k);
      return;
    }
  }
}

bool Tier::makes_percent(std::size_t a, std::size_t b, std::size_t i) const {
  if (!same_kind(a, b) || !is_portion(phrase(a).kind) || !base_[a] || !base_[b] || *base_[b] == 0) return false;
  if (s_.figures[a].subject.empty() || s_.figures[b].subject.empty()) return false;  // vessels
  if (s_.figures[a].same_as == std::optional(b)) return false;
  return std::abs(*base_[a] / *base_[b] * 100 - phrase(i).value) < 0.012 * phrase(i).value;
}

void Tier::attach_yield(std::size_t i) {
  using model::Role;
  const auto obtained = [&](std::size_t k) {
    return s_.figures[k].role == Role::product || s_.figures[k].role == Role::recovered;
  };
  // "I got 9.2 grams of it, a yield of 84 per cent": nothing is nearer.
  if (i > 0 && obtained(i - 1) && is_portion(phrase(i - 1).kind) &&
      s_.same_sentence(phrase(i - 1).first, phrase(i).first)) {
    s_.figures[i].attached_to = i - 1;
    return;
  }
  std::optional<std::size_t> any;
  // What the percent was worked out from tells which figure was obtained; one that was itself only worked out, last.
  for (const bool worked_out : {false, true}) {
    for (std::size_t a = i; a-- > 0 && distance(a, i) < 90;) {
      for (std::size_t b = i; b-- > 0 && distance(b, i) < 90;) {
        if (a == b || s_.figures[i].role == Role::other || !makes_percent(a, b, i)) continue;
        if ((s_.figures[a].role == Role::stated_result) != worked_out) continue;
        s_.figures[i].attached_to = a;
        return;
      }
    }
  }
  for (std::size_t k = i; k-- > 0;) {
    if (distance(k, i) > 120) break;
    const Kind kind = phrase(k).kind;
    if (kind != Kind::mass && kind != Kind::gas_volume && kind != Kind::volume && kind != Kind::amount) continue;
    if (s_.figures[i].role == Role::other) return;
    const Role role = s_.figures[k].role;
    if (obtained(k)) {
      s_.figures[i].attached_to = k;
      return;
    }
    if (!any && role != Role::stated_result && role != Role::other && same_matter(k, i)) any = k;
  }
  if (any) s_.figures[i].attached_to = any;
}

void Tier::attach_each(std::size_t i) {
  const Phrase& p = phrase(i);
  for (std::size_t k = i; k-- > 0;) {
    if (phrase(k).kind != Kind::count || distance(k, i) > 12) continue;
    if (!s_.figures[i].sum_of.empty() || s_.find_before(p.first, WordSet{"would", "makes", "so", "total"}, 3)) return;
    if (!s_.same_sentence(phrase(k).first, p.first)) break;
    if (p.first - phrase(k).last <= 8) s_.figures[i].attached_to = k;
    return;
  }
  const bool each = s_.word(p.last) == "each" || s_.word(p.last) == "apiece";
  if (!each) return;
  for (std::size_t k = i + 1; k < s_.figures.size() && distance(i, k) < 40; ++k) {
    if (phrase(k).kind == Kind::count) {
      s_.figures[i].attached_to = k;
      return;
    }
  }
}

}  // namespace sash::narration
