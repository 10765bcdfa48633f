#pragma once
// Which figure another one restates, weighed: the numbers (the same one? the moles of that mass?), what both are about
// and do, how far apart they stand and the words between. What the plain rules of Tier said is one cue among the
// others. Private to the ties.

#include <optional>
#include <string>

#include "narration/inner/molar_masses.h"
#include "narration/inner/scene.h"

namespace sash::narration {

class TieWeigher {
 public:
  explicit TieWeigher(Scene& s);

  /// The figure of whose sample figure `i` speaks again; nothing when its sample is new.
  std::optional<std::size_t> same_sample(std::size_t i, std::optional<std::size_t> by_rule);

 private:
  void by_numbers(Scale& scale, std::size_t k, std::size_t i) const;
  void by_matter(Scale& scale, std::size_t k, std::size_t i) const;
  void by_place(Scale& scale, std::size_t k, std::size_t i) const;
  void alone(Scale& scale, std::size_t i) const;

  const Phrase& phrase(std::size_t i) const { return s_.phrase_of(s_.figures[i]); }
  /// Whether the numbers of two figures that stand far apart rule out one sample.
  bool is_plainly_another(std::size_t k, std::size_t i) const;
  bool same_matter(std::size_t a, std::size_t b) const;
  std::size_t first_of(std::size_t i) const { return s_.figures[i].same_as.value_or(i); }
  /// How the numbers of two figures go together: "the same", "in another unit", "fits" for what chemistry makes of one.
  std::string_view numbers(std::size_t k, std::size_t i) const;

  Scene& s_;
  std::vector<std::optional<double>> base_;
  MolarMasses molar_masses_;
};

}  // namespace sash::narration
