#pragma once
// One line of narration, for tests that need nothing more.

#include <string>
#include <vector>

#include "model/footage.h"

namespace sash::narration {

inline std::vector<model::NarrationLine> said(const std::string& text) {
  model::NarrationLine line;
  line.text = text;
  return {line};
}

}  // namespace sash::narration
