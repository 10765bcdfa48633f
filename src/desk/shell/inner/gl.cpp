#include "desk/shell/inner/gl.h"

#include "support/check.h"

namespace sash::desk::inner {
namespace {

GLuint compile(GLenum kind, std::string_view text, std::string& trouble) {
  const GLuint shader = glCreateShader(kind);
  const char* begin = text.data();
  const auto length = static_cast<GLint>(text.size());
  glShaderSource(shader, 1, &begin, &length);
  glCompileShader(shader);
  GLint good = 0;
  glGetShaderiv(shader, GL_COMPILE_STATUS, &good);
  if (good == GL_TRUE) return shader;
  char log[1024] = {};
  glGetShaderInfoLog(shader, sizeof log, nullptr, log);
  trouble = log;
  glDeleteShader(shader);
  return 0;
}

}  // namespace

void Texture::bind_smooth() const {
  glBindTexture(GL_TEXTURE_2D, name_);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
}

Target::Target() { glGenFramebuffers(1, &frame_); }
Target::~Target() { glDeleteFramebuffers(1, &frame_); }

Target::Use::Use(GLuint frame, GLuint new_colour, int width, int height) {
  glGetIntegerv(GL_FRAMEBUFFER_BINDING, &frame_);
  glGetIntegerv(GL_VIEWPORT, viewport_);
  glBindFramebuffer(GL_FRAMEBUFFER, frame);
  if (new_colour != 0) glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, new_colour, 0);
  glViewport(0, 0, width, height);
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_BLEND);
}

Target::Use::~Use() {
  glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(frame_));
  glViewport(viewport_[0], viewport_[1], viewport_[2], viewport_[3]);
}

Target::Use Target::use(int width, int height) {
  promise(width > 0 && height > 0, "a target has a size");
  if (width != width_ || height != height_) {
    colour_.bind_smooth();
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
  }
  const bool first = width_ == 0;
  width_ = width;
  height_ = height;
  return Use(frame_, first ? colour_.name() : 0, width, height);
}

Outcome<Program> Program::build(std::string_view vertex, std::string_view fragment) {
  std::string trouble;
  const GLuint v = compile(GL_VERTEX_SHADER, vertex, trouble);
  const GLuint f = v == 0 ? 0 : compile(GL_FRAGMENT_SHADER, fragment, trouble);
  if (f == 0) {
    glDeleteShader(v);
    return Fault::of(Code::unsupported, "The graphics driver refused a shader of the desk: " + trouble + ".", trouble);
  }
  const GLuint program = glCreateProgram();
  glAttachShader(program, v);
  glAttachShader(program, f);
  glLinkProgram(program);
  glDeleteShader(v);
  glDeleteShader(f);
  GLint good = 0;
  glGetProgramiv(program, GL_LINK_STATUS, &good);
  if (good != GL_TRUE) {
    char log[1024] = {};
    glGetProgramInfoLog(program, sizeof log, nullptr, log);
    glDeleteProgram(program);
    return Fault::of(Code::unsupported,
                     std::string("The graphics driver could not link a shader of the desk: ") + log + ".", log);
  }
  return Program(program);
}

Program::~Program() {
  if (name_ != 0) glDeleteProgram(name_);
}

}  // namespace sash::desk::inner
