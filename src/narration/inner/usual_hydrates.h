#pragma once
// The water of crystallisation with which salts are sold: a presenter says "copper sulfate" and weighs the blue one.

#include <optional>
#include <string>

namespace sash::narration {

/// "copper(II) sulfate" is sold as "copper(II) sulfate pentahydrate"; nothing where it is sold dry or not known here.
/// Source: as suppliers sell them, common practice, no source.
std::optional<std::string> usual_hydrate(const std::string& substance);

}  // namespace sash::narration
