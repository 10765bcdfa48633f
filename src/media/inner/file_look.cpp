#include "media/inner/file_look.h"

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

#include "support/text.h"

namespace sash::media::inner {
namespace {

namespace fs = std::filesystem;

std::string read_head(std::ifstream& in, std::size_t most) {
  std::string head(most, '\0');
  in.read(head.data(), static_cast<std::streamsize>(most));
  head.resize(static_cast<std::size_t>(in.gcount()));
  return head;
}

/// Only printable characters and line breaks, in UTF-8; the last character may be cut by the reading.
bool is_text(std::string head) {
  for (int cut = 0; cut < 4 && !head.empty() && !is_utf8(head); ++cut) head.pop_back();
  if (head.empty()) return false;
  for (const char c : head) {
    const auto u = static_cast<unsigned char>(c);
    if (u < 0x20 && c != '\n' && c != '\r' && c != '\t' && c != '\f') return false;
  }
  return is_utf8(head);
}

std::uint64_t big_endian(const unsigned char* p, int bytes) {
  std::uint64_t v = 0;
  for (int i = 0; i < bytes; ++i) v = v << 8 | p[i];
  return v;
}

bool is_box_name(const unsigned char* p) {
  for (int i = 0; i < 4; ++i) {
    if (p[i] < 0x20 || p[i] > 0x7E) return false;
  }
  return true;
}

}  // namespace

std::string quoted(const fs::path& path) { return fmt::format("'{}'", path.string()); }

Outcome<std::int64_t> look_at_file(const fs::path& path) {
  const std::string name = path.string();
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found) {
    return Fault::of(Code::not_found,
                     fmt::format("There is no file {}; check the path or find the footage again.", quoted(path)), name);
  }
  if (error) {
    return Fault::of(
        Code::unreadable,
        fmt::format("The file {} cannot be read ({}); check its permissions.", quoted(path), error.message()), name);
  }
  if (status.type() == fs::file_type::directory) {
    return Fault::of(Code::wrong_use,
                     fmt::format("{} is a folder, not footage; choose a file inside it.", quoted(path)), name);
  }
  if (status.type() != fs::file_type::regular) {
    return Fault::of(Code::wrong_use,
                     fmt::format("{} is not an ordinary file; copy the footage to a file and open that.", quoted(path)),
                     name);
  }
  std::ifstream in(path, std::ios::binary);
  if (!in) {
    return Fault::of(
        Code::unreadable,
        fmt::format("The file {} cannot be read ({}); check its permissions.", quoted(path), std::strerror(errno)),
        name);
  }
  const auto size = static_cast<std::int64_t>(fs::file_size(path, error));
  if (error || size == 0) {
    return Fault::of(Code::damaged,
                     fmt::format("The file {} is empty (0 bytes); copy it from the camera again.", quoted(path)), name);
  }
  const std::string head = read_head(in, 4096);
  if (starts_with_no_case(head, "PK\x03\x04")) {
    const bool locked = head.size() > 6 && (static_cast<unsigned char>(head[6]) & 1) != 0;
    return Fault::of(
        Code::unsupported,
        locked ? fmt::format("{} is a ZIP archive locked with a password, not footage; unpack it with its password "
                             "and open the file inside.",
                             quoted(path))
               : fmt::format("{} is a ZIP archive, not footage; unpack it and open the file inside.", quoted(path)),
        name);
  }
  if (is_text(head)) {
    return Fault::of(Code::unsupported,
                     fmt::format("{} holds plain text, not footage; open the media file itself.", quoted(path)), name);
  }
  return size;
}

BoxEnd look_at_boxes(const fs::path& path) {
  std::ifstream in(path, std::ios::binary | std::ios::ate);
  if (!in) return BoxEnd::not_boxes;
  const auto size = static_cast<std::uint64_t>(in.tellg());
  bool index = false;
  bool first = true;
  std::uint64_t at = 0;
  // A file of tiny boxes is no footage; the bound keeps a hostile one from taking long.
  for (int boxes = 0; at + 8 <= size && boxes < 100'000; ++boxes) {
    std::array<unsigned char, 16> head{};
    in.clear();
    in.seekg(static_cast<std::streamoff>(at));
    in.read(reinterpret_cast<char*>(head.data()), head.size());
    std::uint64_t length = big_endian(head.data(), 4);
    const std::string_view kind(reinterpret_cast<const char*>(head.data()) + 4, 4);
    if (first && kind != "ftyp" && kind != "moov" && kind != "mdat" && kind != "wide" && kind != "free" &&
        kind != "skip") {
      return BoxEnd::not_boxes;
    }
    if (!is_box_name(head.data() + 4)) break;
    first = false;
    if (length == 1) length = big_endian(head.data() + 8, 8);
    if (length == 0) length = size - at;
    if (length < 8) break;
    if (length > size - at) return index ? BoxEnd::cut_with_index : BoxEnd::cut_without_index;
    if (kind == "moov") index = true;
    at += length;
  }
  if (first) return BoxEnd::not_boxes;
  return index ? BoxEnd::whole : BoxEnd::cut_without_index;
}

}  // namespace sash::media::inner
