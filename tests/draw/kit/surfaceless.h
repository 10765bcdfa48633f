#pragma once
// Surfaceless: an OpenGL 3.3 core context without any window system, with a framebuffer to draw into and read back.
// Throws a sentence when the machine has no EGL that can do this; a test then fails with it. One at a time per thread.

#include <memory>

#include "draw/kit/pixels.h"

namespace sash::testing {

class Surfaceless {
 public:
  Surfaceless(int width, int height);
  ~Surfaceless();
  Surfaceless(const Surfaceless&) = delete;
  Surfaceless& operator=(const Surfaceless&) = delete;

  /// Makes the framebuffer current and clears it.
  void begin(float r = 0, float g = 0, float b = 0);
  Pixels read() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace sash::testing
