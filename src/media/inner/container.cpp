#include "media/inner/container.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "media/inner/file_look.h"
#include "support/check.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
}

namespace sash::media::inner {
namespace {

// What cameras, phones, editors and recorders write. Playlists, network and device formats stay out: footage is one
// local file.
constexpr const char* formats =
    "mov,matroska,avi,mpegts,mpeg,mpegvideo,m4v,h264,hevc,ivf,obu,av1,flv,asf,mxf,ogg,wav,w64,mp3,aac,ac3,eac3,dts,"
    "flac,aiff,"
    "caf,au,amr,dv,mjpeg,nut,yuv4mpegpipe,gif";

Fault why_not(const std::filesystem::path& path, int error) {
  const std::string name = path.string();
  switch (look_at_boxes(path)) {
    case BoxEnd::cut_without_index:
      return Fault::of(
          Code::damaged,
          fmt::format("The file {} is cut short: its index (the 'moov' box, written last) is missing, so nothing in "
                      "it can be played; copy it from the camera again.",
                      quoted(path)),
          name);
    case BoxEnd::cut_with_index:
    case BoxEnd::whole:
      return Fault::of(
          Code::damaged,
          fmt::format("The file {} is damaged ({}); copy it from the camera again.", quoted(path), av_words(error)),
          name);
    case BoxEnd::not_boxes:
      break;
  }
  return Fault::of(
      Code::unsupported,
      fmt::format("{} is no media file known here, or its start is damaged; open the original from the camera.",
                  quoted(path)),
      name);
}

AVStream* best(AVFormatContext& format, AVMediaType type) {
  const int found = av_find_best_stream(&format, type, -1, -1, nullptr, 0);
  if (found < 0) return nullptr;
  AVStream* stream = format.streams[found];
  const bool cover_art = (stream->disposition & AV_DISPOSITION_ATTACHED_PIC) != 0;
  return cover_art ? nullptr : stream;
}

bool is_mpeg_stream(const AVInputFormat& format) {
  const std::string_view name = format.name;
  return name == "mpegts" || name == "mpeg" || name == "mpegvideo" || name == "h264" || name == "hevc" || name == "m4v";
}

}  // namespace

Outcome<Container> Container::open(const std::filesystem::path& path, Stop stop) {
  hush_libav();
  const auto size = look_at_file(path);
  if (!size) return size.fault();

  Container c;
  c.path_ = path;
  c.bytes_ = *size;
  c.stop_ = std::make_unique<Stop>(std::move(stop));
  AVFormatContext* raw = avformat_alloc_context();
  promise(raw != nullptr, "memory for a container");
  raw->interrupt_callback = {[](void* s) -> int {
                               const auto& asked = *static_cast<const Stop*>(s);
                               return asked && asked() ? 1 : 0;
                             },
                             c.stop_.get()};
  AVDictionary* options = nullptr;
  av_dict_set(&options, "format_whitelist", formats, 0);
  av_dict_set(&options, "protocol_whitelist", "file", 0);
  // Frees `raw` on failure.
  const int opened = avformat_open_input(&raw, ("file:" + path.string()).c_str(), nullptr, &options);
  av_dict_free(&options);
  if (c.stopped()) {
    avformat_close_input(&raw);
    return c.cancelled();
  }
  if (opened < 0) return why_not(path, opened);
  c.format_.reset(raw);
  const int known = avformat_find_stream_info(raw, nullptr);
  if (c.stopped()) return c.cancelled();
  if (known < 0) return why_not(path, known);

  c.picture_ = best(*raw, AVMEDIA_TYPE_VIDEO);
  c.sound_ = best(*raw, AVMEDIA_TYPE_AUDIO);
  c.by_byte_ = is_mpeg_stream(*raw->iformat);

  // Not AVFormatContext::start_time: that one is rounded to microseconds.
  std::optional<Moment> origin;
  for (const AVStream* s : {c.picture_, c.sound_}) {
    if (s == nullptr || s->start_time == AV_NOPTS_VALUE) continue;
    const Moment starts = Moment::rational(s->start_time, s->time_base.num, s->time_base.den);
    origin = origin ? std::min(*origin, starts) : starts;
  }
  c.origin_ = origin.value_or(Moment());
  return c;
}

Moment Container::moment(const AVStream& stream, std::int64_t stamp) const { return length(stream, stamp) - origin_; }

Moment Container::length(const AVStream& stream, std::int64_t units) const {
  return Moment::rational(units, stream.time_base.num, stream.time_base.den);
}

std::int64_t Container::stamp(const AVStream& stream, Moment m) const {
  const WideInteger ticks = static_cast<WideInteger>((m + origin_).count()) * stream.time_base.den;
  const WideInteger unit = static_cast<WideInteger>(Moment::per_second) * stream.time_base.num;
  const WideInteger half = ticks < 0 ? -unit / 2 : unit / 2;
  return static_cast<std::int64_t>((ticks + half) / unit);
}

Moment Container::start_of(const AVStream& s) const {
  return s.start_time == AV_NOPTS_VALUE ? Moment() : moment(s, s.start_time);
}

std::optional<Moment> Container::length_of(const AVStream& s) const {
  if (s.duration == AV_NOPTS_VALUE || s.duration <= 0) return std::nullopt;
  return length(s, s.duration);
}

std::optional<Moment> Container::claimed_duration() const {
  std::optional<Moment> end;
  for (const AVStream* s : {picture_, sound_}) {
    const auto lasts = s != nullptr ? length_of(*s) : std::nullopt;
    if (!lasts) continue;
    const Moment stop = start_of(*s) + *lasts;
    end = end ? std::max(*end, stop) : stop;
  }
  if (end) return end;
  if (format_->duration == AV_NOPTS_VALUE || format_->duration <= 0) return std::nullopt;
  return Moment::rational(format_->duration, 1, AV_TIME_BASE);
}

void Container::rewind() {
  // MPEG transport streams lose their first pictures when rewound by time.
  if (by_byte_ && av_seek_frame(format_.get(), -1, 0, AVSEEK_FLAG_BYTE) >= 0) return;
  const std::int64_t earliest =
      picture_ != nullptr && picture_->start_time != AV_NOPTS_VALUE ? picture_->start_time : 0;
  const int stream = picture_ != nullptr ? picture_->index : -1;
  if (avformat_seek_file(format_.get(), stream, INT64_MIN, earliest, earliest, 0) >= 0) return;
  if (av_seek_frame(format_.get(), stream, 0, AVSEEK_FLAG_BACKWARD) >= 0) return;
  av_seek_frame(format_.get(), -1, 0, AVSEEK_FLAG_BYTE);
}

void Container::only(const AVStream& stream) {
  for (unsigned i = 0; i < format_->nb_streams; ++i) {
    format_->streams[i]->discard = format_->streams[i] == &stream ? AVDISCARD_DEFAULT : AVDISCARD_ALL;
  }
}

Fault Container::cancelled() const {
  return Fault::of(Code::cancelled, fmt::format("Reading {} was stopped.", quoted(path_)), path_.string());
}

}  // namespace sash::media::inner
