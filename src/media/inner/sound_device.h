#pragma once
// SoundDevice: the way out to the loudspeaker, through SDL's audio alone (no window, no events). Private to media.
// The pull function runs on the device's thread and must be quick.

#include <functional>
#include <memory>
#include <span>

namespace sash::media::inner {

class SoundDevice {
 public:
  /// Fills the interleaved stereo floats it is given.
  using Pull = std::function<void(std::span<float>)>;

  static constexpr int rate = 48000;
  static constexpr int channels = 2;

  /// Silent until run(true). Null when there is no device: the reason is nobody's fault and playing goes on without
  /// sound.
  static std::unique_ptr<SoundDevice> open(Pull pull);
  ~SoundDevice();
  SoundDevice(const SoundDevice&) = delete;
  SoundDevice& operator=(const SoundDevice&) = delete;

  /// Frees what SDL keeps for the calling thread; the last thing a thread that used it does.
  static void leave_thread();

  void run(bool yes);
  int buffer_frames() const { return buffer_frames_; }  ///< pulled this much ahead of what is heard

 private:
  explicit SoundDevice(Pull pull) : pull_(std::move(pull)) {}
  Pull pull_;
  unsigned id_ = 0;
  int buffer_frames_ = 0;
};

}  // namespace sash::media::inner
