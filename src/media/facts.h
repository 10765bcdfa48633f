#pragma once
// FootageFacts: what a media file says about itself once opened, as plain values. Made by probe.h; durations here are
// the container's claim, which a cut file overstates: the frame index (frame_index.h) has the truth. Pure values, no
// I/O.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "media/colour.h"
#include "media/rate.h"
#include "support/moment.h"

namespace sash::media {

enum class FieldOrder { progressive, top_first, bottom_first };
enum class Hdr { none, pq, hlg };

struct VideoFacts {
  std::string codec;         ///< short name, "h264"
  std::string codec_words;   ///< for people, "H.264 / AVC / MPEG-4 AVC / MPEG-4 part 10 (High)"
  Size coded;                ///< as stored
  Size shown;                ///< square pixels, after the pixel aspect ratio and the turn
  Rate pixel_aspect{1, 1};   ///< width : height of one stored pixel
  std::string pixel_format;  ///< "yuv420p10le"
  int bits = 8;              ///< per sample
  ColourTags tags;           ///< as the file says
  Colour colour;             ///< as used
  Hdr hdr = Hdr::none;
  std::optional<Rate> rate;    ///< average frames per second; nothing when the file does not say
  bool variable_rate = false;  ///< as far as the header and the first frames tell
  std::optional<FieldOrder> fields;
  int turn = 0;           ///< degrees clockwise to show it upright: 0, 90, 180 or 270
  bool mirrored = false;  ///< left and right are swapped before the turn
  Moment starts;
  std::optional<Moment> lasts;
};

struct AudioFacts {
  std::string codec;
  std::string codec_words;
  int samples_per_second = 0;
  int channels = 0;
  std::string layout;  ///< "stereo", "5.1(side)"
  Moment starts;
  std::optional<Moment> lasts;
};

struct SubtitleFacts {
  std::string codec;
  std::string language;  ///< as tagged, may be empty
};

struct FootageFacts {
  std::string container;           ///< short name of the format, "mp4"
  std::string container_words;     ///< for people
  std::int64_t bytes = 0;          ///< file size
  std::string fingerprint;         ///< same content, same text (fingerprint.h)
  std::optional<Moment> duration;  ///< from the container's start, as claimed
  std::optional<VideoFacts> video;
  std::optional<AudioFacts> audio;
  std::vector<SubtitleFacts> subtitles;
  bool has_location = false;                   ///< carries a place on earth (a GPS tag or telemetry)
  std::optional<std::string> start_time_code;  ///< as carried, "01:00:00;00"
  std::optional<std::string> made_at;          ///< creation time as carried
  std::vector<std::string> remarks;            ///< short phrases on what is unusual but harmless
};

}  // namespace sash::media
