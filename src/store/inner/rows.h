#pragma once
// Carries changes of a record over to its tables. Trouble is left at the connection; the caller wraps a transaction
// around it.

#include <memory>

#include "model/edit.h"
#include "store/inner/sql.h"

namespace sash::store {

class RowWriter {
 public:
  explicit RowWriter(Connection& db);
  ~RowWriter();
  RowWriter(const RowWriter&) = delete;
  RowWriter& operator=(const RowWriter&) = delete;

  void put(const model::Change& change);
  void put(const model::Bench& bench);
  void put_all(const model::Record& record);  ///< into empty tables

 private:
  struct Tables;
  Connection& db_;
  std::unique_ptr<Tables> tables_;
};

}  // namespace sash::store
