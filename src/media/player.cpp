#include "media/player.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "media/inner/sound_feed.h"

namespace sash::media {
namespace {

using Clock = std::chrono::steady_clock;
using inner::SoundFeed;

// Slower or faster than this, stretched sound is noise.
constexpr double slowest_heard = 0.5;
constexpr double fastest_heard = 2.0;
constexpr double slowest = 0.25;
constexpr double fastest = 4.0;
// The clock waits this long for the first picture, then goes without it.
constexpr auto patience = std::chrono::seconds(2);

}  // namespace

struct Player::State {
  Decoder* decoder = nullptr;
  std::unique_ptr<SoundFeed> sound;  // null for silent footage
  std::optional<Moment> claimed_end;

  bool playing = false;
  double speed = 1;
  Moment place;                 // where playing began, or where it stands
  bool heard = false;           // this play has sound
  bool held = true;             // waiting for the first picture and the first sound
  Clock::time_point asked;      // when play was called
  Clock::time_point released;   // when the clock was let go
  std::optional<Stretch> over;  // loop
  PicturePtr shown;
  bool pictures_ended = false;
  std::uint64_t dropped = 0;
  std::uint64_t seen = 0;
  std::optional<Fault> fault;
  float volume = 1;
  bool muted = false;

  void begin(Moment from, double at_speed);
  void halt();
  Moment clock() const;
  void let_go_when_ready(const Decoder::Due& due);
  bool at_end(Moment now) const;
};

void Player::State::begin(Moment from, double at_speed) {
  const double size = std::clamp(std::abs(at_speed), slowest, fastest);
  speed = at_speed < 0 ? -size : size;
  place = std::max(from, Moment());
  playing = true;
  held = true;
  asked = Clock::now();
  shown = nullptr;
  pictures_ended = decoder == nullptr;
  heard = sound != nullptr && speed >= slowest_heard && speed <= fastest_heard &&
          sound->state() != SoundFeed::State::no_device;
  if (sound != nullptr) heard ? sound->start(place, speed) : sound->stop();
  if (decoder != nullptr) {
    decoder->play(place, speed < 0 ? Decoder::Direction::backward : Decoder::Direction::forward, size);
  }
}

void Player::State::halt() {
  playing = false;
  if (sound != nullptr) sound->stop();
  if (decoder != nullptr) decoder->rest();
}

Moment Player::State::clock() const {
  if (!playing || held) return place;
  if (heard && sound->state() != SoundFeed::State::no_device) return sound->now();
  const double passed = std::chrono::duration<double>(Clock::now() - released).count();
  return std::max(Moment(), place + Moment::seconds(passed * speed));
}

void Player::State::let_go_when_ready(const Decoder::Due& due) {
  const bool waited = Clock::now() - asked > patience;
  const bool picture_there = decoder == nullptr || due.picture != nullptr || due.ended || shown != nullptr;
  const auto sound_state = heard ? sound->state() : SoundFeed::State::no_device;
  const bool sound_there = sound_state != SoundFeed::State::filling;
  if ((!picture_there || !sound_there) && !waited) return;
  held = false;
  released = Clock::now();
  if (heard && sound_state != SoundFeed::State::no_device) sound->release();
}

bool Player::State::at_end(Moment now) const {
  if (!pictures_ended) return false;
  if (speed < 0) return shown == nullptr || now <= shown->at;
  if (shown != nullptr && now < shown->at + shown->lasts) return false;
  // Heard sound may go on after the last picture; its true end is known once it was decoded.
  if (heard && sound->state() != SoundFeed::State::no_device) return sound->end() && now >= *sound->end();
  return decoder != nullptr || !claimed_end || now >= *claimed_end;
}

Player::Player(std::filesystem::path path, const FootageFacts& facts, Decoder* decoder, std::function<void()> wake)
    : state_(std::make_unique<State>()) {
  state_->decoder = decoder;
  state_->claimed_end = facts.duration;
  if (facts.audio) state_->sound = std::make_unique<SoundFeed>(std::move(path), std::move(wake));
}

Player::~Player() {
  if (state_->playing && state_->decoder != nullptr) state_->decoder->rest();
}

void Player::use_index(std::shared_ptr<const FrameIndex> index) {
  if (state_->sound != nullptr) state_->sound->use_index(std::move(index));
}

void Player::play(Moment from, double speed) {
  state_->dropped = 0;
  state_->seen = 0;
  state_->fault.reset();
  state_->begin(from, speed);
}

void Player::pause() {
  if (!state_->playing) return;
  const Moment here = state_->clock();
  state_->halt();
  state_->place = here;
}

void Player::change_speed(double speed) {
  if (state_->playing) state_->begin(state_->clock(), speed);
}

void Player::shuttle(int direction) {
  if (direction == 0) return pause();
  const bool same_way = state_->playing && (state_->speed > 0) == (direction > 0);
  const double size = same_way ? std::min(fastest, std::max(1.0, std::abs(state_->speed) * 2)) : 1.0;
  const Moment here = state_->clock();
  play(here, direction > 0 ? size : -size);
}

void Player::loop(std::optional<Stretch> over) {
  state_->over = over && over->from < over->until ? over : std::nullopt;
}

void Player::sound(Sound s) {
  state_->muted = s == Sound::muted;
  if (state_->sound != nullptr) state_->sound->volume(state_->muted ? 0.0F : state_->volume);
}

void Player::volume(double share) {
  state_->volume = static_cast<float>(std::clamp(share, 0.0, 1.0));
  if (state_->sound != nullptr && !state_->muted) state_->sound->volume(state_->volume);
}

void Player::place(Moment at) {
  if (!state_->playing) state_->place = at;
}

bool Player::playing() const { return state_->playing; }
double Player::speed() const { return state_->playing ? state_->speed : 0; }
Moment Player::now() const { return state_->clock(); }

bool Player::sound_is_master() const {
  return state_->playing && state_->heard && state_->sound->state() != SoundFeed::State::no_device;
}

PicturePtr Player::advance() {
  State& s = *state_;
  if (!s.playing) return nullptr;
  const Moment now = s.clock();
  if (s.over && !s.held) {
    const bool past = s.speed > 0 ? now >= s.over->until : now < s.over->from;
    if (past) {
      s.begin(s.speed > 0 ? s.over->from : s.over->until - Moment::ticks(1), s.speed);
      return nullptr;
    }
  }
  Decoder::Due due;
  if (s.decoder != nullptr) due = s.decoder->take_due(now);
  if (due.picture != nullptr) {
    s.shown = due.picture;
    ++s.seen;
    s.dropped += static_cast<std::uint64_t>(due.skipped);
  }
  if (due.fault) s.fault = due.fault;
  if (due.ended) s.pictures_ended = true;
  if (s.held) s.let_go_when_ready(due);
  if (!s.held && s.at_end(now)) {
    if (s.over) {
      s.begin(s.speed > 0 ? s.over->from : s.over->until - Moment::ticks(1), s.speed);
    } else {
      s.halt();
      // The last picture stays, and its time with it.
      s.place = s.shown != nullptr ? s.shown->at : now;
    }
  }
  return due.picture;
}

std::optional<Moment> Player::next_due() const {
  if (!state_->playing || state_->decoder == nullptr) return std::nullopt;
  return state_->decoder->next_due();
}

std::uint64_t Player::dropped() const { return state_->dropped; }
std::uint64_t Player::seen() const { return state_->seen; }
std::optional<Fault> Player::fault() const { return state_->fault; }

}  // namespace sash::media
