// Subjects and roles that follow from how figures hang together: a restatement is about what the first mention was
// about, a sum about its parts, a strength plays the part of its volume.

#include <algorithm>

#include "narration/inner/scene.h"
#include "narration/inner/topics.h"

namespace sash::narration {

namespace {

using model::Role;
using quantity::Kind;

bool said_itself(const Draft& d) {
  const bool vague = d.mention != nullptr && is_vague(d.mention->name);
  return !vague && std::string_view(d.subject_rule).starts_with("named behind");
}

/// "13.43 grams, hold on, 14.33 grams of silver chloride": the slip is about what sets it right.
void follow_correction(const Draft& right, Draft& d) {
  if (said_itself(d) || !said_itself(right)) return;
  d.subject = right.subject;
  d.mention = right.mention;
  d.role = right.role;
}

void follow_first(Scene& s, Draft& d) {
  const Draft& first = s.figures[*d.same_as];
  if (!said_itself(d) && !first.subject.empty()) {
    d.subject = first.subject;
    d.mention = first.mention;
  }
  const Kind kind = s.phrase_of(d).kind;
  const bool portion = kind == Kind::mass || kind == Kind::volume || kind == Kind::amount ||
                       kind == Kind::equivalents || kind == Kind::gas_volume || kind == Kind::molar_concentration;
  if (portion) d.role = first.role;
}

/// What the addends have in common: their subject, or "oils" of olive oil and coconut oil, or the pot.
std::string sum_subject(const Scene& s, const Draft& d) {
  const std::string& one = s.figures[d.sum_of.front()].subject;
  const auto all = [&](auto test) {
    return std::all_of(d.sum_of.begin(), d.sum_of.end(), [&](std::size_t i) { return test(s.figures[i].subject); });
  };
  if (all([&](const std::string& other) { return other == one; })) return one;
  const std::string last = one.substr(one.rfind(' ') + 1);
  if (last != "solution" && last != "acid" &&
      all([&](const std::string& other) { return other.ends_with(" " + last); }))
    return last + "s";
  return "reaction mixture";
}

void follow_attached(const Scene& s, Draft& d) {
  const Draft& to = s.figures[*d.attached_to];
  const Kind kind = s.phrase_of(d).kind;
  const bool strength = kind == Kind::molar_concentration || kind == Kind::mass_percent ||
                        kind == Kind::volume_percent || kind == Kind::mass_concentration;
  if (strength) {
    const bool dissolved = to.role == Role::solvent && to.mention != nullptr && to.mention->water;
    d.role = dissolved ? Role::measured_out : to.role;
  } else if (kind == Kind::percent_yield && !said_itself(d)) {
    d.subject = to.subject;
  } else if (kind == Kind::mass || kind == Kind::volume) {
    const std::string_view noun = s.word(s.phrase_of(to).last - 1);
    const bool washes = noun == "times" || noun == "twice" || noun == "thrice" || noun == "washes" || noun == "rinses";
    d.role = washes && kind == Kind::volume ? Role::solvent : to.role;  // each of the counted
  }
}

}  // namespace

void follow_ties(Scene& scene) {
  for (Draft& d : scene.figures) {
    if (d.corrected_by) follow_correction(scene.figures[*d.corrected_by], d);
    if (d.same_as) follow_first(scene, d);
    if (d.fraction_of && !said_itself(d)) d.subject = scene.figures[*d.fraction_of].subject;
    if (!d.sum_of.empty() && !said_itself(d)) d.subject = sum_subject(scene, d);
    if (d.attached_to) {
      follow_attached(scene, d);
      Draft& to = scene.figures[*d.attached_to];
      if (scene.phrase_of(to).kind == Kind::count) to.role = d.role;
    }
  }
}

}  // namespace sash::narration
