#include "desk/shell/inner/still_shelf.h"

#include <algorithm>

#include "support/check.h"

namespace sash::desk::inner {

GLuint StillShelf::texture(std::uint64_t key, media::Size size, std::span<const std::uint8_t> rgba) {
  if (const auto at = held_.find(key); at != held_.end()) {
    at->second.last_frame = frame_;
    return at->second.texture.name();
  }
  promise(rgba.size() == static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) * 4,
          "a still's bytes fill its size");
  if (held_.size() >= most_) make_room();
  Held& held = held_[key];
  held.last_frame = frame_;
  held.texture.bind_smooth();
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, size.width, size.height, 0, GL_RGBA, GL_UNSIGNED_BYTE, rgba.data());
  return held.texture.name();
}

void StillShelf::make_room() {
  // What was drawn in this or the last frame may still be in the draw list; the oldest of the rest goes first.
  auto oldest = held_.end();
  for (auto at = held_.begin(); at != held_.end(); ++at) {
    if (at->second.last_frame + 1 >= frame_) continue;
    if (oldest == held_.end() || at->second.last_frame < oldest->second.last_frame) oldest = at;
  }
  if (oldest != held_.end()) held_.erase(oldest);
}

}  // namespace sash::desk::inner
