#pragma once
// PictureCache: decoded pictures round the playhead, up to a number of bytes. What lies farthest from the playhead goes
// first. Remembers which picture followed which, so that "on screen at" can be answered before the index exists.
// Private to media; one thread.

#include <cstddef>
#include <map>
#include <optional>

#include "media/picture.h"

namespace sash::media::inner {

class PictureCache {
 public:
  explicit PictureCache(std::size_t bytes) : room_(bytes) {}

  void add(const PicturePtr& picture, Moment playhead);
  /// `later` is the frame right after `earlier`.
  void follows(Moment earlier, Moment later);

  PicturePtr at(Moment exact) const;     ///< the picture that begins exactly then
  PicturePtr on_screen(Moment m) const;  ///< only where the picture after it is known
  PicturePtr nearest(Moment m, Moment within) const;
  std::optional<Moment> after(Moment exact) const;  ///< when the picture after this one begins, if known
  std::size_t bytes() const { return held_; }

 private:
  struct Entry {
    PicturePtr picture;
    std::optional<Moment> next;
  };
  std::map<Moment, Entry> entries_;
  std::size_t room_;
  std::size_t held_ = 0;
};

}  // namespace sash::media::inner
