#pragma once
// Still pictures as RGBA: one at a moment, or a batch for the running sheet. Opens the file itself, so it may run on
// any thread beside a decoder. Safe from any thread.

#include <cstddef>
#include <filesystem>
#include <functional>
#include <span>

#include "media/frame_index.h"
#include "media/rgba.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::media {

struct Still {
  Moment at;  ///< when the frame it shows begins
  RgbaImage image;
};

/// The frame on screen at `at`, inside `box` (empty: full size). `index` may be null; then it takes longer.
/// Fails: as probe(); unsupported (no picture); damaged (nothing decodable there); cancelled.
Outcome<Still> still_at(const std::filesystem::path& path, Moment at, Size box, Quality quality,
                        const FrameIndex* index, Progress& progress);

/// Stills for `moments` (any order), handed out as they are made with their place in `moments`. A keyframe at most
/// `slack` earlier stands in for the exact frame; further away, the exact frame is decoded. With slack 0 all are exact.
/// Fails: as still_at(); moments that cannot be decoded are left out silently as long as one can.
Done make_stills(const std::filesystem::path& path, std::span<const Moment> moments, Moment slack, Size box,
                 const FrameIndex* index, Progress& progress, const std::function<void(std::size_t, Still)>& each);

}  // namespace sash::media
