#pragma once
// The few OpenGL objects the shell owns, each released with its owner. Needs a current context of OpenGL 3.3 core; main
// thread only. epoxy.h is included here and nowhere above the shell.

#include <epoxy/gl.h>

#include <string>
#include <string_view>
#include <utility>

#include "support/outcome.h"

namespace sash::desk::inner {

/// A texture name; made at once.
class Texture {
 public:
  Texture() { glGenTextures(1, &name_); }
  ~Texture() {
    if (name_ != 0) glDeleteTextures(1, &name_);
  }
  Texture(Texture&& o) noexcept : name_(std::exchange(o.name_, 0)) {}
  Texture& operator=(Texture&& o) noexcept {
    std::swap(name_, o.name_);
    return *this;
  }
  GLuint name() const { return name_; }

  /// Bound, with linear filtering and clamped edges.
  void bind_smooth() const;

 private:
  GLuint name_ = 0;
};

/// A framebuffer with one texture as its colour.
class Target {
 public:
  Target();
  ~Target();
  Target(const Target&) = delete;
  Target& operator=(const Target&) = delete;
  /// Makes it `width` x `height` (kept when it is already), and what is drawn goes there until the returned guard dies.
  class Use {
   public:
    ~Use();
    Use(const Use&) = delete;
    Use& operator=(const Use&) = delete;

   private:
    friend class Target;
    /// `new_colour` 0: the frame has its texture already.
    Use(GLuint frame, GLuint new_colour, int width, int height);
    GLint frame_ = 0;
    GLint viewport_[4] = {};
  };
  [[nodiscard]] Use use(int width, int height);
  GLuint texture() const { return colour_.name(); }

 private:
  Texture colour_;
  GLuint frame_ = 0;
  int width_ = 0;
  int height_ = 0;
};

class Program {
 public:
  /// Fails: Code::unsupported, with the driver's message.
  static Outcome<Program> build(std::string_view vertex, std::string_view fragment);
  ~Program();
  Program(Program&& o) noexcept : name_(std::exchange(o.name_, 0)) {}
  Program& operator=(Program&&) = delete;
  void use() const { glUseProgram(name_); }
  GLint place(const char* uniform) const { return glGetUniformLocation(name_, uniform); }

 private:
  explicit Program(GLuint name) : name_(name) {}
  GLuint name_;
};

}  // namespace sash::desk::inner
