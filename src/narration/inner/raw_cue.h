#pragma once
// A cue or paragraph as it stands in the file, before repeats are dropped.

#include <string>
#include <vector>

#include "model/footage.h"

namespace sash::narration {

struct RawCue {
  Moment from;
  Moment until;
  std::string text;  ///< plain
  std::string speaker;
  std::vector<model::Word> words;  ///< only where the file has times for words
  std::size_t line = 0;            ///< of the file, from 1
};

}  // namespace sash::narration
