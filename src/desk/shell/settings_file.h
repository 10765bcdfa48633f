#pragma once
// The settings on disk: one small text file, written aside and renamed, so that a crash leaves the old one.

#include <string>

#include "desk/shown/settings.h"
#include "support/outcome.h"

namespace sash::desk {

/// What the file says; defaults where it says nothing, is missing or cannot be read.
Settings load_settings(const std::string& file);
/// Makes the folder where it is missing. Fails: Code::unreadable, naming the file and why.
Done save_settings(const std::string& file, const Settings& settings);

}  // namespace sash::desk
