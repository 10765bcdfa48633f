#pragma once
// Opens a decoder for one stream of a container. Private to media; the codec belongs to the thread that opened it.

#include "media/inner/av.h"
#include "media/inner/container.h"
#include "support/outcome.h"

namespace sash::media::inner {

/// `threads`: 1 for jobs that run beside others; 0 lets the codec use up to four.
/// Fails: unsupported (no decoder here); damaged (the codec refuses its parameters).
Outcome<Owned<AVCodecContext>> open_codec(const Container& container, const AVStream& stream, int threads);

}  // namespace sash::media::inner
