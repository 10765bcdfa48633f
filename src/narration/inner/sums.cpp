// Shares of what was measured before, and sums of it.

#include "narration/inner/tier.h"

#include <algorithm>
#include <cmath>

#include "quantity/unit.h"

namespace sash::narration {

using quantity::Kind;

void Tier::share(std::size_t i) {
  if (phrase(i).kind != Kind::fraction) return;
  for (std::size_t k = i; k-- > 0;) {
    const Kind kind = phrase(k).kind;
    if (kind != Kind::mass && kind != Kind::volume) continue;
    if (s_.figures[k].corrected_by || s_.figures[k].role == model::Role::other) continue;
    // Prefer the product over what was said about theory.
    if (s_.figures[k].role == model::Role::stated_result && s_.figures[k].sum_of.empty()) continue;
    s_.figures[i].fraction_of = first_of(k);
    break;
  }
  // "half of this, so 2 grams"
  if (i + 1 < s_.figures.size() && (phrase(i + 1).kind == Kind::mass || phrase(i + 1).kind == Kind::volume) &&
      distance(i, i + 1) < 8) {
    s_.figures[i + 1].same_as = i;
    s_.figures[i + 1].subject = s_.figures[i].subject;
    s_.figures[i + 1].mention = s_.figures[i].mention;
    s_.figures[i + 1].role = s_.figures[i].role;
  }
}

void Tier::sum(std::size_t i) {
  const Kind kind = phrase(i).kind;
  const bool time = kind == Kind::duration && s_.find_before(phrase(i).first, WordSet{"add", "total", "altogether"}, 8);
  if ((kind != Kind::mass && kind != Kind::volume && !time) || !base_[i] || s_.figures[i].same_as) return;
  constexpr WordSet totals{"have", "now",    "altogether", "total", "makes", "together", "combined", "sum", "so",
                           "in",   "scales", "at",         "got",   "be",    "final",    "without",  "of"};
  const bool cue = time || s_.find_before(phrase(i).first, totals, 6) || s_.find_after(phrase(i).last, totals, 5);
  if (!cue) return;
  if (count_times_each(i)) return;
  if (s_.find_before(phrase(i).first, WordSet{"expect", "most", "should", "theoretical", "theory", "maximum"}, 6))
    return;
  if (phrase(i).hedge != model::Hedge::exact && phrase(i).hedge != model::Hedge::about) return;
  // Addends said just before, of the same dimension, that add up.
  std::vector<std::size_t> addends;
  for (std::size_t k = i; k-- > 0 && addends.size() < 8;) {
    if (distance(k, i) > 900) break;
    if (phrase(k).kind != kind || !base_[k] || s_.figures[k].corrected_by) continue;
    if (s_.figures[k].same_as && phrase(*s_.figures[k].same_as).kind == kind) continue;  // counted already
    if (s_.figures[k].role == model::Role::other || phrase(k).unit == "[drp]") continue;
    if (s_.figures[k].role == model::Role::stated_result && s_.figures[k].sum_of.empty()) continue;
    addends.push_back(k);
  }
  constexpr WordSet joining{"pour", "poured", "pouring", "mix", "mixed", "combine", "combined", "together"};
  bool joined = false;
  for (std::size_t t = phrase(i).first; t-- > 0 && phrase(i).first - t < 40 && kind == Kind::volume && !joined;)
    joined = joining.has(s_.word(t));
  const bool strong =
      joined || s_.find_before(phrase(i).first, WordSet{"total", "altogether", "together", "combined", "makes"}, 6) ||
      s_.find_after(phrase(i).last, WordSet{"altogether", "total", "together", "at", "in"}, 5);
  std::vector<std::size_t> best;
  const double whole = *base_[i];
  const std::size_t n = std::min<std::size_t>(addends.size(), 6);
  double best_score = 1e9;
  for (unsigned mask = 1; mask < (1u << n); ++mask) {
    double total = 0;
    std::size_t terms = 0;
    std::size_t furthest = 0;
    for (std::size_t b = 0; b < n; ++b) {
      if ((mask >> b & 1u) == 0) continue;
      total += *base_[addends[b]];
      ++terms;
      furthest = std::max(furthest, b);
    }
    if (terms < 2 || std::abs(total - whole) > 0.004 * whole) continue;
    const double score = static_cast<double>(furthest * 2 + terms) + std::abs(total - whole) / whole * 100;
    if (score < best_score) {
      best_score = score;
      best.clear();
      for (std::size_t b = 0; b < n; ++b) {
        if (mask >> b & 1u) best.push_back(addends[b]);
      }
    }
  }
  if (best.empty()) return;
  // Three or more addends, or a spoken total: two that happen to add up are not enough.
  const std::string_view subject = s_.figures[i].subject;
  const bool mixture =
      subject == "reaction mixture" || s_.figures[i].mention == nullptr || s_.figures[i].mention->mixture;
  const bool near_by = distance(best.back(), i) < 120;
  if (best.size() < 3 && !(strong || mixture || !near_by)) return;
  if (best.size() < 3 && !strong && !mixture) return;
  const auto restates = [&] {
    return s_.find_before(phrase(i).first, WordSet{"weighed", "add", "adding", "pour"}, 4).has_value();
  };
  if (restates()) return;
  std::sort(best.begin(), best.end());
  s_.figures[i].sum_of = best;
  s_.figures[i].role = model::Role::stated_result;
}

bool Tier::count_times_each(std::size_t i) {
  for (std::size_t k = i; k-- > 0;) {
    if (distance(k, i) > 60) return false;
    if (phrase(k).kind != Kind::count) continue;
    for (std::size_t each = i; each-- > 0;) {
      if (phrase(each).kind != phrase(i).kind || s_.figures[each].attached_to != k || !base_[each]) continue;
      if (std::abs(*base_[each] * phrase(k).value - *base_[i]) > 0.05 * *base_[i]) continue;
      if (each != i - 1 && k != i - 1) continue;
      if (!same_matter(each, i) && s_.word(phrase(i).last) == "of") continue;
      s_.figures[i].sum_of = each < k ? std::vector{each, k} : std::vector{k, each};
      s_.figures[i].count_times_each = true;
      s_.figures[i].role = model::Role::stated_result;
      return true;
    }
  }
  return false;
}

}  // namespace sash::narration
