#include "desk/shell/inner/planes.h"

#include <cstring>
#include <vector>

#include "support/check.h"

namespace sash::desk::inner {
namespace {

using media::PlaneKind;

int channels_of(PlaneKind kind, std::size_t plane) {
  if (kind == PlaneKind::rgba) return 4;
  return kind == PlaneKind::nv12 && plane == 1 ? 2 : 1;
}

GLint stored_format(int channels, bool deep) {
  if (channels == 4) return GL_RGBA8;
  if (channels == 2) return deep ? GL_RG16 : GL_RG8;
  return deep ? GL_R16 : GL_R8;
}

GLenum read_format(int channels) { return channels == 4 ? GL_RGBA : channels == 2 ? GL_RG : GL_RED; }

}  // namespace

float sample_scale(int bits) { return bits <= 8 ? 1.0F : 65535.0F / static_cast<float>((1 << bits) - 1); }

void Planes::upload(const media::Picture& picture) {
  promise(picture.planes.size() <= slots_.size() && !picture.planes.empty(), "one to three planes");
  for (std::size_t i = 0; i < picture.planes.size(); ++i) {
    upload(slots_[i], picture.planes[i], channels_of(picture.kind, i), picture.bits > 8);
  }
}

void Planes::upload(Slot& slot, const media::Plane& plane, int channels, bool deep) {
  const int sample = channels * (deep ? 2 : 1);
  const GLint format = stored_format(channels, deep);
  const GLenum type = deep ? GL_UNSIGNED_SHORT : GL_UNSIGNED_BYTE;
  // Rows that run upwards, or do not fall on whole samples, are laid out anew.
  std::vector<std::uint8_t> laid_out;
  const std::uint8_t* bytes = plane.bytes;
  std::ptrdiff_t stride = plane.stride;
  if (stride < 0 || stride % sample != 0) {
    const auto row = static_cast<std::size_t>(plane.width) * static_cast<std::size_t>(sample);
    laid_out.resize(row * static_cast<std::size_t>(plane.height));
    for (int y = 0; y < plane.height; ++y) {
      std::memcpy(laid_out.data() + row * static_cast<std::size_t>(y), plane.bytes + y * plane.stride, row);
    }
    bytes = laid_out.data();
    stride = static_cast<std::ptrdiff_t>(row);
  }
  slot.texture.bind_smooth();
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  glPixelStorei(GL_UNPACK_ROW_LENGTH, static_cast<GLint>(stride / sample));
  if (slot.format != format || slot.width != plane.width || slot.height != plane.height) {
    glTexImage2D(GL_TEXTURE_2D, 0, format, plane.width, plane.height, 0, read_format(channels), type, bytes);
    slot.format = format;
    slot.width = plane.width;
    slot.height = plane.height;
  } else {
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, plane.width, plane.height, read_format(channels), type, bytes);
  }
  glPixelStorei(GL_UNPACK_ROW_LENGTH, 0);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
}

void Planes::bind() const {
  for (std::size_t i = 0; i < slots_.size(); ++i) {
    glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(i));
    glBindTexture(GL_TEXTURE_2D, slots_[i].texture.name());
  }
}

}  // namespace sash::desk::inner
