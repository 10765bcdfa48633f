#pragma once
// What the numbers of a narration make of each other, whatever they are about: "20 mils", "1.05 grams per mil", "21
// grams" is a volume, a density and the mass that follows. Presenters reckon aloud, so a number that follows from
// earlier ones is seldom chance, and tells whose it is. Pure; one for a scene whose kinds are settled.

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "narration/inner/scene.h"

namespace sash::narration {

/// A way in which the number of a figure follows from earlier ones.
struct Reckoned {
  std::string_view how;   ///< "volume times density"
  std::size_t one = 0;    ///< place among the figures
  std::size_t other = 0;  ///< the same where it follows from a single one
};

class Reckoning {
 public:
  explicit Reckoning(const Scene& scene);

  /// The nearest ways first, at most four.
  std::span<const Reckoned> ways(std::size_t figure) const;
  /// In coherent units; nothing for ranges and for what has no unit.
  std::optional<double> value(std::size_t figure) const { return values_[figure].value; }
  /// Whether `reckoned`, in coherent units, is what the figure says, as closely as it says it.
  bool says(std::size_t figure, double reckoned) const;
  /// Whether the digits say it to a hundredth or closer, so that agreement is no chance.
  bool is_sharp(std::size_t figure) const { return values_[figure].sharp; }
  /// Where a mass and an amount said close together are those of a substance of that molar mass (kg/mol): the place of
  /// the other one, before or behind the figure.
  std::optional<std::size_t> weighs_with(std::size_t figure, double molar_mass) const;
  std::size_t size() const { return values_.size(); }

 private:
  struct Value {
    std::optional<double> value;
    double spread = 0;  ///< what the digits leave open, to either side
    quantity::Kind kind = quantity::Kind::other;
    std::size_t first = 0;  ///< token
    bool sharp = false;
  };
  void find_ways(std::size_t figure);
  void from_one(std::size_t figure, std::size_t k);
  void from_two(std::size_t figure, std::size_t a, std::size_t b);
  void note(std::size_t figure, std::string_view how, std::size_t one, std::size_t other);

  std::vector<Value> values_;
  std::vector<Reckoned> ways_;
  std::vector<std::size_t> begin_;  ///< of the ways of each figure; one more at the end
};

}  // namespace sash::narration
