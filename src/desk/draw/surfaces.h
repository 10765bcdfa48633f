#pragma once
// Surfaces: pictures that pages show and somebody else keeps on the GPU: the shell in the window, a painted stand-in in
// the tests. Main thread only.

#include <imgui.h>

#include "session/view.h"

namespace sash::desk {

/// A texture and the square-pixel size of what is on it; nothing while there is no picture.
struct Surface {
  ImTextureID texture = nullptr;
  float width = 0;
  float height = 0;
  bool there() const { return texture != nullptr && width > 0 && height > 0; }
};

class Surfaces {
 public:
  virtual ~Surfaces() = default;
  /// The playing picture, made ready for a place of `width` x `height` window pixels; upright, whole.
  virtual Surface video(const session::Transport& transport, float width, float height) = 0;
  virtual Surface still(const session::Still& still) = 0;
};

}  // namespace sash::desk
