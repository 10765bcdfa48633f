#pragma once
// Writing files so that nobody ever finds half of one. Safe from any thread.

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "support/outcome.h"

namespace sash::session {

/// Writes `bytes` beside `path`, checks their length, then moves them there; what was there is replaced.
/// Fails: unreadable, when the folder cannot be written or the disk is full; what was at `path` is then still there.
Done write_whole(const std::string& path, std::string_view bytes);
Done write_whole(const std::string& path, std::span<const std::uint8_t> bytes);

}  // namespace sash::session
