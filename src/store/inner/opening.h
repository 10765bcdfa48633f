#pragma once
// How a record file is opened: to write when all is well, otherwise as a snapshot in memory, with the reason.

#include <memory>
#include <optional>
#include <string>

#include "model/record.h"
#include "store/inner/desk_lock.h"
#include "store/inner/sql.h"
#include "support/outcome.h"

namespace sash::store {

struct OpenedRecord {
  std::optional<DeskLock> lock;    ///< there when the record can be edited
  std::unique_ptr<Connection> db;  ///< the file, or its snapshot
  model::Record record;
  std::optional<Fault> why_read_only;
};

/// Fails: as Store::open.
Outcome<OpenedRecord> open_record(const std::string& path);

}  // namespace sash::store
