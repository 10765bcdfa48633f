#include "desk/shell/video_view.h"

#include <epoxy/gl.h>

#include <string_view>

#include "desk/shell/inner/shader_view.h"
#include "desk/shell/inner/worker_view.h"

namespace sash::desk {

PicturePath best_picture_path() {
  const auto* name = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
  const std::string_view renderer = name == nullptr ? "" : name;
  for (const std::string_view software : {"llvmpipe", "softpipe", "SWR", "Software Rasterizer"}) {
    if (renderer.find(software) != std::string_view::npos) return PicturePath::worker;
  }
  return PicturePath::shader;
}

Outcome<std::unique_ptr<VideoView>> VideoView::make(PicturePath path, std::function<void()> wake) {
  if (path == PicturePath::worker) return inner::make_worker_view(std::move(wake));
  return inner::make_shader_view();
}

}  // namespace sash::desk
