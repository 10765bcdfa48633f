#include "media/inner/time_stretch.h"

#include <fmt/format.h>

#include <cstring>

#include "support/check.h"

extern "C" {
#include <libavfilter/avfilter.h>
#include <libavfilter/buffersink.h>
#include <libavfilter/buffersrc.h>
#include <libavutil/channel_layout.h>
#include <libavutil/frame.h>
}

namespace sash::media::inner {

TimeStretch::TimeStretch(int rate, double speed) : rate_(rate) {
  promise(speed >= 0.5 && speed <= 2.0, "a speed sound can be heard at");
  if (speed == 1.0) return;
  graph_.reset(avfilter_graph_alloc());
  graph_->nb_threads = 1;
  const std::string shape = fmt::format("sample_rate={0}:sample_fmt=flt:channel_layout=stereo:time_base=1/{0}", rate);
  AVFilterContext* source = nullptr;
  AVFilterContext* tempo = nullptr;
  AVFilterContext* sink = nullptr;
  const bool made = avfilter_graph_create_filter(&source, avfilter_get_by_name("abuffer"), "in", shape.c_str(), nullptr,
                                                 graph_.get()) >= 0 &&
                    avfilter_graph_create_filter(&tempo, avfilter_get_by_name("atempo"), "tempo",
                                                 fmt::format("{:.6f}", speed).c_str(), nullptr, graph_.get()) >= 0 &&
                    avfilter_graph_create_filter(&sink, avfilter_get_by_name("abuffersink"), "out", nullptr, nullptr,
                                                 graph_.get()) >= 0 &&
                    avfilter_link(source, 0, tempo, 0) >= 0 && avfilter_link(tempo, 0, sink, 0) >= 0 &&
                    avfilter_graph_config(graph_.get(), nullptr) >= 0;
  promise(made, "libavfilter with atempo");
  source_ = source;
  sink_ = sink;
}

std::vector<float> TimeStretch::push(std::span<const float> samples) {
  if (graph_ == nullptr) return {samples.begin(), samples.end()};
  if (samples.empty()) return {};
  Owned<AVFrame> frame = make_frame();
  frame->format = AV_SAMPLE_FMT_FLT;
  frame->sample_rate = rate_;
  frame->nb_samples = static_cast<int>(samples.size() / 2);
  frame->ch_layout = AV_CHANNEL_LAYOUT_STEREO;
  frame->pts = pushed_;
  pushed_ += frame->nb_samples;
  promise(av_frame_get_buffer(frame.get(), 0) >= 0, "memory for sound");
  std::memcpy(frame->data[0], samples.data(), samples.size_bytes());
  if (av_buffersrc_add_frame(static_cast<AVFilterContext*>(source_), frame.get()) < 0) return {};
  return drain();
}

std::vector<float> TimeStretch::finish() {
  if (graph_ == nullptr || av_buffersrc_add_frame(static_cast<AVFilterContext*>(source_), nullptr) < 0) return {};
  return drain();
}

std::vector<float> TimeStretch::drain() {
  std::vector<float> out;
  const Owned<AVFrame> frame = make_frame();
  while (av_buffersink_get_frame(static_cast<AVFilterContext*>(sink_), frame.get()) >= 0) {
    const auto* samples = reinterpret_cast<const float*>(frame->data[0]);
    out.insert(out.end(), samples, samples + static_cast<std::ptrdiff_t>(frame->nb_samples) * 2);
    av_frame_unref(frame.get());
  }
  return out;
}

}  // namespace sash::media::inner
