// Playing with SDL's dummy device, which paces sound in real time, and with no device at all. Order and completeness
// are checked, never speed: a busy machine may drop pictures, and then they are counted.
#include "media/player.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cstdlib>
#include <thread>

#include "clips.h"
#include "media/index_builder.h"
#include "media/probe.h"

namespace sash::media {
namespace {

using test::clip;

struct Stage {
  explicit Stage(const std::string& name, const char* driver) : file(clip(name)) {
    setenv("SDL_AUDIODRIVER", driver, 1);
    facts = *probe(file);
    if (facts.video) {
      Progress progress;
      index = std::make_shared<const FrameIndex>(*build_frame_index(file, progress));
      decoder = std::make_unique<Decoder>(file, Decoder::Options{}, std::function<void()>());
      decoder->use_index(index);
    }
    player = std::make_unique<Player>(file, facts, decoder.get(), std::function<void()>());
  }

  /// Drives the player as a window would until `enough`.
  template <class Enough>
  void run(Enough enough) {
    while (player->playing() && !enough()) {
      if (const PicturePtr p = player->advance()) {
        pictures.push_back(p->at);
        clocks.push_back(player->now());
      }
      std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
  }
  void run() {
    run([] { return false; });
  }

  test::fs::path file;
  FootageFacts facts;
  std::shared_ptr<const FrameIndex> index;
  std::unique_ptr<Decoder> decoder;
  std::unique_ptr<Player> player;
  std::vector<Moment> pictures;
  std::vector<Moment> clocks;
};

/// A picture handed out is never of the future, and with none dropped never older than the frame due.
void expect_in_time(const Stage& s) {
  for (std::size_t n = 1; n < s.pictures.size(); ++n) {
    EXPECT_LT(s.pictures[n - 1], s.pictures[n]);
    EXPECT_LE(s.pictures[n], s.clocks[n]);
  }
}

TEST(Player, SoundIsTheMasterClock) {
  Stage s("h264_2997.mp4", "dummy");
  const Moment from = Moment::millis(1500);
  s.player->play(from);
  bool master = false;
  s.run([&] {
    master = master || s.player->sound_is_master();
    return false;
  });
  EXPECT_TRUE(master);
  expect_in_time(s);
  const std::size_t first = *s.index->frame_at(from);
  EXPECT_EQ(s.pictures.front(), s.index->frame(first).at);
  EXPECT_EQ(s.pictures.back(), s.index->frames().back().at);
  EXPECT_EQ(s.player->seen() + s.player->dropped(), s.index->count() - first);
  EXPECT_EQ(s.player->now(), s.index->frames().back().at);
}

TEST(Player, WithoutADeviceASteadyClockPlays) {
  Stage s("h264_2997.mp4", "no-such-driver");
  s.player->play(Moment::millis(2000));
  s.run();
  EXPECT_FALSE(s.player->sound_is_master());
  expect_in_time(s);
  EXPECT_EQ(s.pictures.back(), s.index->frames().back().at);
}

TEST(Player, SilentFootagePlaysAtAllSpeeds) {
  Stage s("silent.mp4", "dummy");
  for (const double speed : {0.25, 0.5, 2.0, 4.0}) {
    s.pictures.clear();
    s.clocks.clear();
    s.player->play(Moment::millis(2600), speed);
    EXPECT_EQ(s.player->speed(), speed);
    s.run();
    expect_in_time(s);
    EXPECT_EQ(s.pictures.back(), s.index->frames().back().at) << speed;
  }
}

TEST(Player, SoundStretchesWithTheSpeed) {
  Stage s("h264_2997.mp4", "dummy");
  for (const double speed : {0.5, 2.0}) {
    s.pictures.clear();
    s.clocks.clear();
    s.player->play(Moment::millis(2400), speed);
    s.run();
    expect_in_time(s);
    EXPECT_EQ(s.pictures.back(), s.index->frames().back().at) << speed;
  }
}

TEST(Player, PlaysBackwardToTheStart) {
  Stage s("h264_2997.mp4", "dummy");
  s.player->play(Moment::millis(700), -1);
  s.run();
  for (std::size_t n = 1; n < s.pictures.size(); ++n) EXPECT_GT(s.pictures[n - 1], s.pictures[n]);
  EXPECT_EQ(s.pictures.back(), s.index->frame(0).at);
  EXPECT_FALSE(s.player->playing());
}

TEST(Player, LoopsOverAStretch) {
  Stage s("h264_2997.mp4", "dummy");
  const Stretch over{Moment::millis(1000), Moment::millis(1300)};
  s.player->loop(over);
  s.player->play(over.from);
  int rounds = 0;
  s.run([&] {
    rounds = 0;
    for (std::size_t n = 1; n < s.pictures.size(); ++n) rounds += s.pictures[n] < s.pictures[n - 1] ? 1 : 0;
    return rounds == 3;
  });
  EXPECT_EQ(rounds, 3);
  const Moment lowest = s.index->frame(*s.index->frame_at(over.from)).at;
  for (const Moment m : s.pictures) {
    EXPECT_GE(m, lowest);
    EXPECT_LT(m, over.until);
  }
}

TEST(Player, ShuttleKeysDoubleAndStop) {
  Stage s("silent.mp4", "dummy");
  Player& p = *s.player;
  p.place(Moment::millis(1000));
  p.shuttle(1);
  EXPECT_EQ(p.speed(), 1);
  p.shuttle(1);
  EXPECT_EQ(p.speed(), 2);
  p.shuttle(1);
  p.shuttle(1);
  EXPECT_EQ(p.speed(), 4);
  p.shuttle(-1);
  EXPECT_EQ(p.speed(), -1);
  p.shuttle(-1);
  EXPECT_EQ(p.speed(), -2);
  p.shuttle(0);
  EXPECT_EQ(p.speed(), 0);
  EXPECT_FALSE(p.playing());
}

TEST(Player, PausingKeepsThePlace) {
  Stage s("h264_2997.mp4", "dummy");
  s.player->play(Moment());
  s.run([&] { return s.player->now() > Moment::millis(300); });
  s.player->pause();
  const Moment here = s.player->now();
  EXPECT_GT(here, Moment::millis(300));
  EXPECT_EQ(s.player->advance(), nullptr);
  EXPECT_EQ(s.player->now(), here);
}

TEST(Player, SoundAlonePlaysToItsEnd) {
  Stage s("sound.mp3", "dummy");
  s.player->play(Moment::millis(2500));
  s.run();
  EXPECT_GE(s.player->now(), Moment::millis(2900));
  EXPECT_FALSE(s.player->playing());
}

}  // namespace
}  // namespace sash::media
