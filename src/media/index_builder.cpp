#include "media/index_builder.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "media/inner/codec.h"
#include "media/inner/container.h"
#include "media/inner/file_look.h"
#include "media/rate.h"

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
}

namespace sash::media {
namespace {

using inner::Container;
using inner::Owned;

/// One coded picture in decoding order.
struct Coded {
  std::optional<Moment> at;
  std::optional<Moment> decode_at;
  Moment lasts;
  std::int64_t position = -1;
  bool key = false;
  bool hidden = false;  ///< decoded for others only: trimmed by an edit list
  bool placed = true;   ///< a packet of its own; else it shares one, and `run` says behind which join
  std::size_t run = 0;
};

/// Tells whether a packet is the second field of the picture the packet before it began (H.264 field pictures, as
/// camcorders write: two packets a frame).
class FieldPairing {
 public:
  explicit FieldPairing(const AVStream& stream) {
    if (stream.codecpar->codec_id != AV_CODEC_ID_H264) return;
    parser_.reset(av_parser_init(AV_CODEC_ID_H264));
    context_.reset(avcodec_alloc_context3(nullptr));
    if (parser_ == nullptr || context_ == nullptr ||
        avcodec_parameters_to_context(context_.get(), stream.codecpar) < 0) {
      parser_.reset();
      return;
    }
    parser_->flags |= PARSER_FLAG_COMPLETE_FRAMES;
  }

  bool is_second_field(const AVPacket& packet) {
    if (parser_ == nullptr) return false;
    std::uint8_t* out = nullptr;
    int out_size = 0;
    av_parser_parse2(parser_.get(), context_.get(), &out, &out_size, packet.data, packet.size, packet.pts, packet.dts,
                     packet.pos);
    const AVPictureStructure now = parser_->picture_structure;
    const bool field = now == AV_PICTURE_STRUCTURE_TOP_FIELD || now == AV_PICTURE_STRUCTURE_BOTTOM_FIELD;
    if (field) seen_ = true;
    const bool second = field && waiting_ != AV_PICTURE_STRUCTURE_UNKNOWN && waiting_ != now;
    waiting_ = field && !second ? now : AV_PICTURE_STRUCTURE_UNKNOWN;
    return second;
  }
  bool seen() const { return seen_; }

 private:
  Owned<AVCodecParserContext> parser_;
  Owned<AVCodecContext> context_;
  AVPictureStructure waiting_ = AV_PICTURE_STRUCTURE_UNKNOWN;
  bool seen_ = false;
};

/// VP8 keeps reference-only pictures in packets of their own. Source: RFC 6386, 9.1 (show_frame).
bool shows_nothing(const AVStream& stream, const AVPacket& packet) {
  return stream.codecpar->codec_id == AV_CODEC_ID_VP8 && packet.size > 0 && (packet.data[0] >> 4 & 1) == 0;
}

/// Times that fall back by less are damaged stamps, by more the beginning of another recording.
constexpr Moment tolerated_fall = Moment::seconds(1);

struct Scan {
  std::vector<Coded> coded;
  bool fields = false;
};

Scan scan_packets(Container& c, Progress& progress) {
  const AVStream& stream = *c.picture();
  Scan scan;
  FieldPairing pairing(stream);
  const auto packet = inner::make_packet();
  while (!progress.cancelled() && av_read_frame(&c.av(), packet.get()) >= 0) {
    const AVPacket& p = *packet;
    const bool ours = p.stream_index == stream.index && (p.flags & AV_PKT_FLAG_CORRUPT) == 0 && p.size > 0;
    if (ours && !pairing.is_second_field(p) && !shows_nothing(stream, p)) {
      Coded coded;
      if (p.pts != AV_NOPTS_VALUE) coded.at = c.moment(stream, p.pts);
      if (p.dts != AV_NOPTS_VALUE) coded.decode_at = c.moment(stream, p.dts);
      coded.lasts = c.length(stream, p.duration);
      coded.position = p.pos;
      coded.key = (p.flags & AV_PKT_FLAG_KEY) != 0;
      coded.hidden = (p.flags & AV_PKT_FLAG_DISCARD) != 0;
      scan.coded.push_back(coded);
    }
    if (p.pos >= 0) progress.at(static_cast<double>(p.pos) / static_cast<double>(c.bytes()));
    av_packet_unref(packet.get());
  }
  scan.fields = pairing.seen();
  return scan;
}

struct Decoded {
  std::int64_t position;
  std::optional<Moment> at;
  Moment lasts;
  bool drained = false;  ///< given only when no packet was left
};

/// Decodes from the start, pixels unimportant, until `enough` says so; frames in the order they are shown.
template <class Enough>
Outcome<std::vector<Decoded>> decode_order(Container& c, Progress& progress, Enough enough) {
  const AVStream& stream = *c.picture();
  auto codec = inner::open_codec(c, stream, 0);
  if (!codec) return codec.fault();
  AVCodecContext& context = **codec;
  context.skip_loop_filter = AVDISCARD_ALL;
  c.rewind();
  std::vector<Decoded> shown;
  const auto packet = inner::make_packet();
  const auto frame = inner::make_frame();
  bool flushed = false;
  while (!progress.cancelled()) {
    const int got = avcodec_receive_frame(&context, frame.get());
    if (got == AVERROR_EOF) break;
    if (got >= 0) {
      Decoded d{frame->pkt_pos, std::nullopt, c.length(stream, frame->pkt_duration), flushed};
      if (frame->best_effort_timestamp != AV_NOPTS_VALUE) d.at = c.moment(stream, frame->best_effort_timestamp);
      shown.push_back(d);
      av_frame_unref(frame.get());
      if (enough(d)) break;
      continue;
    }
    if (got != AVERROR(EAGAIN) || flushed) break;
    const int read = av_read_frame(&c.av(), packet.get());
    if (read < 0) {
      flushed = true;
      avcodec_send_packet(&context, nullptr);
      continue;
    }
    if (packet->stream_index == stream.index && (packet->flags & AV_PKT_FLAG_CORRUPT) == 0) {
      avcodec_send_packet(&context, packet.get());
    }
    av_packet_unref(packet.get());
  }
  return shown;
}

/// Without presentation times (AVI, raw streams) the order of decoding is all there is: the frames shown take the
/// decoding times in rising order, which is how such files are meant to be played.
Outcome<FrameIndex> index_by_decoding(Container& c, const std::vector<Coded>& coded, bool fields, Progress& progress) {
  const auto shown = decode_order(c, progress, [](const Decoded&) { return false; });
  if (!shown) return shown.fault();
  if (progress.cancelled()) return c.cancelled();
  const AVRational rate = c.picture()->avg_frame_rate;
  const Rate steady = rate.num > 0 && rate.den > 0 ? Rate{rate.num, rate.den} : Rate{25, 1};
  std::map<std::int64_t, const Coded*> by_place;
  std::set<Moment> times;
  for (const Coded& k : coded) {
    by_place.emplace(k.position, &k);
    if (k.decode_at) times.insert(*k.decode_at);
  }
  const bool timed = times.size() >= shown->size();
  auto time = times.begin();
  std::vector<Frame> frames;
  std::vector<KeyPlace> keys;
  for (std::size_t i = 0; i < shown->size(); ++i) {
    const Moment at = timed ? *time++ : Moment::rational(static_cast<std::int64_t>(i), steady.den, steady.num);
    const auto packet = by_place.find((*shown)[i].position);
    const bool key = packet != by_place.end() && packet->second->key;
    frames.push_back({at, Moment::rational(1, steady.den, steady.num), (*shown)[i].position, key});
    if (key) keys.push_back({at, packet->second->decode_at, packet->first});
  }
  return FrameIndex(std::move(frames), std::move(keys), true, fields);
}

/// Frames shown before the very first key yet stored after it: decodable only where the group is closed. The decoder
/// knows. H.264's does not drop them but shows them broken; there they count as undecodable.
Outcome<std::set<Moment>> decodable_leads(Container& c, Moment first_key, Progress& progress) {
  std::set<Moment> leads;
  if (c.picture()->codecpar->codec_id == AV_CODEC_ID_H264) return leads;
  const auto shown = decode_order(c, progress, [&](const Decoded& d) { return d.at && *d.at >= first_key; });
  if (!shown) return shown.fault();
  for (const Decoded& d : *shown) {
    if (d.at && *d.at < first_key) leads.insert(*d.at);
  }
  return leads;
}

/// Gives the few packets without a presentation time the one the decoder finds for their frames; what is never shown
/// is left out. False when most lack one or the decoder's times do not rise: then times tell nothing.
Outcome<bool> complete_times(Container& c, std::vector<Coded>& coded, Progress& progress) {
  const auto timed = std::count_if(coded.begin(), coded.end(), [](const Coded& k) { return k.at.has_value(); });
  if (static_cast<std::size_t>(timed) == coded.size()) return true;
  if (static_cast<std::size_t>(timed) * 2 < coded.size()) return false;
  const auto shown = decode_order(c, progress, [](const Decoded&) { return false; });
  if (!shown) return shown.fault();
  if (progress.cancelled()) return c.cancelled();
  std::map<std::int64_t, Moment> by_place;
  std::vector<Coded> unplaced;  // several pictures may share a packet of the container: then only the first has a place
  std::optional<Moment> last;
  Moment lasts;
  std::size_t run = 0;
  for (const Decoded& d : *shown) {
    std::optional<Moment> at = d.at;
    if (!at && d.drained && last && lasts > Moment()) at = *last + lasts;
    if (!at) continue;  // the reader leaves it out, too
    const bool joined = c.by_byte() && last && *at < *last - tolerated_fall;
    if (last && *at <= *last && !joined) return false;
    run += joined ? 1 : 0;
    last = at;
    lasts = d.lasts;
    if (d.position >= 0) {
      by_place.emplace(d.position, *at);
    } else {
      unplaced.push_back({at, std::nullopt, d.lasts, -1, false, false, false, run});
    }
  }
  for (Coded& k : coded) {
    const auto found = k.at || k.position < 0 ? by_place.end() : by_place.find(k.position);
    if (found != by_place.end()) k.at = found->second;
  }
  std::erase_if(coded, [](const Coded& k) { return !k.at; });
  coded.insert(coded.end(), unplaced.begin(), unplaced.end());
  return true;
}

/// One recording of several that were put end to end; times as stamped.
struct Run {
  std::optional<std::int64_t> begins;  ///< byte
  std::optional<Moment> key;           ///< its first
  Moment until;                        ///< end of its last picture
  Moment shift;                        ///< to lay it behind the run before
};

/// Numbers the runs: a new one begins where decoding falls back in time.
std::vector<Run> runs_of(std::vector<Coded>& coded) {
  std::vector<Run> runs(1);
  std::optional<Moment> decoding;
  for (Coded& k : coded) {
    if (k.decode_at && decoding && *k.decode_at < *decoding - tolerated_fall) runs.push_back({k.position, {}, {}, {}});
    if (k.decode_at) decoding = k.decode_at;
    if (k.placed) k.run = runs.size() - 1;
    if (k.run >= runs.size()) continue;
    Run& run = runs[k.run];
    if (k.key && !run.key) run.key = k.at;
    run.until = std::max(run.until, *k.at + k.lasts);
  }
  return runs;
}

/// Streams joined end to end begin their times anew: each run is laid behind the one before, from its first key on.
/// Where there was a join, frames are told apart by position.
std::vector<Join> join_runs(std::vector<Coded>& coded) {
  std::vector<Run> runs = runs_of(coded);
  if (runs.size() == 1) return {};
  std::vector<Join> joins;
  Moment end = runs.front().until;
  for (std::size_t i = 1; i < runs.size(); ++i) {
    Run& run = runs[i];
    if (!run.key) continue;  // nothing of it can be shown, and it is not heard either
    run.shift = end - *run.key;
    end = run.until + run.shift;
    joins.push_back({*run.begins, run.shift});
  }
  std::erase_if(coded, [&](const Coded& k) {
    // What is shown before its run's first key leans on what came before the join.
    return k.run >= runs.size() || (k.run > 0 && (!runs[k.run].key || *k.at < *runs[k.run].key));
  });
  for (Coded& k : coded) {
    k.at = *k.at + runs[k.run].shift;
    if (k.decode_at) k.decode_at = *k.decode_at + runs[k.run].shift;
  }
  return joins;
}

FrameIndex index_by_packets(const std::vector<Coded>& coded, const std::set<Moment>& leads, Moment first_key,
                            std::vector<Join> joins, bool fields) {
  std::map<Moment, Frame> frames;  // the first packet of two with one time wins
  std::map<Moment, KeyPlace> keys;
  for (const Coded& k : coded) {
    if (k.key) keys.emplace(*k.at, KeyPlace{*k.at, k.decode_at, k.position});
    const bool lost = *k.at < first_key && !leads.contains(*k.at);
    if (!k.hidden && !lost) frames.emplace(*k.at, Frame{*k.at, k.lasts, k.position, k.key});
  }
  std::vector<Frame> in_order;
  in_order.reserve(frames.size());
  for (const auto& [at, frame] : frames) in_order.push_back(frame);
  if (in_order.size() > 1 && in_order.back().lasts <= Moment()) {
    in_order.back().lasts = in_order.back().at - in_order[in_order.size() - 2].at;
  }
  std::vector<KeyPlace> key_list;
  for (const auto& [at, key] : keys) key_list.push_back(key);
  const bool by_position = !joins.empty();
  return {std::move(in_order), std::move(key_list), by_position, fields, std::move(joins)};
}

}  // namespace

Outcome<FrameIndex> build_frame_index(const std::filesystem::path& path, Progress& progress) {
  auto opened = Container::open(path, [&progress] { return progress.cancelled(); });
  if (!opened) return opened.fault();
  Container& c = *opened;
  if (c.picture() == nullptr) {
    return Fault::of(Code::unsupported,
                     fmt::format("{} has sound only: there are no frames to find.", inner::quoted(path)),
                     path.string());
  }
  c.only(*c.picture());
  Scan scan = scan_packets(c, progress);
  if (progress.cancelled()) return c.cancelled();

  // Nothing before the first key can be decoded.
  auto& coded = scan.coded;
  coded.erase(coded.begin(), std::find_if(coded.begin(), coded.end(), [](const Coded& k) { return k.key; }));
  const Fault nothing =
      Fault::of(Code::damaged,
                fmt::format("No frame of {} can be decoded; copy the file from the camera again.", inner::quoted(path)),
                path.string());
  if (coded.empty()) return nothing;

  const auto timed = complete_times(c, coded, progress);
  if (!timed) return timed.fault();
  if (!*timed) {
    auto index = index_by_decoding(c, coded, scan.fields, progress);
    if (index && index->empty()) return nothing;
    return index;
  }
  const Moment first_key = *coded.front().at;
  const bool has_leads = std::any_of(coded.begin(), coded.end(), [&](const Coded& k) { return *k.at < first_key; });
  std::set<Moment> leads;
  if (has_leads) {
    auto found = decodable_leads(c, first_key, progress);
    if (!found) return found.fault();
    leads = std::move(*found);
  }
  auto joins = c.by_byte() ? join_runs(coded) : std::vector<Join>();
  FrameIndex index = index_by_packets(coded, leads, first_key, std::move(joins), scan.fields);
  progress.at(1);
  if (index.empty()) return nothing;
  return index;
}

}  // namespace sash::media
