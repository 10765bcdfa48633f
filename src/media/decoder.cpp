#include "media/decoder.h"

#include <utility>

#include "media/inner/decode_thread.h"

namespace sash::media {

using inner::Request;

Decoder::Decoder(std::filesystem::path path, Options options, std::function<void()> wake)
    : thread_(std::make_unique<inner::DecodeThread>(std::move(path), options, std::move(wake))) {}

Decoder::~Decoder() = default;

void Decoder::use_index(std::shared_ptr<const FrameIndex> index) { thread_->use_index(std::move(index)); }

Generation Decoder::show(Moment at, Way way) {
  Request r;
  r.kind = Request::Kind::show;
  r.at = at;
  r.way = way;
  return thread_->ask(r);
}

Generation Decoder::step(Moment from, int by) {
  Request r;
  r.kind = Request::Kind::step;
  r.at = from;
  r.by = by;
  return thread_->ask(r);
}

std::vector<Shown> Decoder::take() { return thread_->take(); }

Generation Decoder::play(Moment from, Direction direction, double speed) {
  Request r;
  r.kind = Request::Kind::play;
  r.at = from;
  r.direction = direction;
  r.speed = speed;
  return thread_->ask(r);
}

Decoder::Due Decoder::take_due(Moment now) { return thread_->queue().take(now); }

std::optional<Moment> Decoder::next_due() const { return thread_->queue().next_due(); }

void Decoder::rest() { thread_->ask({}); }

}  // namespace sash::media
