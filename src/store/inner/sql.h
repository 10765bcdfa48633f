#pragma once
// A thin hold on SQLite: a connection and prepared statements that close themselves. After the first trouble a
// connection remembers it and does nothing more until it is taken, so that a sequence of steps is checked once, at its
// end. Not thread safe.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace sash::store {

/// What SQLite said went wrong.
struct Trouble {
  int code = 0;         ///< extended result code
  std::string message;  ///< SQLite's words, without a full stop
  bool damage() const;  ///< the file's content is at fault
};

class Connection {
 public:
  enum class Mode {
    write,   ///< an existing file, to write
    read,    ///< an existing file, to read
    fresh,   ///< a file to be made
    memory,  ///< nothing on disk
  };
  Connection(const std::string& path, Mode mode);
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void run(const std::string& sql);                             ///< one or several statements, rows ignored
  std::optional<std::int64_t> integer(const std::string& sql);  ///< first column of the first row
  std::string text(const std::string& sql);                     ///< likewise; empty when there is no row
  int changed_rows() const;                                     ///< by the latest INSERT, UPDATE or DELETE

  const std::optional<Trouble>& trouble() const { return trouble_; }
  std::optional<Trouble> take_trouble();
  void set_trouble(int code, std::string message);  ///< kept only when there was none
  void set_trouble();                               ///< from SQLite's own last error

  /// Whether the last one to close the file folds the write-ahead log into it; so by default.
  void fold_log_on_closing(bool wanted);

  sqlite3* handle() const { return handle_; }

 private:
  sqlite3* handle_ = nullptr;
  std::optional<Trouble> trouble_;
};

/// Copies everything `from` holds into `to`, as of one moment. Trouble is left at `to`.
void copy_database(Connection& from, Connection& to);

/// A prepared statement. Parameters and columns count from 1 and 0, as in SQLite.
class Statement {
 public:
  Statement(Connection& connection, const std::string& sql);
  ~Statement();
  Statement(Statement&& other) noexcept;
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  Statement& operator=(Statement&&) = delete;

  void bind(int at, std::int64_t value);
  void bind(int at, double value);
  void bind(int at, std::string_view value);
  void bind_bytes(int at, std::span<const std::uint8_t> value);
  void bind_nothing(int at);

  bool step();   ///< true when there is a row; false at the end or on trouble
  void reset();  ///< to be run again, with all parameters nothing
  void run();    ///< to its end, then reset

  enum class Type { integer, real, text, bytes, nothing };
  Type type(int column) const;
  std::int64_t integer(int column) const;
  double real(int column) const;
  std::string text(int column) const;
  std::span<const std::uint8_t> bytes(int column) const;  ///< valid until the next step

 private:
  Connection* connection_;
  sqlite3_stmt* statement_ = nullptr;
};

}  // namespace sash::store
