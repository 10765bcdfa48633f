#include "desk/shell/settings_file.h"

#include <filesystem>
#include <fstream>
#include <sstream>

namespace sash::desk {

Settings load_settings(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  if (in) text << in.rdbuf();
  return read_settings(text.str());
}

Done save_settings(const std::string& file, const Settings& settings) {
  const auto fault = [&file](const std::string& why) {
    return Fault::of(Code::unreadable, "The settings could not be kept in " + file + ": " + why + ".", file);
  };
  const std::filesystem::path path(file);
  std::error_code why;
  if (path.has_parent_path()) std::filesystem::create_directories(path.parent_path(), why);
  if (why) return fault(why.message());
  const std::string aside = file + ".new";
  {
    std::ofstream out(aside, std::ios::binary | std::ios::trunc);
    out << settings_text(settings);
    if (!out.flush()) return fault("the file cannot be written");
  }
  std::filesystem::rename(aside, path, why);
  if (why) return fault(why.message());
  return {};
}

}  // namespace sash::desk
