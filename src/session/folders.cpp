#include "session/folders.h"

#include <cstdlib>
#include <filesystem>

namespace sash::session {
namespace {

// A relative path in the variable is to be ignored, says the specification.
std::string folder(const char* variable, const char* below_home) {
  const char* set = std::getenv(variable);
  if (set != nullptr && std::filesystem::path(set).is_absolute()) return std::string(set) + "/sashline";
  const char* home = std::getenv("HOME");
  if (home != nullptr && *home != '\0') return std::string(home) + "/" + below_home + "/sashline";
  return (std::filesystem::temp_directory_path() / "sashline").string();
}

}  // namespace

std::string config_folder() { return folder("XDG_CONFIG_HOME", ".config"); }
std::string cache_folder() { return folder("XDG_CACHE_HOME", ".cache"); }
std::string state_folder() { return folder("XDG_STATE_HOME", ".local/state"); }
std::string data_folder() { return folder("XDG_DATA_HOME", ".local/share"); }

std::string documents_folder() {
  const char* home = std::getenv("HOME");
  if (home == nullptr || *home == '\0') return std::filesystem::temp_directory_path().string();
  std::error_code error;
  const std::filesystem::path documents = std::filesystem::path(home) / "Documents";
  return std::filesystem::is_directory(documents, error) ? documents.string() : std::string(home);
}

}  // namespace sash::session
