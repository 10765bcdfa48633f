#pragma once
// Small questions about subjects and kinds that several passes ask. Pure.

#include <string_view>

#include "quantity/kind.h"

namespace sash::narration {

/// The substance without what says in which form it is: "copper(II) sulfate" for its hydrate and its solution.
inline std::string_view bare(std::string_view subject) {
  if (const std::size_t at = subject.find(" solution"); at != std::string_view::npos) subject = subject.substr(0, at);
  const std::size_t last = subject.rfind(' ');
  if (subject.ends_with("hydrate") && last != std::string_view::npos) subject = subject.substr(0, last);
  return subject;
}

inline bool is_strength(quantity::Kind k) {
  using quantity::Kind;
  return k == Kind::molar_concentration || k == Kind::mass_percent || k == Kind::volume_percent ||
         k == Kind::mass_concentration;
}

/// Whether figures of that kind say how much of something there is.
inline bool is_portion(quantity::Kind k) {
  using quantity::Kind;
  return k == Kind::mass || k == Kind::volume || k == Kind::amount || k == Kind::gas_volume || k == Kind::equivalents;
}

/// What cues call a kind: all strengths are one sort.
inline std::string_view sort_of(quantity::Kind k) { return is_strength(k) ? "strength" : quantity::kind_name(k); }

}  // namespace sash::narration
