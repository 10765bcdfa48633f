#pragma once
// The page without a record: records opened lately, and what a typed path would open. Pure: whoever calls looks into
// the folders.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "session/view.h"

namespace sash::desk {

struct RecentRow {
  std::string path;
  std::string name;  ///< without folder and ending
  std::string folder;
};

struct WelcomeShown {
  std::vector<RecentRow> recent;
  bool can_choose = false;  ///< the desktop has a file chooser
};

WelcomeShown show_welcome(const session::SessionView& view, bool can_choose);

/// What opening these files means: a record is opened, footage and narration are added (to a new record if none is
/// open).
session::Intent intent_for(const std::vector<std::string>& paths);

/// What pasting this text means: files when it is a list of them (file URIs or absolute paths, as file managers copy
/// them), otherwise narration.
session::Intent intent_for_pasted(std::string_view text);

/// Of `names` (a folder's entries, folders ending in '/'), those that go on from what was typed, folders first; at most
/// `most`. Hidden entries only when a dot was typed.
std::vector<std::string> completions(std::string_view typed_name, const std::vector<std::string>& names,
                                     std::size_t most);

}  // namespace sash::desk
