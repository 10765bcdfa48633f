#include "desk/shown/settings_page.h"

#include "safety/reading.h"

namespace sash::desk {

ProfilesShown show_profiles(const model::Bench& bench) {
  ProfilesShown shown;
  for (const auto& profile : safety::reading_profiles()) {
    if (profile.name == bench.reading_profile) shown.chosen = shown.names.size();
    shown.names.emplace_back(profile.name);
  }
  return shown;
}

}  // namespace sash::desk
