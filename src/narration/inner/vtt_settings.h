#pragma once
// The settings behind a WebVTT cue's times, and those of a region. Unknown and malformed ones are skipped, as the
// standard says. Source: W3C WebVTT, "parse the WebVTT cue settings", "collect WebVTT region settings".

#include <span>
#include <string_view>

#include "narration/webvtt.h"

namespace sash::narration {

VttSettings read_settings(std::string_view text, std::span<const VttRegion> regions);
VttRegion read_region(std::string_view text);

}  // namespace sash::narration
