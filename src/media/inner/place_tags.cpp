#include "media/inner/place_tags.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <optional>
#include <string>
#include <string_view>

#include "media/inner/av.h"
#include "support/text.h"

extern "C" {
#include <libavcodec/avcodec.h>
}

namespace sash::media::inner {
namespace {

using Bytes = std::span<const std::uint8_t>;

std::string_view text_of(Bytes bytes) { return {reinterpret_cast<const char*>(bytes.data()), bytes.size()}; }

/// Names that stand in XMP and in the key lists of timed metadata; long enough not to occur by chance.
bool text_names_a_place(std::string_view text) {
  constexpr std::array<std::string_view, 4> names = {"GPSLatitude", "location.ISO6709", "quicktime.location",
                                                     "GPSCoordinates"};
  return std::any_of(names.begin(), names.end(), [&](auto name) { return text.find(name) != std::string_view::npos; });
}

/// Names under which cameras and phones write where they were: ISO 6709 strings and GPS telemetry.
bool tags_name_a_place(const AVDictionary* tags) {
  constexpr std::array<std::string_view, 6> words = {"location", "gps", "iso6709", "geotag", "latitude", "longitude"};
  const AVDictionaryEntry* e = nullptr;
  while ((e = av_dict_get(tags, "", e, AV_DICT_IGNORE_SUFFIX)) != nullptr) {
    const std::string key = to_lower(e->key);
    if (std::any_of(words.begin(), words.end(), [&](auto w) { return key.find(w) != std::string::npos; })) return true;
  }
  return false;
}

/// Numbers of a TIFF structure in its own byte order; nothing beyond its end.
class Tiff {
 public:
  static std::optional<Tiff> of(Bytes bytes) {
    if (bytes.size() < 8) return std::nullopt;
    const std::string_view order = text_of(bytes.first(2));
    if (order != "II" && order != "MM") return std::nullopt;
    return Tiff(bytes, order == "MM");
  }
  std::optional<std::uint32_t> number(std::size_t at, std::size_t length) const {
    if (at > bytes_.size() || length > bytes_.size() - at) return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < length; ++i) value = value << 8 | bytes_[at + (big_ ? i : length - 1 - i)];
    return value;
  }

 private:
  Tiff(Bytes bytes, bool big) : bytes_(bytes), big_(big) {}
  Bytes bytes_;
  bool big_;
};

bool exif_names_a_place(Bytes bytes) {
  constexpr std::uint32_t gps_pointer = 0x8825;
  constexpr std::size_t entry = 12;
  const auto tiff = Tiff::of(bytes);
  const auto directory = tiff ? tiff->number(4, 4) : std::nullopt;
  const auto count = directory ? tiff->number(*directory, 2) : std::nullopt;
  for (std::uint32_t i = 0; count && i < *count; ++i) {
    const auto tag = tiff->number(*directory + 2 + i * entry, 2);
    if (!tag) return false;
    if (*tag == gps_pointer) return true;
  }
  return false;
}

/// The first packet of the stream, read on from where the file stands.
bool first_picture_names_a_place(AVFormatContext& format, const AVStream& stream) {
  constexpr int most_packets = 100;
  const auto packet = make_packet();
  bool found = false;
  for (int i = 0; i < most_packets && av_read_frame(&format, packet.get()) >= 0; ++i) {
    const bool ours = packet->stream_index == stream.index;
    if (ours) found = jpeg_names_a_place({packet->data, static_cast<std::size_t>(packet->size)});
    av_packet_unref(packet.get());
    if (ours) break;
  }
  return found;
}

bool stream_names_a_place(AVFormatContext& format, const AVStream& s) {
  const AVCodecParameters& p = *s.codecpar;
  const bool telemetry = p.codec_tag == MKTAG('g', 'p', 'm', 'd') || p.codec_tag == MKTAG('c', 'a', 'm', 'm');
  if (telemetry || tags_name_a_place(s.metadata)) return true;
  if ((s.disposition & AV_DISPOSITION_ATTACHED_PIC) != 0) {
    const AVPacket& cover = s.attached_pic;
    return jpeg_names_a_place({cover.data, static_cast<std::size_t>(cover.size)});
  }
  if (p.codec_type == AVMEDIA_TYPE_ATTACHMENT) {
    return jpeg_names_a_place({p.extradata, static_cast<std::size_t>(p.extradata_size)});
  }
  return p.codec_id == AV_CODEC_ID_MJPEG && first_picture_names_a_place(format, s);
}

/// What stands beside the sound and picture of an ISO file: XMP, the keys of timed metadata, tags libav does not read.
bool boxes_name_a_place(const std::filesystem::path& path) {
  constexpr std::uint64_t most_read = 32u << 20;
  std::ifstream in(path, std::ios::binary | std::ios::ate);
  const auto size = static_cast<std::uint64_t>(std::max<std::streamoff>(in.tellg(), 0));
  std::uint64_t at = 0;
  for (int boxes = 0; at + 8 <= size && boxes < 10'000; ++boxes) {
    std::array<unsigned char, 16> head{};
    in.clear();
    in.seekg(static_cast<std::streamoff>(at));
    in.read(reinterpret_cast<char*>(head.data()), head.size());
    std::uint64_t length = 0;
    for (int i = 0; i < 4; ++i) length = length << 8 | head[static_cast<std::size_t>(i)];
    if (length == 1) {
      for (int i = 8; i < 16; ++i) length = length << 8 | head[static_cast<std::size_t>(i)];
    }
    if (length == 0 || length > size - at) length = size - at;
    if (length < 8) break;
    const std::string_view kind(reinterpret_cast<const char*>(head.data()) + 4, 4);
    if (kind == "moov" || kind == "uuid" || kind == "meta" || kind == "udta") {
      std::string box(std::min(length, most_read), '\0');
      in.clear();
      in.seekg(static_cast<std::streamoff>(at));
      in.read(box.data(), static_cast<std::streamsize>(box.size()));
      if (text_names_a_place(box)) return true;
    }
    at += length;
  }
  return false;
}

}  // namespace

bool jpeg_names_a_place(Bytes jpeg) {
  constexpr std::string_view exif("Exif\0\0", 6);
  if (jpeg.size() < 4 || jpeg[0] != 0xFF || jpeg[1] != 0xD8) return false;
  // Segments up to the picture data: FF, a kind, a length that counts itself.
  for (std::size_t at = 2; at + 4 <= jpeg.size() && jpeg[at] == 0xFF && jpeg[at + 1] != 0xDA;) {
    const std::size_t length = static_cast<std::size_t>(jpeg[at + 2]) << 8 | jpeg[at + 3];
    if (length < 2 || length > jpeg.size() - at - 2) return false;
    const Bytes inside = jpeg.subspan(at + 4, length - 2);
    const bool application_1 = jpeg[at + 1] == 0xE1;
    if (application_1 && text_of(inside).starts_with(exif) && exif_names_a_place(inside.subspan(exif.size())))
      return true;
    if (application_1 && text_names_a_place(text_of(inside))) return true;
    at += 2 + length;
  }
  return false;
}

bool names_a_place(AVFormatContext& f, const std::filesystem::path& path) {
  if (tags_name_a_place(f.metadata)) return true;
  for (unsigned i = 0; i < f.nb_programs; ++i) {
    if (tags_name_a_place(f.programs[i]->metadata)) return true;
  }
  for (unsigned i = 0; i < f.nb_chapters; ++i) {
    if (tags_name_a_place(f.chapters[i]->metadata)) return true;
  }
  for (unsigned i = 0; i < f.nb_streams; ++i) {
    if (stream_names_a_place(f, *f.streams[i])) return true;
  }
  return std::string_view(f.iformat->name).starts_with("mov") && boxes_name_a_place(path);
}

}  // namespace sash::media::inner
