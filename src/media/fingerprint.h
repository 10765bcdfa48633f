#pragma once
// A text that stands for a file's content, made without reading all of it, so that footage moved elsewhere is found
// again. Not a proof of equality: a change inside a large file between the sampled places goes unseen. Safe from any
// thread.

#include <filesystem>
#include <string>

#include "support/outcome.h"

namespace sash::media {

/// Size and SHA-256 over the size, the first and last 64 KiB and 16 evenly spread 4 KiB samples: "12345-9f86d0...".
/// Fails: as probe() for what is plainly no footage; unreadable.
Outcome<std::string> fingerprint(const std::filesystem::path& path);

}  // namespace sash::media
