#pragma once
// TimeStretch: makes sound faster or slower at the same pitch (libavfilter's atempo). Private to media; one thread.

#include <span>
#include <vector>

#include "media/inner/av.h"

namespace sash::media::inner {

class TimeStretch {
 public:
  /// Interleaved stereo at `rate`; speed 1 passes through. Requires: 0.5 <= speed <= 2.
  TimeStretch(int rate, double speed);

  std::vector<float> push(std::span<const float> samples);
  std::vector<float> finish();  ///< what is still inside; nothing may follow

 private:
  std::vector<float> drain();
  Owned<AVFilterGraph> graph_;
  void* source_ = nullptr;  // AVFilterContext, owned by graph_
  void* sink_ = nullptr;
  int rate_;
  long long pushed_ = 0;
};

}  // namespace sash::media::inner
