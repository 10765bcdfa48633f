#include "media/probe.h"

#include <gtest/gtest.h>

#include <map>

#include "clips.h"
#include "support/text.h"

namespace sash::media {
namespace {

using test::clip;

FootageFacts facts_of(const std::string& name) {
  auto facts = probe(clip(name));
  if (!facts) throw std::runtime_error(facts.fault().sentence);
  return std::move(*facts);
}

using Lines = std::map<std::string, std::string>;

/// "key=value" lines of ffprobe for the first stream of a kind ("video", "audio"); none when there is none.
Lines ffprobe_stream(const std::string& name, const std::string& kind) {
  const std::string text = test::output_of("ffprobe -v error -show_streams -of default '" + clip(name).string() + "'");
  Lines values;
  for (const auto line : split_lines(text)) {
    if (line == "[STREAM]") values.clear();
    if (line == "[/STREAM]" && values["codec_type"] == kind) return values;
    const auto equals = line.find('=');
    if (equals != std::string_view::npos) values.emplace(line.substr(0, equals), line.substr(equals + 1));
  }
  return {};
}

class Facts : public testing::TestWithParam<const char*> {};

TEST_P(Facts, AgreeWithFfprobe) {
  const std::string name = GetParam();
  const FootageFacts facts = facts_of(name);
  auto v = ffprobe_stream(name, "video");
  ASSERT_EQ(facts.video.has_value(), !v.empty());
  if (facts.video) {
    EXPECT_EQ(facts.video->codec, v["codec_name"]);
    EXPECT_EQ(std::to_string(facts.video->coded.width), v["width"]);
    EXPECT_EQ(std::to_string(facts.video->coded.height), v["height"]);
    EXPECT_EQ(facts.video->pixel_format, v["pix_fmt"]);
    ASSERT_TRUE(facts.video->rate);
    EXPECT_EQ(std::to_string(facts.video->rate->num) + "/" + std::to_string(facts.video->rate->den),
              v["avg_frame_rate"]);
  }
  auto a = ffprobe_stream(name, "audio");
  ASSERT_EQ(facts.audio.has_value(), !a.empty());
  if (facts.audio) {
    EXPECT_EQ(facts.audio->codec, a["codec_name"]);
    EXPECT_EQ(std::to_string(facts.audio->samples_per_second), a["sample_rate"]);
    EXPECT_EQ(std::to_string(facts.audio->channels), a["channels"]);
  }
  EXPECT_EQ(facts.bytes, static_cast<std::int64_t>(test::fs::file_size(clip(name))));
}

INSTANTIATE_TEST_SUITE_P(Clips, Facts,
                         testing::Values("h264_2997.mp4", "hevc10.mp4", "vp9.webm", "av1.mp4", "prores.mov",
                                         "mjpeg.avi", "h264.ts", "mpeg2.mpg", "vfr.mkv", "rotated.mp4", "h264_444.mp4",
                                         "interlaced.mp4", "silent.mp4", "sound.m4a", "sound.mp3", "sound.wav",
                                         "sound.opus", "sound.ac3", "pq.mp4"),
                         [](const auto& named) {
                           std::string name = named.param;
                           std::replace(name.begin(), name.end(), '.', '_');
                           return name;
                         });

// Expected values below are those the clips were made with (clips.cpp).

TEST(Probe, TellsRateDurationAndDepth) {
  const auto f = facts_of("h264_2997.mp4");
  EXPECT_EQ(f.video->rate, (Rate{30000, 1001}));
  EXPECT_EQ(f.video->bits, 8);
  EXPECT_FALSE(f.video->variable_rate);
  // 3 s of sound; the last picture ends within a frame of it.
  EXPECT_NEAR(f.duration->in_seconds(), 3.0, 0.034);
  EXPECT_EQ(facts_of("hevc10.mp4").video->bits, 10);
}

TEST(Probe, TellsAVariableRateFromASteadyOne) {
  EXPECT_TRUE(facts_of("vfr.mp4").video->variable_rate);
  for (const char* steady :
       {"h264_open_gop.mp4", "hevc10.mkv", "vp9.webm", "h264.ts", "fragmented.mp4", "interlaced.mp4"}) {
    EXPECT_FALSE(facts_of(steady).video->variable_rate) << steady;
  }
}

/// A copy of a clip whose picture track has another display matrix: a, b, c, d as in ISO/IEC 14496-12, 6.2.2
/// (x' = a x + c y, y' = b x + d y, y downward).
test::fs::path with_matrix(const std::string& copy, int a, int b, int c, int d) {
  std::string bytes = test::bytes_of(clip("h264_2997.mp4"));
  const auto fixed = [](int v) { return std::string{static_cast<char>(v >> 8), static_cast<char>(v), '\0', '\0'}; };
  const std::string zero(4, '\0');
  const std::string straight = fixed(1) + zero + zero + zero + fixed(1) + zero;
  const std::size_t at = bytes.find(straight, bytes.find("tkhd"));
  if (at == std::string::npos) throw std::runtime_error("no display matrix in the clip");
  bytes.replace(at, straight.size(), fixed(a) + fixed(b) + zero + fixed(c) + fixed(d) + zero);
  return test::clip_of_bytes(copy, bytes);
}

TEST(Probe, ReadsEveryQuarterTurnAndMirror) {
  struct {
    int a, b, c, d;
    int turn;
    bool mirrored;
  } const cases[] = {{1, 0, 0, 1, 0, false},    {0, 1, -1, 0, 90, false}, {-1, 0, 0, -1, 180, false},
                     {0, -1, 1, 0, 270, false}, {-1, 0, 0, 1, 0, true},   {1, 0, 0, -1, 180, true},
                     {0, -1, -1, 0, 90, true},  {0, 1, 1, 0, 270, true}};
  for (const auto& c : cases) {
    const auto f = probe(with_matrix("turned.mp4", c.a, c.b, c.c, c.d));
    ASSERT_TRUE(f.ok());
    EXPECT_EQ(f->video->turn, c.turn) << c.a << c.b << c.c << c.d;
    EXPECT_EQ(f->video->mirrored, c.mirrored) << c.a << c.b << c.c << c.d;
    EXPECT_EQ(f->video->coded, (Size{320, 180}));
    EXPECT_EQ(f->video->shown, c.turn % 180 == 0 ? (Size{320, 180}) : (Size{180, 320}));
  }
}

TEST(Probe, TurnsAsFfprobeSays) {
  // ffprobe counts anticlockwise.
  const auto rotation = read_integer(ffprobe_stream("rotated.mp4", "video")["rotation"]);
  ASSERT_TRUE(rotation);
  EXPECT_EQ(facts_of("rotated.mp4").video->turn, (360 - *rotation) % 360);
}

TEST(Probe, WidensNarrowPixels) {
  const auto f = facts_of("anamorphic.mp4");
  EXPECT_EQ(f.video->pixel_aspect, (Rate{4, 3}));
  EXPECT_EQ(f.video->shown, (Size{427, 180}));  // 320 * 4/3 = 426.7
}

TEST(Probe, TellsFieldsHdrTimeCodeSubtitlesAndPlace) {
  EXPECT_EQ(facts_of("interlaced.mp4").video->fields, FieldOrder::top_first);
  EXPECT_EQ(facts_of("h264_2997.mp4").video->fields, FieldOrder::progressive);
  EXPECT_EQ(facts_of("pq.mp4").video->hdr, Hdr::pq);
  EXPECT_EQ(facts_of("pq.mp4").video->colour,
            (Colour{Matrix::bt2020, Primaries::bt2020, Transfer::pq, Range::limited}));
  EXPECT_EQ(facts_of("hlg.mp4").video->hdr, Hdr::hlg);
  EXPECT_EQ(facts_of("drop_frame.mov").start_time_code, "01:00:00;02");
  EXPECT_EQ(facts_of("h264_2997.mp4").start_time_code, std::nullopt);
  const auto subtitled = facts_of("subtitled.mkv");
  ASSERT_EQ(subtitled.subtitles.size(), 1U);
  EXPECT_EQ(subtitled.subtitles[0].codec, "subrip");
  EXPECT_EQ(subtitled.subtitles[0].language, "eng");
  EXPECT_TRUE(facts_of("located.mp4").has_location);
  EXPECT_FALSE(facts_of("h264_2997.mp4").has_location);
}

// QuickTime files often count 1/600 s, other editors 1/90000 s: the steps are uneven then, the rate is what was
// recorded.
TEST(Probe, NamesTheRateThatWasRecordedWhateverTheUnitsOfTime) {
  for (const auto& [rate, frames_per_second] : std::vector<std::pair<std::string, Rate>>{{"24000/1001", {24000, 1001}},
                                                                                         {"30000/1001", {30000, 1001}},
                                                                                         {"60000/1001", {60000, 1001}},
                                                                                         {"25", {25, 1}},
                                                                                         {"30", {30, 1}},
                                                                                         {"60", {60, 1}}}) {
    for (const char* units : {"600", "1000", "90000"}) {
      const auto file = test::clip_folder() / "rated.mov";
      test::output_of("ffmpeg -y -nostdin -v error -f lavfi -i testsrc2=size=64x48:rate=" + rate +
                      ":duration=3 -c:v libx264 -preset ultrafast -video_track_timescale " + units + " '" +
                      file.string() + "' 2>&1");
      const auto facts = probe(file);
      ASSERT_TRUE(facts.ok());
      EXPECT_EQ(facts->video->rate, frames_per_second) << rate << " in 1/" << units;
      EXPECT_FALSE(facts->video->variable_rate) << rate << " in 1/" << units;
    }
  }
}

// The frames' own flags, as ffprobe prints them, are the reference.
TEST(Probe, NamesTheFieldShownFirst) {
  for (const std::string kind : {"mov", "mkv"}) {
    for (const std::string first : {"tff", "bff"}) {
      const auto file = test::clip_folder() / ("fields_" + first + "." + kind);
      test::output_of("ffmpeg -y -nostdin -v error -f lavfi -i testsrc2=size=128x96:rate=50:duration=0.4 -vf " +
                      std::string(first == "tff" ? "tinterlace=interleave_top" : "tinterlace=interleave_bottom") +
                      ",setfield=" + first + " -c:v " + (kind == "mov" ? "prores_ks" : "ffv1") + " -flags +ildct '" +
                      file.string() + "' 2>&1");
      const std::string top = test::output_of(
          "ffprobe -v error -read_intervals %+#1 -show_entries frame=top_field_first -of default=nw=1:nk=1 '" +
          file.string() + "'");
      const auto facts = probe(file);
      ASSERT_TRUE(facts.ok());
      EXPECT_EQ(facts->video->fields, trim(top) == "1" ? FieldOrder::top_first : FieldOrder::bottom_first)
          << first << ' ' << kind;
    }
  }
}

TEST(Probe, SaysThatACutFileIsCut) {
  std::string bytes = test::bytes_of(clip("moov_first.mp4"));
  bytes.resize(bytes.size() / 2);
  const auto f = probe(test::clip_of_bytes("cut_with_index.mp4", bytes));
  ASSERT_TRUE(f.ok());
  EXPECT_EQ(f->remarks, std::vector<std::string>{"the file is cut short: it ends before its index says it should"});
  EXPECT_TRUE(facts_of("moov_first.mp4").remarks.empty());
}

TEST(Fingerprint, FollowsTheContentNotTheName) {
  const auto f = facts_of("h264_2997.mp4");
  const std::string bytes = test::bytes_of(clip("h264_2997.mp4"));
  EXPECT_EQ(probe(test::clip_of_bytes("moved.mp4", bytes))->fingerprint, f.fingerprint);
  std::string changed = bytes;
  changed.back() = static_cast<char>(changed.back() ^ 1);
  EXPECT_NE(probe(test::clip_of_bytes("moved.mp4", changed))->fingerprint, f.fingerprint);
  EXPECT_NE(facts_of("h264_open_gop.mp4").fingerprint, f.fingerprint);
}

}  // namespace
}  // namespace sash::media
