#pragma once
// Looks at a file before libav does: is it there, is it ordinary, and is it plainly something other than footage. Gives
// the one sentence a person can act on, where libav would only say "invalid data". Reads a few kilobytes. Safe from any
// thread. Sources: PKWARE APPNOTE 6.3, 4.3.7 (ZIP); ISO/IEC 14496-12, 4.2 (boxes).

#include <cstdint>
#include <filesystem>

#include "support/outcome.h"

namespace sash::media::inner {

/// The file's size in bytes.
/// Fails: not_found, wrong_use (folder, pipe, device), unreadable, damaged (empty), unsupported (ZIP, text).
Outcome<std::int64_t> look_at_file(const std::filesystem::path& path);

/// How the boxes of an ISO file (mp4, mov) end.
enum class BoxEnd { not_boxes, whole, cut_without_index, cut_with_index };
BoxEnd look_at_boxes(const std::filesystem::path& path);

/// How a file is named in sentences.
std::string quoted(const std::filesystem::path& path);

}  // namespace sash::media::inner
