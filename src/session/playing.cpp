#include "session/playing.h"

#include <algorithm>

#include "media/timecode.h"

namespace sash::session {

void Playing::turn_to(model::FootageId footage, const std::string& path, const media::FootageFacts& facts, Moment at) {
  if (footage == footage_ && (player_ || path.empty())) return;
  close();
  footage_ = footage;
  facts_ = facts;
  at_ = at;
  if (path.empty()) return;  // narration without footage: a playhead and nothing to play
  if (facts.video) decoder_ = std::make_unique<media::Decoder>(path, media::Decoder::Options{}, wake_);
  player_ = std::make_unique<media::Player>(path, facts, decoder_.get(), wake_);
  player_->sound(sound_ ? media::Player::Sound::on : media::Player::Sound::muted);
  player_->volume(volume_);
  rest_at(at);
  if (decoder_) decoder_->show(at, media::Way::quick_first);
}

void Playing::use_index(model::FootageId footage, std::shared_ptr<const media::FrameIndex> index) {
  if (footage != footage_) return;
  index_ = index;
  if (player_) player_->use_index(index);
  if (decoder_) decoder_->use_index(std::move(index));
}

void Playing::close() {
  player_.reset();
  decoder_.reset();
  index_.reset();
  picture_.reset();
  footage_ = {};
  at_ = {};
  loop_.reset();
  exact_ = true;
}

Moment Playing::at() const {
  if (picture_ && (exact_ || playing())) return picture_->at;
  return playing() ? player_->now() : at_;
}

Moment Playing::frame_length() const {
  if (picture_ && picture_->lasts > Moment()) return picture_->lasts;
  if (index_) {
    if (const auto frame = index_->frame_at(at())) return index_->frame(*frame).lasts;
  }
  if (facts_.video && facts_.video->rate && facts_.video->rate->num > 0) {
    return Moment::rational(1, facts_.video->rate->den, facts_.video->rate->num);
  }
  return {};
}

double Playing::speed() const { return playing() ? player_->speed() : speed_; }

std::string Playing::time_code() const {
  if (!facts_.video || !facts_.video->rate || facts_.video->variable_rate || (index_ && index_->variable_rate()))
    return {};
  const auto count = media::TimeCodeCount::as_labelled(*facts_.video->rate, facts_.start_time_code);
  if (!count) return {};
  std::int64_t first = 0;
  if (facts_.start_time_code) {
    if (const auto label = count->read(*facts_.start_time_code)) first = count->number(*label).value_or(0);
  }
  const Moment origin = index_ && !index_->empty() ? index_->extent().from : facts_.video->starts;
  return count->write(count->label(first + count->nearest(at() - origin)));
}

Moment Playing::last_moment() const {
  if (index_ && !index_->empty()) return index_->frames().back().at;
  return facts_.duration.value_or(Moment());
}

void Playing::rest_at(Moment at) {
  at_ = at;
  if (player_) player_->place(at);
}

void Playing::toggle() {
  if (!player_) return;
  if (player_->playing()) {
    player_->pause();
    seek(at(), true);
    return;
  }
  // At the very end, playing means from the start again (or from the loop's).
  Moment from = at();
  if (loop_ && !loop_->holds(from)) from = loop_->from;
  if (!loop_ && last_moment() > Moment() && from >= last_moment()) from = Moment();
  player_->play(from, speed_);
}

void Playing::shuttle(int direction) {
  if (!player_) return;
  if (!player_->playing()) player_->place(at());
  player_->shuttle(direction);
  if (!player_->playing()) seek(at(), true);
}

void Playing::set_speed(double speed) {
  speed_ = std::clamp(speed, 0.25, 4.0);
  if (playing()) player_->change_speed(speed_);
}

void Playing::set_volume(double volume) {
  volume_ = std::clamp(volume, 0.0, 1.0);
  if (player_) player_->volume(volume_);
}

void Playing::set_loop(std::optional<Stretch> span) {
  loop_ = span;
  if (player_) player_->loop(span);
}

void Playing::step(int frames) {
  if (!player_) return;
  if (player_->playing()) player_->pause();
  if (!decoder_) return seek(at() + Moment::millis(40 * frames), true);
  const Moment from = at();
  if (index_) {
    // The playhead moves at once, so that repeated presses add up while pictures are still being decoded.
    if (const auto here = index_->frame_at(from)) {
      const auto last = static_cast<std::int64_t>(index_->count()) - 1;
      const auto wanted = std::clamp<std::int64_t>(static_cast<std::int64_t>(*here) + frames, 0, last);
      return seek(index_->frame(static_cast<std::size_t>(wanted)).at, true);
    }
  }
  decoder_->step(from, frames);
}

void Playing::seek(Moment to, bool settled) {
  to = std::max(to, Moment());
  if (last_moment() > Moment()) to = std::min(to, last_moment());
  if (!player_) {
    at_ = to;
    return;
  }
  const bool was_playing = player_->playing();
  if (was_playing) {
    player_->play(to, player_->speed());
    at_ = to;
    return;
  }
  rest_at(to);
  if (!decoder_) return;
  if (picture_ && exact_ && picture_->at <= to && picture_->lasts > Moment() && to < picture_->at + picture_->lasts)
    return;
  exact_ = false;
  decoder_->show(to, settled ? media::Way::exact : media::Way::quick_first);
}

Playing::Polled Playing::poll() {
  Polled out;
  if (!player_) return out;
  if (decoder_ && !player_->playing()) {
    for (auto& shown : decoder_->take()) {
      out.changed = true;
      if (shown.fault) {
        out.fault = shown.fault;
        exact_ = true;
        continue;
      }
      picture_ = shown.picture;
      exact_ = shown.exact;
      if (exact_) rest_at(picture_->at);
    }
  }
  if (player_->playing()) {
    const Moment before = at();
    if (auto picture = player_->advance()) {
      picture_ = std::move(picture);
      exact_ = true;
      out.changed = true;
    }
    if (!decoder_ && player_->now() != before) out.changed = true;
    if (!player_->playing()) {
      out.ended = out.changed = true;
      rest_at(picture_ ? picture_->at : player_->now());
    }
    if (const auto fault = player_->fault()) out.fault = fault;
  }
  return out;
}

std::optional<double> Playing::seconds_to_next() const {
  if (!playing()) return std::nullopt;
  if (!decoder_) return 0.03;
  const auto due = player_->next_due();
  if (!due) return 0.01;
  const double speed = std::max(0.01, std::abs(player_->speed()));
  return std::clamp(std::abs((*due - player_->now()).in_seconds()) / speed, 0.0, 0.25);
}

}  // namespace sash::session
