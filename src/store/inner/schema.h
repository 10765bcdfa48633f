#pragma once
// The tables of a record file and how files of earlier versions are brought up to date. The version of a file is its
// user_version; version n is what the first n steps make. A step, once published, is never changed: what comes later is
// another step.

#include <cstdint>
#include <span>

#include "store/inner/sql.h"

namespace sash::store {

inline constexpr std::int64_t application_id = 0x53617368;  ///< "Sash", in every record file's header

/// The steps, as SQL. Those of the program: schema_steps().
using Steps = std::span<const char* const>;
Steps schema_steps();

/// Brings the file to the version of `steps` in one transaction; does nothing when it is there already.
/// Trouble, after which nothing has changed, is left at the connection. Requires: version 0 to steps.size().
void migrate(Connection& db, Steps steps);

}  // namespace sash::store
