#include "store/inner/snapshot.h"

#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <system_error>

namespace sash::store {
namespace {

namespace fs = std::filesystem;

// A folder of our own that goes away again.
class PassingFolder {
 public:
  PassingFolder() {
    std::error_code error;
    std::string name = (fs::temp_directory_path(error) / "sashline-XXXXXX").string();
    if (!error && mkdtemp(name.data()) != nullptr) path_ = name;
  }
  ~PassingFolder() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
  }
  PassingFolder(const PassingFolder&) = delete;
  PassingFolder& operator=(const PassingFolder&) = delete;
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

// The size the header says the file has. Source: the SQLite file format, "The Database Header": page size at 16 (1
// stands for 65536), page count at 28, both big-endian.
std::uintmax_t stated_size(const fs::path& file) {
  std::array<unsigned char, 32> header{};
  std::ifstream in(file, std::ios::binary);
  in.read(reinterpret_cast<char*>(header.data()), header.size());
  const std::uintmax_t page = static_cast<std::uintmax_t>(header[16]) << 8U | header[17];
  std::uintmax_t count = 0;
  for (std::size_t i = 28; i < 32; ++i) count = count << 8U | header[i];
  return (page == 1 ? 65536 : page) * count;
}

// Fills a file that was cut short up with zeros, so that SQLite misses the lost pages only. A header that states a
// senseless size is not believed.
void fill_up(const fs::path& file) {
  constexpr std::uintmax_t largest = std::uintmax_t{1} << 34U;
  std::error_code error;
  const std::uintmax_t has = fs::file_size(file, error);
  const std::uintmax_t should = stated_size(file);
  if (!error && has < should && should < largest) fs::resize_file(file, should, error);
}

// Copies the file with its log to a place of our own and reads that.
void read_private_copy(const std::string& file, Connection& into) {
  const PassingFolder folder;
  const fs::path copy = folder.path() / "copy.sash";
  std::error_code error;
  fs::copy_file(file, copy, error);
  if (error) return into.set_trouble(0, error.message());
  fs::permissions(copy, fs::perms::owner_read | fs::perms::owner_write, error);
  std::error_code no_log;
  if (fs::copy_file(file + "-wal", copy.string() + "-wal", no_log)) {
    fs::permissions(copy.string() + "-wal", fs::perms::owner_read | fs::perms::owner_write, error);
  }
  fill_up(copy);
  Connection db(copy.string(), Connection::Mode::write);
  db.run("PRAGMA schema_version");
  copy_database(db, into);
}

}  // namespace

std::unique_ptr<Connection> snapshot_of(const std::string& file) {
  auto out = std::make_unique<Connection>("", Connection::Mode::memory);
  {
    Connection db(file, Connection::Mode::read);
    db.run("PRAGMA schema_version");
    copy_database(db, *out);
  }
  if (!out->trouble()) return out;
  out = std::make_unique<Connection>("", Connection::Mode::memory);
  read_private_copy(file, *out);
  return out;
}

}  // namespace sash::store
