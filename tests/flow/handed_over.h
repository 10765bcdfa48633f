#pragma once
// The main job on one clip, and every byte that came out of it.

#include <map>
#include <string>

#include "session/scratch.h"

namespace sash::flow {

/// Begins a record with `clip` and two spoken figures, checks it, writes script, still and JSON; gives all that was
/// printed or written by its name, the pictures inside the script's page too. Fails the test when a step fails.
std::map<std::string, std::string> handed_over(const session::Scratch& scratch, const std::string& clip);

}  // namespace sash::flow
