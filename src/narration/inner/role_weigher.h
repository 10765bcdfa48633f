#pragma once
// What part a figure plays, weighed: the acts and words around it, what it is about and what the figures before it
// were, and what the plain rules said. Private to the roles.

#include <string>
#include <unordered_map>

#include "narration/inner/scene.h"

namespace sash::narration {

class RoleWeigher {
 public:
  explicit RoleWeigher(Scene& s) : s_(s) {}

  /// The part of figure `i`, which the rules called `by_rule`. Fed with the figures in their order.
  model::Role weigh(std::size_t i, model::Role by_rule);

 private:
  /// What all answers share.
  struct Cue {
    std::string_view a;
    std::string_view b;
    std::string_view c;
    std::string_view d;
  };
  void look(std::size_t i);
  void look_at_words(const Phrase& p);
  void look_at_matter(std::size_t i);
  void look_at_neighbours(std::size_t i);
  void say(std::string_view a, std::string_view b = {}, std::string_view c = {}, std::string_view d = {}) {
    cues_.push_back({a, b, c, d});
  }

  Scene& s_;
  std::vector<Cue> cues_;
  std::unordered_map<std::string, model::Role> last_role_;  ///< per substance, of its last portion
};

}  // namespace sash::narration
