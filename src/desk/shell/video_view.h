#pragma once
// VideoView: one decoded picture made into a texture of the size it is shown at, upright, in square pixels, in the
// colours of an ordinary screen. On a graphics card the planes are uploaded and a shader converts; where OpenGL itself
// runs on the processor (llvmpipe, softpipe) a worker converts with swscale instead, ten times cheaper there. Works
// only when picture or size changes. Main thread with a current OpenGL 3.3 context; `wake` is called from the worker.

#include <functional>
#include <memory>

#include "media/picture.h"
#include "support/outcome.h"

namespace sash::desk {

/// Which of the two ways.
enum class PicturePath { shader, worker };

/// From the name of the renderer of the current context.
PicturePath best_picture_path();

/// A texture with its first row at the top; `texture` 0 while there is none.
struct ShownPicture {
  unsigned texture = 0;
  media::Size size;
};

class VideoView {
 public:
  /// Fails: Code::unsupported when the driver refuses the shader.
  static Outcome<std::unique_ptr<VideoView>> make(PicturePath path, std::function<void()> wake);
  virtual ~VideoView() = default;

  /// The picture at most `room` large. The worker's way gives the picture before it until the new one is ready, then
  /// wakes.
  virtual ShownPicture show(const media::PicturePtr& picture, media::Size room) = 0;
};

}  // namespace sash::desk
