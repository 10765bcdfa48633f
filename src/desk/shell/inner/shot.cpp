#include "desk/shell/inner/shot.h"

#include <epoxy/gl.h>

#include <algorithm>
#include <fstream>

#include "media/image_file.h"

namespace sash::desk::inner {

Done shoot(const std::string& file, int width, int height) {
  media::RgbaImage image{{width, height}, {}};
  const std::size_t row = static_cast<std::size_t>(width) * 4;
  std::vector<std::uint8_t> upside_down(row * static_cast<std::size_t>(height));
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE, upside_down.data());
  for (std::size_t y = static_cast<std::size_t>(height); y-- > 0;) {
    const auto from = upside_down.begin() + static_cast<std::ptrdiff_t>(y * row);
    image.pixels.insert(image.pixels.end(), from, from + static_cast<std::ptrdiff_t>(row));
  }
  const auto bytes = media::png_bytes(image);
  if (!bytes) return bytes.fault();
  std::ofstream out(file, std::ios::binary);
  out.write(reinterpret_cast<const char*>(bytes->data()), static_cast<std::streamsize>(bytes->size()));
  if (!out.flush())
    return Fault::of(Code::unreadable, "The picture of the desk could not be written to " + file + ".", file);
  return {};
}

}  // namespace sash::desk::inner
