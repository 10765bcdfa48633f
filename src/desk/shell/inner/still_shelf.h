#pragma once
// StillShelf: small pictures as textures, by key. Those nobody asked for during the last frames go when the shelf is
// full.

#include <cstdint>
#include <span>
#include <unordered_map>

#include "desk/shell/inner/gl.h"
#include "media/rate.h"

namespace sash::desk::inner {

class StillShelf {
 public:
  explicit StillShelf(std::size_t most = 256) : most_(most) {}
  void begin_frame() { ++frame_; }
  GLuint texture(std::uint64_t key, media::Size size, std::span<const std::uint8_t> rgba);
  std::size_t count() const { return held_.size(); }

 private:
  void make_room();
  struct Held {
    Texture texture;
    std::uint64_t last_frame = 0;
  };
  std::size_t most_;
  std::uint64_t frame_ = 0;
  std::unordered_map<std::uint64_t, Held> held_;
};

}  // namespace sash::desk::inner
