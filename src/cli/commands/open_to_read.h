#pragma once
// Opening a record for commands that only read it.

#include <string>

#include "cli/console.h"
#include "store/store.h"
#include "support/outcome.h"

namespace sash::cli {

/// The record; says on `err` when part of it may not have been read: it is damaged or was written by a newer version.
/// Fails: as store::Store::open.
Outcome<store::Store> open_to_read(const std::string& path, const Console& console);

}  // namespace sash::cli
