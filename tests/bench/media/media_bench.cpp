// How long an exact frame, a step back and the first picture take, beside the floor of the same run: libav alone,
// decoding from the keyframe (or opening and decoding one frame) with the same number of threads. "ratio" is ours over
// the floor, by medians. And how many pictures a 1080p30 clip loses while it plays.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdlib>
#include <filesystem>
#include <mutex>
#include <random>
#include <thread>
#include <vector>

#include "media/decoder.h"
#include "media/index_builder.h"
#include "media/player.h"
#include "media/probe.h"
#include "support/check.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
}

namespace sash::media {
namespace {

using Clock = std::chrono::steady_clock;

double millis_of(auto&& work) {
  const auto start = Clock::now();
  work();
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

double at_share(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

/// 10 s of 1080p30 H.264 with B-frames and noise, about 14 Mbit/s; `group` frames from key to key.
std::filesystem::path clip(int group) {
  std::filesystem::create_directories(BENCH_CLIPS);
  const std::filesystem::path file = std::filesystem::path(BENCH_CLIPS) / ("bench_" + std::to_string(group) + ".mp4");
  if (std::filesystem::exists(file)) return file;
  const std::string made =
      "ffmpeg -y -nostdin -loglevel error -f lavfi -i testsrc2=size=1920x1080:rate=30:duration=10 -f lavfi -i "
      "sine=sample_rate=48000:duration=10 -vf noise=alls=8:allf=t -c:v libx264 -preset superfast -bf 2 -b:v 14M "
      "-pix_fmt yuv420p "
      "-x264-params scenecut=0 -g " +
      std::to_string(group) + " -c:a aac " + file.string();
  promise(std::system(made.c_str()) == 0, "the ffmpeg command makes the benchmark's clip");
  return file;
}

/// libav alone, as small as it gets.
class Floor {
 public:
  explicit Floor(const std::filesystem::path& file) {
    promise(avformat_open_input(&format_, file.c_str(), nullptr, nullptr) >= 0, "opens");
    promise(avformat_find_stream_info(format_, nullptr) >= 0, "has streams");
    stream_ = format_->streams[av_find_best_stream(format_, AVMEDIA_TYPE_VIDEO, -1, -1, nullptr, 0)];
    const AVCodec* codec = avcodec_find_decoder(stream_->codecpar->codec_id);
    context_ = avcodec_alloc_context3(codec);
    avcodec_parameters_to_context(context_, stream_->codecpar);
    context_->thread_count = std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, 4);
    promise(avcodec_open2(context_, codec, nullptr) >= 0, "decodes");
  }
  ~Floor() {
    av_packet_free(&packet_);
    av_frame_free(&frame_);
    avcodec_free_context(&context_);
    avformat_close_input(&format_);
  }
  Floor(const Floor&) = delete;
  Floor& operator=(const Floor&) = delete;

  /// Decodes from the key shown at `key` to the frame shown at `target`.
  void decode(Moment key, Moment target) {
    av_seek_frame(format_, stream_->index, stamp(key), AVSEEK_FLAG_BACKWARD);
    avcodec_flush_buffers(context_);
    decode_to(stamp(target));
  }
  void decode_to(std::int64_t wanted) {
    for (bool flushed = false;;) {
      const int got = avcodec_receive_frame(context_, frame_);
      if (got >= 0) {
        if (frame_->best_effort_timestamp >= wanted) return;
        continue;
      }
      if (flushed) return;
      if (av_read_frame(format_, packet_) < 0) {
        flushed = true;
        avcodec_send_packet(context_, nullptr);
        continue;
      }
      if (packet_->stream_index == stream_->index) avcodec_send_packet(context_, packet_);
      av_packet_unref(packet_);
    }
  }

 private:
  std::int64_t stamp(Moment m) const {  // the clips start at 0
    return av_rescale(m.count(), stream_->time_base.den, Moment::per_second * stream_->time_base.num);
  }
  AVFormatContext* format_ = nullptr;
  AVStream* stream_ = nullptr;
  AVCodecContext* context_ = nullptr;
  AVPacket* packet_ = av_packet_alloc();
  AVFrame* frame_ = av_frame_alloc();
};

/// A decoder that answers at once, as far as the caller can tell.
class Waiting {
 public:
  Waiting(const std::filesystem::path& file, std::size_t cache_bytes)
      : decoder_(file, {.deinterlace = true, .threads = 0, .cache_bytes = cache_bytes}, [this] { ring(); }) {}

  Decoder& decoder() { return decoder_; }
  PicturePtr exact() {
    for (;;) {
      for (Shown& s : decoder_.take()) {
        if (s.exact) return s.picture;
      }
      std::unique_lock lock(mutex_);
      rang_.wait(lock, [this] { return rung_; });
      rung_ = false;
    }
  }

 private:
  void ring() {
    const std::lock_guard lock(mutex_);
    rung_ = true;
    rang_.notify_one();
  }
  std::mutex mutex_;
  std::condition_variable rang_;
  bool rung_ = false;
  Decoder decoder_;
};

std::shared_ptr<const FrameIndex> index_of(const std::filesystem::path& file) {
  Progress progress;
  auto index = build_frame_index(file, progress);
  promise(index.ok(), "the benchmark's clip has an index");
  return std::make_shared<const FrameIndex>(std::move(*index));
}

void report(benchmark::State& state, const std::vector<double>& ours, const std::vector<double>& floor) {
  state.counters["p50_ms"] = at_share(ours, 0.5);
  state.counters["p95_ms"] = at_share(ours, 0.95);
  state.counters["floor_p50_ms"] = at_share(floor, 0.5);
  state.counters["floor_p95_ms"] = at_share(floor, 0.95);
  state.counters["ratio"] = at_share(ours, 0.5) / at_share(floor, 0.5);
}

constexpr int rounds = 30;

void ExactSeek(benchmark::State& state) {
  const auto file = clip(static_cast<int>(state.range(0)));
  const auto index = index_of(file);
  Floor floor(file);
  Waiting ours(file, 1);  // nothing kept: every seek decodes
  ours.decoder().use_index(index);
  std::vector<double> our_times;
  std::vector<double> floor_times;
  std::mt19937 dice(5);
  for (auto _ : state) {
    for (int round = 0; round < rounds; ++round) {
      const Moment at = index->frame(dice() % index->count()).at;
      floor_times.push_back(millis_of([&] { floor.decode(index->keys()[*index->key_for(at)].at, at); }));
      our_times.push_back(millis_of([&] {
        ours.decoder().show(at, Way::exact);
        promise(ours.exact()->at == at, "the exact frame");
      }));
    }
  }
  report(state, our_times, floor_times);
}
BENCHMARK(ExactSeek)->Arg(30)->Arg(250)->Iterations(1)->Unit(benchmark::kMillisecond);

void OneStepBack(benchmark::State& state) {
  const auto file = clip(static_cast<int>(state.range(0)));
  const auto index = index_of(file);
  Floor floor(file);
  Waiting ours(file, Decoder::Options{}.cache_bytes);
  ours.decoder().use_index(index);
  std::vector<double> our_times;
  std::vector<double> floor_times;
  std::mt19937 dice(6);
  for (auto _ : state) {
    for (int round = 0; round < rounds; ++round) {
      const std::size_t i = 1 + dice() % (index->count() - 1);
      ours.decoder().show(index->frame(i).at, Way::exact);
      ours.exact();
      const Moment before = index->frame(i - 1).at;
      our_times.push_back(millis_of([&] {
        ours.decoder().step(index->frame(i).at, -1);
        promise(ours.exact()->at == before, "the frame before");
      }));
      floor_times.push_back(millis_of([&] { floor.decode(index->keys()[*index->key_for(before)].at, before); }));
    }
  }
  report(state, our_times, floor_times);
}
BENCHMARK(OneStepBack)->Arg(30)->Arg(250)->Iterations(1)->Unit(benchmark::kMillisecond);

void FirstPicture(benchmark::State& state) {
  const auto file = clip(static_cast<int>(state.range(0)));
  std::vector<double> our_times;
  std::vector<double> floor_times;
  for (auto _ : state) {
    for (int round = 0; round < rounds; ++round) {
      floor_times.push_back(millis_of([&] { Floor(file).decode_to(INT64_MIN); }));
      our_times.push_back(millis_of([&] {
        Waiting ours(file, 1);
        ours.decoder().show(Moment(), Way::quick_first);
        while (ours.decoder().take().empty()) std::this_thread::sleep_for(std::chrono::microseconds(200));
      }));
    }
  }
  report(state, our_times, floor_times);
}
BENCHMARK(FirstPicture)->Arg(250)->Iterations(1)->Unit(benchmark::kMillisecond);

void Play1080p30(benchmark::State& state) {
  const auto file = clip(30);
  setenv("SDL_AUDIODRIVER", "dummy", 1);
  const auto facts = probe(file);
  Decoder decoder(file, {}, {});
  decoder.use_index(index_of(file));
  Player player(file, *facts, &decoder, {});
  for (auto _ : state) {
    player.play(Moment());
    while (player.playing()) {
      player.advance();
      std::this_thread::sleep_for(std::chrono::milliseconds(4));
    }
  }
  state.counters["shown"] = static_cast<double>(player.seen());
  state.counters["dropped"] = static_cast<double>(player.dropped());
}
BENCHMARK(Play1080p30)->Iterations(1)->UseRealTime()->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace sash::media
