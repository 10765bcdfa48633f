#pragma once
// The shader's way of VideoView.

#include "desk/shell/video_view.h"

namespace sash::desk::inner {

Outcome<std::unique_ptr<VideoView>> make_shader_view();

}  // namespace sash::desk::inner
