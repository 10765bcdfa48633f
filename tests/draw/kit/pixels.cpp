#include "draw/kit/pixels.h"

#include <png.h>

#include <cstdlib>
#include <fstream>
#include <stdexcept>

namespace sash::testing {

std::array<std::uint8_t, 4> Pixels::at(int x, int y) const {
  const auto i = static_cast<std::size_t>(y * width + x) * 4;
  return {rgba.at(i), rgba.at(i + 1), rgba.at(i + 2), rgba.at(i + 3)};
}

std::string png_bytes(const Pixels& p) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(p.width);
  image.height = static_cast<png_uint_32>(p.height);
  image.format = PNG_FORMAT_RGBA;
  png_alloc_size_t size = 0;
  if (!png_image_write_get_memory_size(image, size, 0, p.rgba.data(), 0, nullptr))
    throw std::runtime_error(image.message);
  std::string bytes(size, '\0');
  if (!png_image_write_to_memory(&image, bytes.data(), &size, 0, p.rgba.data(), 0, nullptr)) {
    throw std::runtime_error(image.message);
  }
  bytes.resize(size);
  return bytes;
}

void save_png(const Pixels& p, const std::filesystem::path& to) {
  if (to.has_parent_path()) std::filesystem::create_directories(to.parent_path());
  std::ofstream file(to, std::ios::binary);
  file << png_bytes(p);
  if (!file) throw std::runtime_error("could not write " + to.string());
}

std::filesystem::path shots_folder() {
  if (const char* named = std::getenv("SASH_SHOTS")) return named;
  return std::filesystem::read_symlink("/proc/self/exe").parent_path() / "shots";
}

}  // namespace sash::testing
