#pragma once
// promise(): a check that stays on in release builds. A broken promise is a bug of ours, never bad input.

#include <source_location>

namespace sash {

/// Prints what was promised and where, then aborts.
[[noreturn]] void promise_broken(const char* what, std::source_location where) noexcept;

/// Does nothing when `kept`; otherwise a bug was found and the process ends with a message on stderr.
constexpr void promise(bool kept, const char* what, std::source_location where = std::source_location::current()) {
  if (!kept) promise_broken(what, where);
}

}  // namespace sash
