#include "store/inner/desk_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <optional>
#include <string_view>
#include <utility>

#include "support/text.h"

namespace sash::store {
namespace {

std::string this_desk() {
  std::array<char, 256> host{};
  if (gethostname(host.data(), host.size() - 1) != 0) host[0] = '?';
  return std::to_string(getpid()) + " " + host.data() + "\n";
}

// "process 1234 on lab-pc", when the side file says so.
std::optional<std::string> holder(int descriptor) {
  std::array<char, 300> bytes{};
  const ssize_t length = pread(descriptor, bytes.data(), bytes.size(), 0);
  if (length <= 0) return std::nullopt;
  const std::string_view line = trim({bytes.data(), static_cast<std::size_t>(length)});
  const auto words = split(line, ' ');
  const auto printable = [](char c) { return c > ' ' && c < 127; };
  if (words.size() != 2 || !read_integer(words[0])) return std::nullopt;
  for (const char c : words[1]) {
    if (!printable(c)) return std::nullopt;
  }
  return "process " + std::string(words[0]) + " on " + std::string(words[1]);
}

Fault held(const std::string& record_path, int descriptor) {
  const auto who = holder(descriptor);
  return Fault::of(Code::read_only,
                   "The record '" + record_path + "' is open for editing at another desk" +
                       (who ? " (" + *who + ")" : "") +
                       ", so it is shown here as it was at opening and cannot be edited; close it there and open it "
                       "again to edit it here.",
                   record_path);
}

Fault no_side_file(const std::string& record_path, const std::string& side_file) {
  std::string sentence = "The record '" + record_path + "' can be read but not edited, because its side file '";
  sentence += side_file;
  sentence += "' cannot be made (";
  sentence += std::strerror(errno);
  sentence += "); allow writing there or save a copy elsewhere.";
  return Fault::of(Code::read_only, std::move(sentence), record_path);
}

bool same_file(int descriptor, const std::string& path) {
  struct stat open_one {};
  struct stat named_one {};
  return fstat(descriptor, &open_one) == 0 && stat(path.c_str(), &named_one) == 0 &&
         open_one.st_ino == named_one.st_ino && open_one.st_dev == named_one.st_dev;
}

}  // namespace

Outcome<DeskLock> DeskLock::take(const std::string& record_path) {
  const std::string side_file = record_path + ".desk";
  for (;;) {
    const int descriptor = open(side_file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0644);
    if (descriptor < 0) return no_side_file(record_path, side_file);
    if (flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
      const Fault fault = held(record_path, descriptor);
      close(descriptor);
      return fault;
    }
    // The last holder may have removed the file between our open() and flock(): then we hold what nobody else sees.
    if (!same_file(descriptor, side_file)) {
      close(descriptor);
      continue;
    }
    const std::string text = this_desk();
    const bool named = ftruncate(descriptor, 0) == 0 && write(descriptor, text.data(), text.size()) > 0;
    static_cast<void>(named);  // a full disk costs only the name in the other desk's sentence
    return DeskLock(side_file, descriptor);
  }
}

DeskLock::DeskLock(std::string side_file, int descriptor) : side_file_(std::move(side_file)), descriptor_(descriptor) {}

DeskLock::DeskLock(DeskLock&& other) noexcept
    : side_file_(std::move(other.side_file_)), descriptor_(std::exchange(other.descriptor_, -1)) {}

DeskLock::~DeskLock() {
  if (descriptor_ < 0) return;
  unlink(side_file_.c_str());  // still held, so that whoever opened it meanwhile sees that it is gone
  close(descriptor_);
}

}  // namespace sash::store
