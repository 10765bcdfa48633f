#pragma once
// Planes: the planes of a picture as textures. 8-bit samples as R8, deeper ones as R16; the shader scales them.

#include <array>

#include "desk/shell/inner/gl.h"
#include "media/picture.h"

namespace sash::desk::inner {

class Planes {
 public:
  void upload(const media::Picture& picture);
  /// Bound to the texture units 0, 1, 2.
  void bind() const;

 private:
  struct Slot {
    Texture texture;
    GLint format = 0;
    int width = 0;
    int height = 0;
  };
  void upload(Slot& slot, const media::Plane& plane, int channels, bool deep);
  std::array<Slot, 3> slots_;
};

/// What the texture reads times this is the sample in 0..1 of its depth.
float sample_scale(int bits);

}  // namespace sash::desk::inner
