#pragma once
// The content of a record file as it is now, in memory: what a read-only desk works on. Needs no right to write, and
// takes what it can from a file that is cut short.

#include <memory>
#include <string>

#include "store/inner/sql.h"

namespace sash::store {

/// Always a connection; trouble is left at it when nothing can be read.
std::unique_ptr<Connection> snapshot_of(const std::string& file);

}  // namespace sash::store
