#pragma once
// Where a narration titrates, and what it says is in the burette. Pure; one for a scene whose mentions stand.

#include <string>
#include <string_view>
#include <vector>

#include "narration/inner/scene.h"

namespace sash::narration {

class Titration {
 public:
  explicit Titration(const Scene& scene);

  /// Whether a word of titrating was said not long before `token`, or will be very soon.
  bool goes_on_at(std::size_t token) const;
  /// Whether the substance, without solution and water of crystallisation, is spoken of as what is in a burette: named
  /// with it, run in, what one titrates with.
  bool is_titrant(std::string_view bare_name) const;

 private:
  void find_titrants(const Scene& s);

  std::vector<std::size_t> words_;  ///< tokens that speak of titrating, in order
  std::vector<std::string> titrants_;
};

}  // namespace sash::narration
