#pragma once
// Pixels: what the windowless desk has drawn, as RGBA rows from the top. For tests.

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace sash::testing {

struct Pixels {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> rgba;
  bool operator==(const Pixels&) const = default;
  std::array<std::uint8_t, 4> at(int x, int y) const;
};

/// The bytes of a PNG file, the same for the same pixels.
std::string png_bytes(const Pixels& p);
void save_png(const Pixels& p, const std::filesystem::path& to);
/// Where tests leave pictures for people: SASH_SHOTS, or "shots" beside the test program.
std::filesystem::path shots_folder();

}  // namespace sash::testing
