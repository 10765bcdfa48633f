#include "desk/shown/welcome_page.h"

#include <algorithm>
#include <filesystem>

#include "support/text.h"

namespace sash::desk {
namespace {

std::optional<int> hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return std::nullopt;
}

// "%20" and its like; what is no such code stays. Source: RFC 3986, 2.1.
std::string decoded(std::string_view uri) {
  std::string out;
  for (std::size_t i = 0; i < uri.size(); ++i) {
    const bool code = uri[i] == '%' && i + 2 < uri.size() && hex_digit(uri[i + 1]) && hex_digit(uri[i + 2]);
    out += code ? static_cast<char>(*hex_digit(uri[i + 1]) * 16 + *hex_digit(uri[i + 2])) : uri[i];
    if (code) i += 2;
  }
  return out;
}

// The path a line names: a file URI of this machine (RFC 8089) or an absolute path with a file's ending.
std::optional<std::string> path_of(std::string_view line) {
  for (const std::string_view scheme : {"file://localhost/", "file:///"}) {
    if (line.starts_with(scheme)) return decoded(line.substr(scheme.size() - 1));
  }
  if (line.starts_with('/') && std::filesystem::path(line).has_extension()) return std::string(line);
  return std::nullopt;
}

}  // namespace

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

session::Intent intent_for_pasted(std::string_view text) {
  std::vector<std::string> paths;
  for (const std::string_view line : split_lines(text)) {
    const std::string_view each = trim(line);
    if (each.empty()) continue;
    const auto path = path_of(each);
    if (!path) return session::AddText{std::string(text)};
    paths.push_back(*path);
  }
  if (paths.empty()) return session::AddText{std::string(text)};
  return intent_for(paths);
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
