#include "media/inner/deinterlacer.h"

#include <fmt/format.h>

extern "C" {
#include <libavfilter/avfilter.h>
#include <libavfilter/buffersink.h>
#include <libavfilter/buffersrc.h>
#include <libavutil/frame.h>
}

namespace sash::media::inner {

bool Deinterlacer::prepare(const AVFrame& first) {
  graph_.reset(avfilter_graph_alloc());
  if (graph_ == nullptr) return false;
  graph_->nb_threads = 1;
  width_ = first.width;
  height_ = first.height;
  format_ = first.format;
  const std::string shape =
      fmt::format("video_size={}x{}:pix_fmt={}:time_base=1/1000:pixel_aspect=1/1", width_, height_, format_);
  AVFilterContext* source = nullptr;
  AVFilterContext* filter = nullptr;
  AVFilterContext* sink = nullptr;
  const bool made = avfilter_graph_create_filter(&source, avfilter_get_by_name("buffer"), "in", shape.c_str(), nullptr,
                                                 graph_.get()) >= 0 &&
                    avfilter_graph_create_filter(&filter, avfilter_get_by_name("bwdif"), "weave",
                                                 "mode=send_frame:deint=interlaced", nullptr, graph_.get()) >= 0 &&
                    avfilter_graph_create_filter(&sink, avfilter_get_by_name("buffersink"), "out", nullptr, nullptr,
                                                 graph_.get()) >= 0 &&
                    avfilter_link(source, 0, filter, 0) >= 0 && avfilter_link(filter, 0, sink, 0) >= 0 &&
                    avfilter_graph_config(graph_.get(), nullptr) >= 0;
  if (!made) {
    graph_.reset();
    return false;
  }
  source_ = source;
  sink_ = sink;
  return true;
}

std::vector<Decoded> Deinterlacer::push(Decoded frame) {
  const AVFrame& f = *frame.frame;
  std::vector<Decoded> out;
  if (graph_ != nullptr && (f.width != width_ || f.height != height_ || f.format != format_)) {
    out = finish();
    restart();
  }
  if (graph_ == nullptr && !prepare(f)) {  // a shape the filter does not take is shown as it is
    out.push_back(std::move(frame));
    return out;
  }
  waiting_.push_back({frame.at, frame.lasts});
  // The filter wants rising stamps; the true times wait beside it.
  frame.frame->pts = av_rescale(frame.at.count(), 1000, Moment::per_second);
  if (av_buffersrc_add_frame(static_cast<AVFilterContext*>(source_), frame.frame.get()) < 0) {
    waiting_.pop_back();
    return out;
  }
  for (Decoded& d : drain()) out.push_back(std::move(d));
  return out;
}

std::vector<Decoded> Deinterlacer::finish() {
  if (graph_ == nullptr) return {};
  if (av_buffersrc_add_frame(static_cast<AVFilterContext*>(source_), nullptr) < 0) return {};
  return drain();
}

void Deinterlacer::restart() {
  graph_.reset();
  waiting_.clear();
}

std::vector<Decoded> Deinterlacer::drain() {
  std::vector<Decoded> out;
  for (;;) {
    Owned<AVFrame> frame = make_frame();
    if (av_buffersink_get_frame(static_cast<AVFilterContext*>(sink_), frame.get()) < 0) return out;
    if (waiting_.empty()) continue;
    out.push_back({std::move(frame), waiting_.front().at, waiting_.front().lasts});
    waiting_.pop_front();
  }
}

}  // namespace sash::media::inner
