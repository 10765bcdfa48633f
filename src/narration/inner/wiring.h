#pragma once
// Wiring: one way in which a figure may have come about from others, and the choice among such ways. A speaker's
// arithmetic is right more often than a guess of what was computed from what: of several ways the one that gives what
// was said is taken; where none does, only one that the words bear out firmly is worth an objection. Pure.

#include <map>
#include <optional>
#include <vector>

#include "narration/inner/ledger.h"
#include "narration/inner/relating.h"

namespace sash::narration {

/// How well the words bear a wiring out, which is also its confidence where it does not give what was said.
namespace ground {
constexpr double firm = 0.85;  ///< said outright: "20 mL, that's 20.9 grams"
constexpr double sure = 0.8;   ///< no less than firm, but for the distance
constexpr double fair = 0.6;   ///< the operands are the ones spoken of, and nothing else fits
constexpr double weak = 0.45;  ///< likely, but not enough for an objection: offered to the person only
constexpr double loose = 0.3;  ///< it could be: proposed only where the numbers agree
constexpr double faint = 0.2;  ///< any two figures could be it: only tells that nothing need be wrong
}  // namespace ground

/// How firmly two figures belong to one portion: tied and said in one breath, tied, or merely near.
double ground_of_pair(const Ledger& told, std::size_t a, std::size_t b);

/// Collects ways for each result and chooses among them. Requires: the ledger outlives it.
class Wirings {
 public:
  explicit Wirings(const Ledger& told) : told_(told) {}

  /// `relation` may be how figure `result` came about; it would give `gives` (SI; nothing: not known).
  /// Nothing happens where a figure takes two places of the relation.
  void offer(std::size_t result, double ground, std::optional<Sized> gives, SpokenRelation relation);

  /// One relation for each result that is worth proposing, in the order of the results. One that gives what was said
  /// is at least fair; one that misses it by what rounding does is left to the person.
  std::vector<SpokenRelation> chosen() const;

 private:
  enum class Fit { agrees, nearly, vaguely, off };
  struct Way {
    SpokenRelation relation;
    Fit fit = Fit::off;
  };
  Fit fit_of(std::size_t result, const std::optional<Sized>& gives, double ground) const;
  /// By a factor that is no slip of the decimal point: rather misread than misspoken, unless the reading is certain.
  bool is_far_off(std::size_t result, const Sized& gives, bool certain) const;
  /// How sure the reading is of the figures of a relation: of what they are about and whose sample they restate.
  double certainty(const SpokenRelation& relation) const;
  static int rank(const Way& way);
  static bool better(const Way& a, const Way& b);

  const Ledger& told_;
  std::map<std::size_t, Way> best_;
};

}  // namespace sash::narration
