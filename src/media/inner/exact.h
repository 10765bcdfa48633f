#pragma once
// Finding the one picture that is on screen at a moment, with or without the index. Private to media; the reader's
// thread.

#include <functional>

#include "media/inner/video_reader.h"

namespace sash::media::inner {

/// Sees every picture decoded on the way, the one found included (and, without an index, the one after it).
/// Says false to give up.
using OnTheWay = std::function<bool(const PicturePtr&)>;

/// The picture on screen at `target`; the first one for times before it. Pictures from `lead` before it on are all
/// decoded. Null when given up. Fails: cancelled; damaged (nothing decodable there).
Outcome<PicturePtr> find_picture(VideoReader& reader, Moment target, Moment lead, const OnTheWay& on_the_way);

}  // namespace sash::media::inner
