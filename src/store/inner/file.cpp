#include "store/inner/file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <string_view>

#include "store/inner/schema.h"

namespace sash::store {
namespace {

namespace fs = std::filesystem;

// Source: the SQLite file format, "The Database Header": 100 bytes; magic at 0, application id at 68, big-endian.
constexpr std::string_view magic("SQLite format 3\0", 16);
constexpr std::size_t header_size = 100;
constexpr std::size_t application_id_at = 68;

std::string folder_of(const std::string& path) {
  const std::string folder = fs::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

Fault refused(const std::string& path) {
  return Fault::of(Code::unreadable, "The file '" + path + "' cannot be read: " + std::strerror(errno) + ".", path);
}

Fault taken(const std::string& path) {
  return Fault::of(Code::impossible, "There is already something at '" + path + "'; choose another name.", path);
}

// Makes sure that what was written to the file or folder is on disk.
bool sync_to_disk(const std::string& path) {
  const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return false;
  const bool good = fsync(descriptor) == 0;
  close(descriptor);
  return good;
}

Outcome<RecordFile> check_header(std::string_view header, const std::string& path) {
  if (header.empty()) {
    return Fault::of(Code::damaged,
                     "The file '" + path + "' is empty, so it holds no record; choose another file or a copy of it.",
                     path);
  }
  if (header.substr(0, magic.size()) != magic.substr(0, header.size())) {
    return Fault::of(Code::unsupported, "The file '" + path + "' is not a Sashline record; choose a .sash file.", path);
  }
  if (header.size() < header_size) {
    return Fault::of(Code::damaged,
                     "The file '" + path + "' is cut short after " + std::to_string(header.size()) +
                         " bytes, so nothing of it can be read; use a copy of it.",
                     path);
  }
  std::uint32_t id = 0;
  for (std::size_t i = 0; i < 4; ++i) id = id << 8U | static_cast<unsigned char>(header[application_id_at + i]);
  if (id != application_id) {
    return Fault::of(Code::unsupported,
                     "The file '" + path +
                         "' is a database of another program, not a Sashline record; choose a .sash "
                         "file.",
                     path);
  }
  return RecordFile{};
}

}  // namespace

Outcome<RecordFile> look_at(const std::string& path) {
  struct stat facts {};
  if (stat(path.c_str(), &facts) != 0) {
    if (errno != ENOENT && errno != ENOTDIR) return refused(path);
    return Fault::of(Code::not_found, "There is no file '" + path + "'; check the name, or begin a record there.",
                     path);
  }
  if (S_ISDIR(facts.st_mode)) {
    return Fault::of(Code::unsupported, "'" + path + "' is a folder, not a record; name the .sash file in it.", path);
  }
  if (!S_ISREG(facts.st_mode)) {
    return Fault::of(Code::unsupported, "'" + path + "' is a device, not a file; choose a .sash file.", path);
  }
  const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return refused(path);
  std::array<char, header_size> header{};
  const ssize_t length = read(descriptor, header.data(), header.size());
  close(descriptor);
  if (length < 0) return refused(path);
  auto file = check_header({header.data(), static_cast<std::size_t>(length)}, path);
  if (!file) return file;

  char* real = realpath(path.c_str(), nullptr);
  if (real == nullptr) return refused(path);
  file->real_path = real;
  std::free(real);  // NOLINT: realpath() gives malloc'ed memory
  file->writable = access(file->real_path.c_str(), W_OK) == 0 && access(folder_of(file->real_path).c_str(), W_OK) == 0;
  return file;
}

std::string aside_of(const std::string& path) {
  const fs::path whole(path);
  for (int n = 0;; ++n) {
    const std::string name = "." + whole.filename().string() + "." + std::to_string(getpid()) + "-" + std::to_string(n);
    std::string aside = (whole.parent_path() / name).string();
    struct stat facts {};
    if (lstat(aside.c_str(), &facts) != 0) return aside;
  }
}

Done check_free(const std::string& path) {
  struct stat facts {};
  if (lstat(path.c_str(), &facts) == 0) return taken(path);
  const std::string folder = folder_of(path);
  if (stat(folder.c_str(), &facts) != 0 || !S_ISDIR(facts.st_mode)) {
    return Fault::of(Code::not_found, "There is no folder '" + folder + "'; make it first or choose another.", folder);
  }
  return {};
}

Done move_into_place(const std::string& aside, const std::string& path) {
  // What a record that was deleted by hand left behind would be taken for the unwritten end of the new one.
  if (access(path.c_str(), F_OK) != 0) {
    for (const char* left_over : {"-wal", "-shm", "-journal"}) unlink((path + left_over).c_str());
  }
  const bool written = sync_to_disk(aside);
  int result = written ? renameat2(AT_FDCWD, aside.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE) : -1;
  if (written && result != 0 && (errno == EINVAL || errno == ENOSYS)) {  // a file system that cannot promise that much
    result = access(path.c_str(), F_OK) == 0 ? -1 : rename(aside.c_str(), path.c_str());
    if (result != 0 && access(path.c_str(), F_OK) == 0) errno = EEXIST;
  }
  if (result == 0) {
    sync_to_disk(folder_of(path));
    return {};
  }
  const int why = errno;
  unlink(aside.c_str());
  if (why == EEXIST) return taken(path);
  return Fault::of(Code::unreadable, "The file '" + path + "' cannot be written: " + std::strerror(why) + ".", path);
}

}  // namespace sash::store
