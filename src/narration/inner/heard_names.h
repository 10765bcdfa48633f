#pragma once
// Names in the words a recogniser put for them ("acid tone"), by their sound. Pure.

#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "narration/inner/materials.h"
#include "narration/inner/mention.h"

namespace sash::narration {

/// A material that sounds like the words at `at`, and in `last` the token behind them: where a name is expected, any;
/// elsewhere only what is long and in several words, so that it cannot be chance.
const Material* heard_material(const TokenStream& s, std::size_t at, std::size_t& last);

/// What the recogniser wrote for names, where that is certain: by its sound.
class HeardNames {
 public:
  void learn(const TokenStream& s, std::size_t first, std::size_t last, const Material& material);

  /// What was heard where a name was expected is that name everywhere, in whatever words it is written there.
  void recognise_again(const TokenStream& s, std::vector<Mention>& found) const;

 private:
  std::unordered_map<std::string, const Material*> by_sound_;
};

}  // namespace sash::narration
