#pragma once
// Dangerous moments that are spoken of (a gas comes off, something is boiled, lit or quenched, a corrosive is poured),
// and warnings that are spoken. Screening by words: it points a person to moments, and says nothing about what is safe.
// Pure.

#include <span>
#include <string>
#include <vector>

#include "model/footage.h"
#include "model/safety.h"

namespace sash::narration {

/// Words from byte `begin` of line `line` to byte `end` of line `last_line`.
struct SpokenSpan {
  std::size_t line = 0;
  std::uint32_t begin = 0;
  std::size_t last_line = 0;
  std::uint32_t end = 0;
};

struct SpokenDanger {
  SpokenSpan words;  ///< the sentence that speaks of it
  std::string cause;
  std::string substance;
  model::Route route = model::Route::other;
  model::Level level = model::Level::warning;
  const char* rule = "";
  double confidence = 0.6;
};

struct SpokenWarning {
  SpokenSpan words;
  std::string text;
  std::vector<model::Route> routes;  ///< what it warns of, as far as its words tell
};

struct Dangers {
  std::vector<SpokenDanger> dangers;
  std::vector<SpokenWarning> warnings;
};

Dangers find_dangers(std::span<const model::NarrationLine> lines);

}  // namespace sash::narration
