#include "session/recent.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace sash::session {
namespace {

constexpr std::size_t most = 12;
constexpr const char* file_name = "/recent";

}  // namespace

Recent::Recent(std::string folder) : folder_(std::move(folder)) {
  if (folder_.empty()) return;
  std::ifstream in(folder_ + file_name);
  for (std::string line; paths_.size() < most && std::getline(in, line);) {
    std::error_code error;
    if (std::filesystem::exists(line, error)) paths_.push_back(line);
  }
}

void Recent::opened(const std::string& path) {
  std::error_code error;
  const std::string full = std::filesystem::absolute(path, error).lexically_normal().string();
  std::erase(paths_, full);
  paths_.insert(paths_.begin(), full);
  if (paths_.size() > most) paths_.resize(most);
  if (folder_.empty()) return;
  std::filesystem::create_directories(folder_, error);
  std::ofstream out(folder_ + file_name, std::ios::trunc);
  for (const auto& each : paths_) out << each << '\n';
}

}  // namespace sash::session
