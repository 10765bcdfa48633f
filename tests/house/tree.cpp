#include "house/tree.h"

#include <algorithm>
#include <filesystem>

#include "support/text.h"
#include "tools/table.h"

namespace sash::house {

namespace fs = std::filesystem;

std::vector<SourceFile> files_below(const std::string& folder, const std::vector<std::string>& endings) {
  std::vector<SourceFile> out;
  const fs::path root(SASH_SOURCE_DIR);
  if (!fs::exists(root / folder)) return out;
  for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
    if (!entry.is_regular_file()) continue;
    const std::string ending = entry.path().extension().string();
    if (!endings.empty() && std::find(endings.begin(), endings.end(), ending) == endings.end()) continue;
    const std::string path = fs::relative(entry.path(), root).string();
    out.push_back({path, test::read_source_file(path)});
  }
  std::sort(out.begin(), out.end(), [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
  return out;
}

std::vector<std::string> steps(const std::string& path) {
  std::vector<std::string> out;
  for (const auto piece : split(path, '/')) out.emplace_back(piece);
  return out;
}

std::vector<std::string> includes_of(const SourceFile& file) {
  std::vector<std::string> out;
  for (auto line : split_lines(file.text)) {
    line = trim(line);
    if (!line.starts_with("#include")) continue;
    line = trim(line.substr(8));
    const auto end = line.find_first_of("\">", 1);
    if (end != std::string_view::npos) out.emplace_back(line.substr(0, end + 1));
  }
  return out;
}

}  // namespace sash::house
