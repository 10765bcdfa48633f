#pragma once
// Makes a FrameIndex by reading all packets of the picture stream once; decodes only where the container carries no
// presentation times (AVI with reordered frames). Safe from any thread; takes as long as reading the file.

#include <filesystem>

#include "media/frame_index.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::media {

/// Broken or hidden packets (cut off at the end, trimmed by an edit list, undecodable at the start) are left out.
/// Transport streams put end to end are laid one behind the other.
/// Fails: as probe(); unsupported (no picture stream); damaged (no frame can be decoded); cancelled.
Outcome<FrameIndex> build_frame_index(const std::filesystem::path& path, Progress& progress);

}  // namespace sash::media
