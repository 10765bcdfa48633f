#pragma once
// The worker's way of VideoView.

#include "desk/shell/video_view.h"

namespace sash::desk::inner {

Outcome<std::unique_ptr<VideoView>> make_worker_view(std::function<void()> wake);

}  // namespace sash::desk::inner
