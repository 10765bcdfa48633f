#pragma once
// Player: plays one footage in sync with its sound. The sound is the master clock; with no sound, no device, or at a
// speed where sound makes no sense, a steady clock is. Shuttles both ways, loops over a stretch, counts pictures
// dropped. Threads: all members from the main thread; sound is decoded on an own thread and pulled by the device's
// thread.

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>

#include "media/decoder.h"
#include "media/facts.h"
#include "support/moment.h"

namespace sash::media {

class Player {
 public:
  enum class Sound { on, muted };
  /// `decoder` is borrowed and must outlive the player; null for audio only.
  Player(std::filesystem::path path, const FootageFacts& facts, Decoder* decoder, std::function<void()> wake);
  ~Player();
  Player(const Player&) = delete;
  Player& operator=(const Player&) = delete;

  /// From the next play on sound is found by it, too; the decoder has its own way to it.
  void use_index(std::shared_ptr<const FrameIndex> index);

  /// Plays from `from`; `speed` is 0.25 to 4 forward, or -0.25 to -4 backward (silent).
  void play(Moment from, double speed = 1.0);
  void pause();                            ///< now() stays where it is
  void change_speed(double speed);         ///< keeps the place; only while playing
  void shuttle(int direction);             ///< one press of J (-1), K (0) or L (+1): stop, or 1, 2, 4 times that way
  void loop(std::optional<Stretch> over);  ///< nothing: play to the end
  void sound(Sound s);
  void volume(double share);  ///< 0 to 1
  void place(Moment at);      ///< where the next play or shuttle begins, when paused

  bool playing() const;
  double speed() const;  ///< 0 when paused
  Moment now() const;    ///< what is heard, and so what is to be seen
  bool sound_is_master() const;

  /// Moves playing on: loops, stops at the end, hands out the picture due. Call once a drawn frame. Null: nothing new.
  PicturePtr advance();
  /// When advance() will next have something new; nothing when paused.
  std::optional<Moment> next_due() const;
  std::uint64_t dropped() const;  ///< pictures passed over since play() because they came late
  std::uint64_t seen() const;     ///< pictures handed out since play()
  std::optional<Fault> fault() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace sash::media
