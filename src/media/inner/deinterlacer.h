#pragma once
// Weaves interlaced frames into full pictures for showing, one out for one in, looking at the neighbours in time
// (bwdif). Holds one frame back. Progressive frames in between pass through. Private to media; one thread.

#include <deque>
#include <vector>

#include "media/inner/av.h"
#include "support/moment.h"

namespace sash::media::inner {

/// A decoded frame with its time.
struct Decoded {
  Owned<AVFrame> frame;
  Moment at;
  Moment lasts;
};

class Deinterlacer {
 public:
  /// Frames must follow each other; call restart() after a jump. Gives the frames that became ready.
  std::vector<Decoded> push(Decoded frame);
  std::vector<Decoded> finish();  ///< the frame held back, at the end
  void restart();

 private:
  bool prepare(const AVFrame& first);
  std::vector<Decoded> drain();

  struct Times {
    Moment at;
    Moment lasts;
  };
  Owned<AVFilterGraph> graph_;
  void* source_ = nullptr;  // AVFilterContext, owned by graph_
  void* sink_ = nullptr;
  std::deque<Times> waiting_;
  int width_ = 0;
  int height_ = 0;
  int format_ = -1;
};

}  // namespace sash::media::inner
