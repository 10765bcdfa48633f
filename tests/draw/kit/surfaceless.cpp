#include "draw/kit/surfaceless.h"

#include <epoxy/egl.h>
#include <epoxy/gl.h>

#include <algorithm>
#include <stdexcept>

namespace sash::testing {

struct Surfaceless::State {
  EGLDisplay display = EGL_NO_DISPLAY;
  EGLContext context = EGL_NO_CONTEXT;
  GLuint frame = 0;
  GLuint colour = 0;
  int width = 0;
  int height = 0;
};

Surfaceless::Surfaceless(int width, int height) : state_(std::make_unique<State>()) {
  State& s = *state_;
  s.width = width;
  s.height = height;
  // Only the EXT name is known before a display exists.
  s.display = eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr);
  if (s.display == EGL_NO_DISPLAY || !eglInitialize(s.display, nullptr, nullptr)) {
    throw std::runtime_error(
        "This test draws without a window and needs EGL with surfaceless contexts: install libegl1 and "
        "libgl1-mesa-dri.");
  }
  eglBindAPI(EGL_OPENGL_API);
  const EGLint config_wants[] = {EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
  EGLConfig config = nullptr;
  EGLint found = 0;
  eglChooseConfig(s.display, config_wants, &config, 1, &found);
  const EGLint context_wants[] = {
      EGL_CONTEXT_MAJOR_VERSION,           3,       EGL_CONTEXT_MINOR_VERSION, 3, EGL_CONTEXT_OPENGL_PROFILE_MASK,
      EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT, EGL_NONE};
  s.context = eglCreateContext(s.display, found > 0 ? config : EGL_NO_CONFIG_KHR, EGL_NO_CONTEXT, context_wants);
  if (s.context == EGL_NO_CONTEXT || !eglMakeCurrent(s.display, EGL_NO_SURFACE, EGL_NO_SURFACE, s.context)) {
    throw std::runtime_error("This test needs OpenGL 3.3 core; EGL gave no such context.");
  }
  glGenTextures(1, &s.colour);
  glBindTexture(GL_TEXTURE_2D, s.colour);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
  glGenFramebuffers(1, &s.frame);
  glBindFramebuffer(GL_FRAMEBUFFER, s.frame);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, s.colour, 0);
  if (glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE) {
    throw std::runtime_error("The framebuffer of the windowless test is incomplete.");
  }
}

Surfaceless::~Surfaceless() {
  glDeleteFramebuffers(1, &state_->frame);
  glDeleteTextures(1, &state_->colour);
  eglMakeCurrent(state_->display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
  eglDestroyContext(state_->display, state_->context);
}

void Surfaceless::begin(float r, float g, float b) {
  glBindFramebuffer(GL_FRAMEBUFFER, state_->frame);
  glViewport(0, 0, state_->width, state_->height);
  glDisable(GL_SCISSOR_TEST);
  glClearColor(r, g, b, 1);
  glClear(GL_COLOR_BUFFER_BIT);
}

Pixels Surfaceless::read() const {
  const auto w = static_cast<std::size_t>(state_->width);
  const auto h = static_cast<std::size_t>(state_->height);
  Pixels out{state_->width, state_->height, std::vector<std::uint8_t>(w * h * 4)};
  glBindFramebuffer(GL_FRAMEBUFFER, state_->frame);
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, state_->width, state_->height, GL_RGBA, GL_UNSIGNED_BYTE, out.rgba.data());
  const std::size_t row = w * 4;
  for (std::size_t y = 0; y < h / 2; ++y) {
    std::swap_ranges(out.rgba.begin() + static_cast<std::ptrdiff_t>(y * row),
                     out.rgba.begin() + static_cast<std::ptrdiff_t>((y + 1) * row),
                     out.rgba.begin() + static_cast<std::ptrdiff_t>((h - 1 - y) * row));
  }
  return out;
}

}  // namespace sash::testing
