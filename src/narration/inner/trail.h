#pragma once
// What is being spoken of along a narration: materials introduced, measured or isolated last, the solvent in hand, and
// a titration under way. Fed with each figure as it is named. Private to the naming of subjects.

#include <vector>

#include "narration/inner/surroundings.h"

namespace sash::narration {

class Trail : protected Surroundings {
 protected:
  explicit Trail(Scene& s);

  /// The last introduction before `token`.
  const Mention* introduced(std::size_t token, std::size_t reach) const;
  /// What is being spoken of from this figure on.
  void follow_topic(const Draft& d);
  /// The material spoken of last: introduced, measured or isolated, whichever came later; or else named at all.
  const Mention* spoken_of(std::size_t token, std::size_t reach) const;
  const Mention* product(const Phrase& p) const;
  /// A solvent that was introduced or measured after anything else was.
  const Mention* liquid_in_hand(const Phrase& p) const;
  /// "In the burette is 0.1 molar sodium hydroxide".
  void note_titrant(const Draft& d);
  /// Whether the burette was read since it was filled.
  bool titrated() const;
  bool read_off_burette(const Draft& d) const;
  /// Volumes and strengths of a dissolved salt are those of its solution.
  static std::string in_solution(const Mention& m);
  void take(Draft& d, const Mention* m, const char* rule);
  void copy(Draft& d, const Draft& from, const char* rule);
  void take(Draft& d, const About& about);
  void take_found(Draft& d, const Found& found, const char* rule);

  std::size_t materials() const { return materials_; }  ///< figures about materials so far
  /// What is in the burette, as of `token`: what was said to be, or the solution that was made and not yet poured out.
  const Mention* titrant(std::size_t token) const;
  /// The figure of what it is run into.
  const Draft* analyte() const { return analyte_ ? &s_.figures[*analyte_] : nullptr; }

 private:
  std::vector<const Mention*> introductions_;
  const Mention* titrant_ = nullptr;
  std::optional<std::size_t> analyte_;
  const Mention* topic_ = nullptr;
  std::size_t topic_token_ = 0;
  const Mention* solvent_ = nullptr;
  std::size_t solvent_token_ = 0;
  std::size_t materials_ = 0;
};

}  // namespace sash::narration
