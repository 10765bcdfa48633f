#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/time_text.h"
#include "media/probe.h"

namespace sash::cli {
namespace {

using nlohmann::ordered_json;

ordered_json rate_json(const std::optional<media::Rate>& rate) {
  if (!rate) return nullptr;
  return fmt::format("{}/{}", rate->num, rate->den);
}

const char* fields_word(media::FieldOrder order) {
  switch (order) {
    case media::FieldOrder::progressive:
      return "progressive";
    case media::FieldOrder::top_first:
      return "top field first";
    case media::FieldOrder::bottom_first:
      return "bottom field first";
  }
  return "";
}

const char* hdr_word(media::Hdr hdr) {
  switch (hdr) {
    case media::Hdr::none:
      return "none";
    case media::Hdr::pq:
      return "PQ";
    case media::Hdr::hlg:
      return "HLG";
  }
  return "";
}

ordered_json as_json(const media::FootageFacts& f) {
  ordered_json out;
  out["container"] = f.container;
  out["bytes"] = f.bytes;
  out["fingerprint"] = f.fingerprint;
  out["duration"] = f.duration ? ordered_json(f.duration->in_seconds()) : ordered_json(nullptr);
  if (f.video) {
    const auto& v = *f.video;
    out["video"] = {{"codec", v.codec},
                    {"width", v.coded.width},
                    {"height", v.coded.height},
                    {"shown_width", v.shown.width},
                    {"shown_height", v.shown.height},
                    {"pixel_format", v.pixel_format},
                    {"bits", v.bits},
                    {"rate", rate_json(v.rate)},
                    {"variable_rate", v.variable_rate},
                    {"fields", v.fields ? ordered_json(fields_word(*v.fields)) : ordered_json(nullptr)},
                    {"turn", v.turn},
                    {"mirrored", v.mirrored},
                    {"hdr", hdr_word(v.hdr)}};
  } else {
    out["video"] = nullptr;
  }
  if (f.audio) {
    const auto& a = *f.audio;
    out["audio"] = {{"codec", a.codec},
                    {"samples_per_second", a.samples_per_second},
                    {"channels", a.channels},
                    {"layout", a.layout}};
  } else {
    out["audio"] = nullptr;
  }
  out["carries_location"] = f.has_location;
  out["start_time_code"] = f.start_time_code ? ordered_json(*f.start_time_code) : ordered_json(nullptr);
  out["remarks"] = f.remarks;
  return out;
}

void print(const media::FootageFacts& f, std::ostream& out) {
  out << f.container_words << fmt::format(", {:.1f} MB", static_cast<double>(f.bytes) / 1e6);
  if (f.duration) out << ", " << time_text(*f.duration);
  out << '\n';
  if (f.video) {
    const auto& v = *f.video;
    out << fmt::format("  picture  {}, {}x{}", v.codec_words, v.coded.width, v.coded.height);
    if (!(v.shown == v.coded)) out << fmt::format(" shown {}x{}", v.shown.width, v.shown.height);
    if (v.rate) out << fmt::format(", {:.3f} frames a second", v.rate->per_second());
    if (v.variable_rate) out << ", variable rate";
    out << fmt::format(", {} ({} bit)", v.pixel_format, v.bits);
    if (v.turn != 0) out << fmt::format(", turned {} degrees", v.turn);
    if (v.mirrored) out << ", mirrored";
    if (v.fields && *v.fields != media::FieldOrder::progressive) out << ", interlaced, " << fields_word(*v.fields);
    if (v.hdr != media::Hdr::none) out << ", HDR (" << hdr_word(v.hdr) << ")";
    out << '\n';
  }
  if (f.audio) {
    out << fmt::format("  sound    {}, {} Hz, {}\n", f.audio->codec_words, f.audio->samples_per_second,
                       f.audio->layout);
  }
  if (f.start_time_code) out << "  starts at time code " << *f.start_time_code << '\n';
  if (f.has_location) out << "  carries the place where it was filmed; nothing Sashline exports carries it\n";
  for (const auto& remark : f.remarks) out << "  " << remark << '\n';
}

}  // namespace

int footage(const std::string& file, bool json, const Console& console) {
  const auto facts = media::probe(file);
  if (!facts) return console.fail(facts.fault());
  if (json) {
    console.out << as_json(*facts).dump(2) << '\n';
  } else {
    print(*facts, console.out);
  }
  return fine;
}

}  // namespace sash::cli
