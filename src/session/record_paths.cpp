#include "session/record_paths.h"

namespace sash::session {

namespace fs = std::filesystem;

std::string path_for_record(const std::string& record_path, const std::string& file) {
  std::error_code error;
  const fs::path folder = fs::absolute(record_path, error).parent_path();
  const fs::path full = fs::absolute(file, error).lexically_normal();
  const fs::path relative = full.lexically_relative(folder);
  const bool inside = !relative.empty() && relative.native().rfind("..", 0) != 0;
  return inside ? relative.string() : full.string();
}

std::string path_on_disk(const std::string& record_path, const std::string& kept) {
  if (kept.empty()) return {};
  std::error_code error;
  return (fs::absolute(record_path, error).parent_path() / kept).lexically_normal().string();
}

std::string free_name(const fs::path& wanted) {
  std::error_code error;
  fs::path path = wanted;
  for (int n = 2; fs::exists(path, error); ++n) {
    path = wanted.parent_path() / (wanted.stem().string() + " " + std::to_string(n) + wanted.extension().string());
  }
  return path.string();
}

}  // namespace sash::session
