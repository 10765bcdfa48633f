#include "session/files.h"

#include <filesystem>
#include <fstream>

namespace sash::session {

namespace fs = std::filesystem;

Done write_whole(const std::string& path, std::string_view bytes) {
  const std::string aside = path + ".part";
  bool good = false;
  {
    std::ofstream out(aside, std::ios::binary | std::ios::trunc);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.flush();
    good = out.good();
  }
  std::error_code error;
  if (good && fs::file_size(aside, error) == bytes.size() && !error) {
    fs::rename(aside, path, error);
    if (!error) return {};
  }
  std::error_code ignored;
  fs::remove(aside, ignored);
  return Fault::of(Code::unreadable,
                   "The file '" + path + "' cannot be written; check the folder, its permissions and the free space.",
                   path);
}

Done write_whole(const std::string& path, std::span<const std::uint8_t> bytes) {
  return write_whole(path, std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
}

}  // namespace sash::session
