#pragma once
// What the settings offer for the open record: the reading profiles by name. The desk's own settings are settings.h.
// Pure.

#include <string_view>
#include <vector>

#include "model/record.h"

namespace sash::desk {

struct ProfilesShown {
  std::vector<std::string_view> names;  ///< the default first
  std::size_t chosen = 0;
};
ProfilesShown show_profiles(const model::Bench& bench);

}  // namespace sash::desk
