#pragma once
// Clips for the tests, made when first asked for by the ffmpeg command (Debian package ffmpeg) and kept in the build
// folder; and what ffmpeg and ffprobe say of them: the independent listing the program is compared with.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "media/picture.h"
#include "support/moment.h"

namespace sash::media::test {

namespace fs = std::filesystem;

/// The folder clips are kept in.
fs::path clip_folder();

/// A clip by its file name; the recipe is in clips.cpp. Aborts with a sentence when it cannot be made.
fs::path clip(const std::string& name);

/// A clip written by hand from bytes.
fs::path clip_of_bytes(const std::string& name, const std::string& bytes);
std::string bytes_of(const fs::path& file);

/// The standard output of a command; aborts when it fails.
std::string output_of(const std::string& command);

/// What ffprobe -show_frames says: times of all frames from the container's start.
std::vector<Moment> listed_times(const fs::path& file);
/// MD5 of each frame's pixels, in the order shown.
std::vector<std::string> listed_hashes(const fs::path& file);

/// MD5 of a picture's pixels as framemd5 defines it: planes one after another, rows without padding.
std::string md5_of(const Picture& p);

}  // namespace sash::media::test
