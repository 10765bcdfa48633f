#pragma once
// A decoded libav frame as a Picture: planes shared where the desk can draw them, converted to RGBA where not.
// Private to media; safe from any thread for different frames.

#include "media/inner/av.h"
#include "media/inner/tags.h"
#include "media/picture.h"

namespace sash::media::inner {

/// What the stream says of every frame, used where the frame itself is silent.
struct StreamLook {
  ColourTags tags;
  Rate pixel_aspect{1, 1};
  Orientation orientation;
};

/// Takes the frame over. Null when it cannot be converted (a pixel format nobody scales).
PicturePtr picture_from(Owned<AVFrame> frame, const StreamLook& look, Moment at, Moment lasts);

}  // namespace sash::media::inner
