#pragma once
// One real camera clip: that of the Debian package forensics-samples-files (a dog on tiles, by an Android phone;
// CC-BY-SA-4.0, see the package's copyright file). It carries a location tag.

#include <filesystem>
#include <optional>

namespace sash::test {

/// The clip, fetched with apt-get when first asked for and kept in the build folder. Nothing when it cannot be had.
std::optional<std::filesystem::path> camera_clip();

/// Where the clip must not be missing: on a machine that says CI=true.
bool must_have_clip();

inline constexpr const char* no_camera_clip =
    "the package archive could not be reached: the Debian package forensics-samples-files was not fetched";

}  // namespace sash::test
