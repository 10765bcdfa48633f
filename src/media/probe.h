#pragma once
// Looks at a media file and says what it is. Reads the file's head (and its tail where the index lies there); no full
// scan. Safe from any thread.

#include <filesystem>

#include "media/facts.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::media {

/// What the file at `path` holds.
/// Fails: not_found (nothing there); wrong_use (a folder, a pipe); unreadable; damaged (empty, cut before its index);
/// unsupported (text, a ZIP archive, no picture and no sound, a codec nobody here decodes); cancelled.
Outcome<FootageFacts> probe(const std::filesystem::path& path);
Outcome<FootageFacts> probe(const std::filesystem::path& path, Progress& progress);

}  // namespace sash::media
