#include "desk/shown/welcome_page.h"

#include <algorithm>
#include <filesystem>

#include "support/text.h"

namespace sash::desk {

WelcomeShown show_welcome(const session::SessionView& view, bool can_choose) {
  WelcomeShown shown;
  shown.can_choose = can_choose;
  for (const std::string& path : view.recent) {
    const std::filesystem::path p(path);
    shown.recent.push_back({path, p.stem().string(), p.parent_path().string()});
  }
  return shown;
}

session::Intent intent_for(const std::vector<std::string>& paths) {
  const auto record =
      std::find_if(paths.begin(), paths.end(), [](const std::string& p) { return to_lower(p).ends_with(".sash"); });
  if (record != paths.end()) return session::OpenRecord{*record};
  return session::AddFiles{paths};
}

std::vector<std::string> completions(std::string_view typed, const std::vector<std::string>& names, std::size_t most) {
  std::vector<std::string> out;
  for (const std::string& name : names) {
    if (!starts_with_no_case(name, typed)) continue;
    if (name.starts_with('.') && !typed.starts_with('.')) continue;
    out.push_back(name);
  }
  std::sort(out.begin(), out.end(), [](const std::string& a, const std::string& b) {
    const bool folder_a = a.ends_with('/');
    const bool folder_b = b.ends_with('/');
    return folder_a != folder_b ? folder_a : to_lower(a) < to_lower(b);
  });
  if (out.size() > most) out.resize(most);
  return out;
}

}  // namespace sash::desk
