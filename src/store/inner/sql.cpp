#include "store/inner/sql.h"

#include <sqlite3.h>

#include <utility>

#include "support/check.h"

namespace sash::store {
namespace {

constexpr int wait_ms = 2000;  // for a moment's lock of another reader or of a copy being made

}  // namespace

bool Trouble::damage() const {
  const int primary = code & 0xFF;
  return primary == SQLITE_CORRUPT || primary == SQLITE_NOTADB || primary == SQLITE_ERROR ||
         code == SQLITE_IOERR_SHORT_READ;
}

Connection::Connection(const std::string& path, Mode mode) {
  int flags = SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE;
  switch (mode) {
    case Mode::write:
      flags |= SQLITE_OPEN_READWRITE;
      break;
    case Mode::read:
      flags |= SQLITE_OPEN_READONLY;
      break;
    case Mode::fresh:
      flags |= SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
      break;
    case Mode::memory:
      flags |= SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY;
      break;
  }
  const std::string name = mode == Mode::memory ? ":memory:" : path;
  const int code = sqlite3_open_v2(name.c_str(), &handle_, flags, nullptr);
  if (code != SQLITE_OK) {
    set_trouble(code, handle_ != nullptr ? sqlite3_errmsg(handle_) : "out of memory");
    return;
  }
  sqlite3_busy_timeout(handle_, wait_ms);
  // The file may come from anywhere: nothing in its schema may run code or reach the schema's own table.
  sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle_, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_db_config(handle_, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr);
  sqlite3_db_config(handle_, SQLITE_DBCONFIG_ENABLE_VIEW, 0, nullptr);
}

Connection::~Connection() { sqlite3_close_v2(handle_); }

void Connection::run(const std::string& sql) {
  if (trouble_) return;
  if (sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) set_trouble();
}

std::optional<std::int64_t> Connection::integer(const std::string& sql) {
  Statement statement(*this, sql);
  if (!statement.step()) return std::nullopt;
  return statement.integer(0);
}

std::string Connection::text(const std::string& sql) {
  Statement statement(*this, sql);
  return statement.step() ? statement.text(0) : "";
}

void Connection::fold_log_on_closing(bool wanted) {
  sqlite3_db_config(handle_, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, wanted ? 0 : 1, nullptr);
}

int Connection::changed_rows() const { return sqlite3_changes(handle_); }

std::optional<Trouble> Connection::take_trouble() { return std::exchange(trouble_, std::nullopt); }

void Connection::set_trouble(int code, std::string message) {
  if (!trouble_) trouble_ = Trouble{code, std::move(message)};
}

void Connection::set_trouble() { set_trouble(sqlite3_extended_errcode(handle_), sqlite3_errmsg(handle_)); }

void copy_database(Connection& from, Connection& to) {
  if (from.trouble()) return to.set_trouble(from.trouble()->code, from.trouble()->message);
  sqlite3_backup* copying = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
  if (copying == nullptr) return to.set_trouble();
  int code = SQLITE_OK;
  for (int waits = 0; waits < wait_ms / 10; ++waits) {
    code = sqlite3_backup_step(copying, -1);
    if (code != SQLITE_BUSY && code != SQLITE_LOCKED) break;
    sqlite3_sleep(10);
  }
  sqlite3_backup_finish(copying);
  if (code != SQLITE_DONE) to.set_trouble(code, sqlite3_errstr(code));
}

Statement::Statement(Connection& connection, const std::string& sql) : connection_(&connection) {
  if (connection.trouble()) return;
  if (sqlite3_prepare_v2(connection.handle(), sql.c_str(), -1, &statement_, nullptr) != SQLITE_OK) {
    connection.set_trouble();
  }
}

Statement::~Statement() { sqlite3_finalize(statement_); }

Statement::Statement(Statement&& other) noexcept
    : connection_(other.connection_), statement_(std::exchange(other.statement_, nullptr)) {}

// A failed binding is out of memory or a wrong position of ours; the former shows again at step().
void Statement::bind(int at, std::int64_t value) { sqlite3_bind_int64(statement_, at, value); }
void Statement::bind(int at, double value) { sqlite3_bind_double(statement_, at, value); }
void Statement::bind(int at, std::string_view value) {
  const char* bytes = value.empty() ? "" : value.data();
  sqlite3_bind_text64(statement_, at, bytes, value.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
}
void Statement::bind_bytes(int at, std::span<const std::uint8_t> value) {
  if (value.empty()) {
    sqlite3_bind_zeroblob(statement_, at, 0);
  } else {
    sqlite3_bind_blob64(statement_, at, value.data(), value.size(), SQLITE_TRANSIENT);
  }
}
void Statement::bind_nothing(int at) { sqlite3_bind_null(statement_, at); }

bool Statement::step() {
  if (statement_ == nullptr || connection_->trouble()) return false;
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) connection_->set_trouble();
  return false;
}

void Statement::reset() {
  if (statement_ == nullptr) return;
  sqlite3_reset(statement_);
  sqlite3_clear_bindings(statement_);
}

void Statement::run() {
  while (step()) {
  }
  reset();
}

Statement::Type Statement::type(int column) const {
  switch (sqlite3_column_type(statement_, column)) {
    case SQLITE_INTEGER:
      return Type::integer;
    case SQLITE_FLOAT:
      return Type::real;
    case SQLITE_TEXT:
      return Type::text;
    case SQLITE_BLOB:
      return Type::bytes;
    default:
      return Type::nothing;
  }
}

std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(statement_, column); }
double Statement::real(int column) const { return sqlite3_column_double(statement_, column); }

std::string Statement::text(int column) const {
  const unsigned char* bytes = sqlite3_column_text(statement_, column);
  if (bytes == nullptr) return {};
  return {reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

std::span<const std::uint8_t> Statement::bytes(int column) const {
  const void* bytes = sqlite3_column_blob(statement_, column);
  if (bytes == nullptr) return {};
  return {static_cast<const std::uint8_t*>(bytes), static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

}  // namespace sash::store
