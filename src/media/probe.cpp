#include "media/probe.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "media/fingerprint.h"
#include "media/inner/container.h"
#include "media/inner/file_look.h"
#include "media/inner/place_tags.h"
#include "media/inner/tags.h"
#include "media/picture.h"
#include "support/text.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/channel_layout.h>
#include <libavutil/pixdesc.h>
}

namespace sash::media {
namespace {

using inner::Container;

std::optional<std::string> tag(const AVDictionary* from, const char* key) {
  const AVDictionaryEntry* e = av_dict_get(from, key, nullptr, 0);
  if (e == nullptr) return std::nullopt;
  return std::string(e->value);
}

std::string codec_words(const AVCodecParameters& p) {
  const AVCodecDescriptor* d = avcodec_descriptor_get(p.codec_id);
  std::string words = d != nullptr && d->long_name != nullptr ? d->long_name : avcodec_get_name(p.codec_id);
  if (const char* profile = avcodec_profile_name(p.codec_id, p.profile)) words += fmt::format(" ({})", profile);
  return words;
}

std::optional<Rate> rate_of(AVRational r) {
  if (r.num <= 0 || r.den <= 0) return std::nullopt;
  return Rate{r.num, r.den};
}

/// Containers with coarse units of time (QuickTime's 1/600 s) measure 59.95 for 59.94: where measure and count differ
/// by no more than rounding does, the count is meant. 60 and 59.94 are twice as far apart.
std::optional<Rate> rate_of(const AVStream& s) {
  const auto measured = rate_of(s.avg_frame_rate);
  const auto counted = rate_of(s.r_frame_rate);
  if (!measured || !counted) return measured;
  return std::abs(counted->per_second() / measured->per_second() - 1) < 0.0005 ? counted : measured;
}

/// Header and first frames only. Twice the average is how field-coded streams look, not a sign of a variable rate.
bool looks_variable(const AVStream& s) {
  if (s.avg_frame_rate.num <= 0 || s.r_frame_rate.num <= 0) return false;
  const double ratio = av_q2d(s.r_frame_rate) / av_q2d(s.avg_frame_rate);
  return std::abs(ratio - 1) > 0.01 && std::abs(ratio - 2) > 0.01;
}

std::optional<FieldOrder> fields_of(AVFieldOrder order) {
  switch (order) {
    case AV_FIELD_PROGRESSIVE:
      return FieldOrder::progressive;
    // For interlaced frames stored whole, writers name the earlier field first: the frames themselves agree.
    case AV_FIELD_TT:
    case AV_FIELD_TB:
      return FieldOrder::top_first;
    case AV_FIELD_BB:
    case AV_FIELD_BT:
      return FieldOrder::bottom_first;
    default:
      return std::nullopt;
  }
}

VideoFacts video_facts(const Container& c, const AVStream& s) {
  const AVCodecParameters& p = *s.codecpar;
  VideoFacts v;
  v.codec = avcodec_get_name(p.codec_id);
  v.codec_words = codec_words(p);
  v.coded = {p.width, p.height};
  const AVRational sar = av_guess_sample_aspect_ratio(&c.av(), const_cast<AVStream*>(&s), nullptr);
  if (sar.num > 0 && sar.den > 0) v.pixel_aspect = {sar.num, sar.den};
  if (const std::uint8_t* matrix = av_stream_get_side_data(&s, AV_PKT_DATA_DISPLAYMATRIX, nullptr)) {
    const auto o = inner::orientation_of(reinterpret_cast<const std::int32_t*>(matrix));
    v.turn = o.turn;
    v.mirrored = o.mirrored;
  }
  v.shown = shown_size(v.coded, v.pixel_aspect, v.turn);
  if (const AVPixFmtDescriptor* d = av_pix_fmt_desc_get(static_cast<AVPixelFormat>(p.format))) {
    v.pixel_format = d->name;
    v.bits = d->comp[0].depth;
  }
  v.tags = inner::tags_of(p.color_space, p.color_primaries, p.color_trc, p.color_range);
  v.colour = resolve(v.tags, v.coded);
  if (v.colour.transfer == Transfer::pq) v.hdr = Hdr::pq;
  if (v.colour.transfer == Transfer::hlg) v.hdr = Hdr::hlg;
  v.rate = rate_of(s);
  v.variable_rate = looks_variable(s);
  v.fields = fields_of(p.field_order);
  v.starts = c.start_of(s);
  v.lasts = c.length_of(s);
  return v;
}

AudioFacts audio_facts(const Container& c, const AVStream& s) {
  const AVCodecParameters& p = *s.codecpar;
  AudioFacts a;
  a.codec = avcodec_get_name(p.codec_id);
  a.codec_words = codec_words(p);
  a.samples_per_second = p.sample_rate;
  a.channels = p.ch_layout.nb_channels;
  std::array<char, 64> layout{};
  if (av_channel_layout_describe(&p.ch_layout, layout.data(), layout.size()) > 0) a.layout = layout.data();
  a.starts = c.start_of(s);
  a.lasts = c.length_of(s);
  return a;
}

std::optional<std::string> start_time_code(const AVFormatContext& f) {
  if (auto t = tag(f.metadata, "timecode")) return t;
  for (unsigned i = 0; i < f.nb_streams; ++i) {
    if (auto t = tag(f.streams[i]->metadata, "timecode")) return t;
  }
  return std::nullopt;
}

std::string tag_words(std::uint32_t tag) {
  std::string words;
  for (int i = 0; i < 4; ++i) {
    const char ch = static_cast<char>(tag >> (8 * i) & 0xFF);
    words += ch >= 0x20 && ch < 0x7F ? ch : '?';
  }
  return words;
}

std::string unknown_codec(const AVCodecParameters& p) {
  return p.codec_id == AV_CODEC_ID_NONE ? fmt::format("a format tagged '{}'", tag_words(p.codec_tag))
                                        : avcodec_get_name(p.codec_id);
}

bool decodable(const AVStream& s) { return avcodec_find_decoder(s.codecpar->codec_id) != nullptr; }

bool encrypted(const AVStream& s) {
  return s.codecpar->codec_tag == MKTAG('e', 'n', 'c', 'v') || s.codecpar->codec_tag == MKTAG('e', 'n', 'c', 'a');
}

/// Whether this footage can be worked with at all.
Done check_streams(const Container& c) {
  const std::string name = c.path().string();
  if (c.picture() == nullptr && c.sound() == nullptr) {
    return Fault::of(
        Code::unsupported,
        fmt::format("{} holds neither picture nor sound; open the media file itself.", inner::quoted(c.path())), name);
  }
  const AVStream& main = c.picture() != nullptr ? *c.picture() : *c.sound();
  const char* what = c.picture() != nullptr ? "picture" : "sound";
  if (encrypted(main)) {
    return Fault::of(Code::unsupported,
                     fmt::format("The {} of {} is encrypted; open an unprotected copy.", what, inner::quoted(c.path())),
                     name);
  }
  if (!decodable(main)) {
    return Fault::of(
        Code::unsupported,
        fmt::format("The {} of {} is in {}, which cannot be decoded here; convert it to {} and open that.", what,
                    inner::quoted(c.path()), unknown_codec(*main.codecpar), c.picture() != nullptr ? "H.264" : "AAC"),
        name);
  }
  if (c.picture() != nullptr && (main.codecpar->width <= 0 || main.codecpar->height <= 0)) {
    return Fault::of(
        Code::damaged,
        fmt::format("No picture could be read from {}; it is damaged or cut very short.", inner::quoted(c.path())),
        name);
  }
  return {};
}

}  // namespace

Outcome<FootageFacts> probe(const std::filesystem::path& path) {
  Progress progress;
  return probe(path, progress);
}

Outcome<FootageFacts> probe(const std::filesystem::path& path, Progress& progress) {
  const auto opened = Container::open(path, [&progress] { return progress.cancelled(); });
  if (!opened) return opened.fault();
  const Container& c = *opened;
  if (const Done fine = check_streams(c); !fine) return fine.fault();
  auto print = fingerprint(path);
  if (!print) return print.fault();

  FootageFacts facts;
  const AVFormatContext& f = c.av();
  facts.container = f.iformat->name;
  facts.container_words = f.iformat->long_name != nullptr ? f.iformat->long_name : f.iformat->name;
  facts.bytes = c.bytes();
  facts.fingerprint = *print;
  facts.duration = c.claimed_duration();
  if (c.picture() != nullptr) facts.video = video_facts(c, *c.picture());
  if (c.sound() != nullptr) {
    if (decodable(*c.sound()) && !encrypted(*c.sound())) {
      facts.audio = audio_facts(c, *c.sound());
    } else {
      facts.remarks.push_back(
          fmt::format("its sound is in {}, which cannot be decoded here", unknown_codec(*c.sound()->codecpar)));
    }
  }
  for (unsigned i = 0; i < f.nb_streams; ++i) {
    const AVStream& s = *f.streams[i];
    if (s.codecpar->codec_type != AVMEDIA_TYPE_SUBTITLE) continue;
    facts.subtitles.push_back({avcodec_get_name(s.codecpar->codec_id), tag(s.metadata, "language").value_or("")});
  }
  facts.has_location = inner::names_a_place(c.av(), path);
  facts.start_time_code = start_time_code(f);
  facts.made_at = tag(f.metadata, "creation_time");
  if (inner::look_at_boxes(path) == inner::BoxEnd::cut_with_index) {
    facts.remarks.emplace_back("the file is cut short: it ends before its index says it should");
  }
  return facts;
}

}  // namespace sash::media
