#include "store/cache.h"

#include <filesystem>
#include <utility>

#include "store/inner/sql.h"

namespace sash::store {
namespace {

namespace fs = std::filesystem;

constexpr std::int64_t cache_id = 0x53436163;  // "SCac"
constexpr std::int64_t cache_version = 1;

// "used" orders the rows by their latest use; the index answers what to drop and how much is kept without reading the
// bytes themselves.
constexpr const char* schema = R"sql(
CREATE TABLE "kept" (
  "kind" TEXT NOT NULL,
  "content" TEXT NOT NULL,
  "used" INTEGER NOT NULL,
  "size" INTEGER NOT NULL,
  "bytes" BLOB NOT NULL,
  PRIMARY KEY ("kind", "content")
) STRICT;
CREATE INDEX "kept_by_use" ON "kept" ("used", "size");
)sql";

bool is_ours(Connection& db) {
  return db.integer("PRAGMA application_id") == cache_id && db.integer("PRAGMA user_version") == cache_version;
}

// An open cache file, or nothing when it is not usable as it is.
std::unique_ptr<Connection> open_file(const std::string& path) {
  auto db = std::make_unique<Connection>(path, path.empty() ? Connection::Mode::memory : Connection::Mode::fresh);
  db->run("PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL; BEGIN IMMEDIATE");
  if (db->integer("SELECT count(*) FROM \"sqlite_schema\"") == 0) {
    db->run(schema);
    db->run("PRAGMA application_id = " + std::to_string(cache_id) +
            "; PRAGMA user_version = " + std::to_string(cache_version));
  }
  const bool ours = is_ours(*db);
  db->run("COMMIT");
  if (db->trouble() || !ours) return nullptr;
  return db;
}

void remove_file(const std::string& path) {
  std::error_code ignored;
  for (const char* part : {"", "-wal", "-shm", "-journal"}) fs::remove(path + part, ignored);
}

}  // namespace

struct ContentCache::Shelf {
  std::string path;
  std::uint64_t limit;
  std::unique_ptr<Connection> db;
  std::int64_t clock = 0;
  std::uint64_t kept = 0;

  void open() {
    db = open_file(path);
    if (db == nullptr && !path.empty()) {
      remove_file(path);
      db = open_file(path);
    }
    if (db == nullptr) {
      path.clear();
      db = open_file(path);
    }
    take_stock();
  }

  void take_stock() {
    clock = db->integer(R"(SELECT max("used") FROM "kept")").value_or(0);
    kept = static_cast<std::uint64_t>(db->integer(R"(SELECT sum("size") FROM "kept")").value_or(0));
  }

  // After trouble: a damaged file is replaced; anything else (a full disk, a busy file) costs only this one step.
  void recover() {
    const auto trouble = db->take_trouble();
    if (!trouble) return;
    if (trouble->damage()) {
      db.reset();
      remove_file(path);
      open();
    } else {
      db->run("ROLLBACK");
      static_cast<void>(db->take_trouble());
      take_stock();
    }
    static_cast<void>(db->take_trouble());
  }

  void drop(std::string_view kind, std::string_view content) {
    Statement size(*db, R"(SELECT "size" FROM "kept" WHERE "kind" = ?1 AND "content" = ?2)");
    size.bind(1, kind);
    size.bind(2, content);
    if (!size.step()) return;
    kept -= std::min(kept, static_cast<std::uint64_t>(size.integer(0)));
    size.reset();
    Statement remove(*db, R"(DELETE FROM "kept" WHERE "kind" = ?1 AND "content" = ?2)");
    remove.bind(1, kind);
    remove.bind(2, content);
    remove.run();
  }

  void prune() {
    while (kept > limit && !db->trouble()) {
      Statement oldest(*db, R"(SELECT "kind", "content" FROM "kept" ORDER BY "used" LIMIT 1)");
      if (!oldest.step()) break;
      const std::string kind = oldest.text(0);
      const std::string content = oldest.text(1);
      oldest.reset();
      drop(kind, content);
    }
  }
};

ContentCache::ContentCache(std::unique_ptr<Shelf> shelf) : shelf_(std::move(shelf)) {}
ContentCache::ContentCache(ContentCache&&) noexcept = default;
ContentCache& ContentCache::operator=(ContentCache&&) noexcept = default;
ContentCache::~ContentCache() = default;

ContentCache ContentCache::open(const std::string& path, std::uint64_t limit) {
  std::error_code ignored;
  fs::create_directories(fs::path(path).parent_path(), ignored);
  auto shelf = std::make_unique<Shelf>();
  shelf->path = path;
  shelf->limit = limit;
  shelf->open();
  return ContentCache(std::move(shelf));
}

void ContentCache::put(std::string_view kind, std::string_view content, std::span<const std::uint8_t> bytes) {
  Connection& db = *shelf_->db;
  db.run("BEGIN IMMEDIATE");
  shelf_->drop(kind, content);
  if (bytes.size() <= shelf_->limit) {
    Statement add(db, R"(INSERT INTO "kept" ("kind", "content", "used", "size", "bytes") VALUES (?1, ?2, ?3, ?4, ?5))");
    add.bind(1, kind);
    add.bind(2, content);
    add.bind(3, ++shelf_->clock);
    add.bind(4, static_cast<std::int64_t>(bytes.size()));
    add.bind_bytes(5, bytes);
    add.run();
    shelf_->kept += bytes.size();
    shelf_->prune();
  }
  db.run("COMMIT");
  shelf_->recover();
}

std::optional<std::vector<std::uint8_t>> ContentCache::get(std::string_view kind, std::string_view content) {
  std::optional<std::vector<std::uint8_t>> out;
  {
    Statement find(*shelf_->db, R"(SELECT "bytes" FROM "kept" WHERE "kind" = ?1 AND "content" = ?2)");
    find.bind(1, kind);
    find.bind(2, content);
    if (find.step()) {
      const auto bytes = find.bytes(0);
      out.emplace(bytes.begin(), bytes.end());
    }
  }
  if (out) {
    Statement touch(*shelf_->db, R"(UPDATE "kept" SET "used" = ?3 WHERE "kind" = ?1 AND "content" = ?2)");
    touch.bind(1, kind);
    touch.bind(2, content);
    touch.bind(3, ++shelf_->clock);
    touch.run();
  }
  shelf_->recover();
  return out;
}

void ContentCache::forget(std::string_view kind, std::string_view content) {
  shelf_->drop(kind, content);
  shelf_->recover();
}

std::uint64_t ContentCache::size() const { return shelf_->kept; }

}  // namespace sash::store
