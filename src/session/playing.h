#pragma once
// Playing: the transport over one footage at a time. Owns its decoder and player, remembers where the playhead stands,
// and says which picture is to be seen. Main thread only; `wake` is called from the decoder's thread.

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "media/decoder.h"
#include "media/facts.h"
#include "media/player.h"
#include "model/place.h"

namespace sash::session {

class Playing {
 public:
  Playing(std::function<void()> wake, bool sound) : wake_(std::move(wake)), sound_(sound) {}

  /// Turns to `footage`, paused at `at`; asks for its picture. Stays where it is when it is the current one already.
  void turn_to(model::FootageId footage, const std::string& path, const media::FootageFacts& facts, Moment at);
  void use_index(model::FootageId footage, std::shared_ptr<const media::FrameIndex> index);
  void close();

  model::FootageId footage() const { return footage_; }
  Moment at() const;
  Moment frame_length() const;
  bool playing() const { return player_ && player_->playing(); }
  double speed() const;
  std::optional<Stretch> loop() const { return loop_; }
  double volume() const { return volume_; }
  bool exact() const { return exact_; }
  media::PicturePtr picture() const { return picture_; }
  std::int64_t dropped() const { return player_ ? static_cast<std::int64_t>(player_->dropped()) : 0; }
  std::string time_code() const;  ///< SMPTE label of the shown frame; empty where no frame count fits

  void toggle();
  void shuttle(int direction);
  void set_speed(double speed);
  void set_volume(double volume);
  void set_loop(std::optional<Stretch> span);
  void step(int frames);
  void seek(Moment to, bool settled);

  struct Polled {
    bool changed = false;
    bool ended = false;  ///< played to the end of the footage since the last poll
    std::optional<Fault> fault;
  };
  Polled poll();

  /// Seconds until poll() has something new while playing; nothing when paused.
  std::optional<double> seconds_to_next() const;

 private:
  Moment last_moment() const;
  void rest_at(Moment at);

  std::function<void()> wake_;
  bool sound_;
  model::FootageId footage_;
  media::FootageFacts facts_;
  std::unique_ptr<media::Decoder> decoder_;  // before player_, which borrows it
  std::unique_ptr<media::Player> player_;
  std::shared_ptr<const media::FrameIndex> index_;
  media::PicturePtr picture_;
  Moment at_;  // the playhead while paused
  double speed_ = 1.0;
  double volume_ = 1.0;
  std::optional<Stretch> loop_;
  bool exact_ = true;
};

}  // namespace sash::session
