// The main job on a real camera's clip: an Android phone's, variable frame rate, with a location tag.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "flow/handed_over.h"
#include "flow/program.h"
#include "session/scratch.h"
#include "support/text.h"
#include "tools/camera_clip.h"

namespace sash::flow {
namespace {

using nlohmann::json;
using session::Scratch;

class Camera : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto clip = test::camera_clip();
    if (!clip) {
      ASSERT_FALSE(test::must_have_clip()) << test::no_camera_clip;
      GTEST_SKIP() << test::no_camera_clip;
    }
    clip_ = clip->string();
  }

  // Every frame's time as ffprobe lists it, in seconds.
  std::vector<double> listed_times() const {
    std::vector<double> times;
    const std::string listed = output_of({"ffprobe", "-v", "error", "-select_streams", "v:0", "-show_entries",
                                          "frame=best_effort_timestamp_time", "-of", "compact=p=0:nk=1", clip_});
    for (const auto line : split_lines(listed)) {
      const auto cells = split(line, '|');
      if (const auto n = read_number(trim(cells[0]))) times.push_back(*n);
    }
    return times;
  }

  // The pixels of the n-th frame by ffmpeg's own decoder and scaler, told the clip's colours.
  std::string frame_by_ffmpeg(std::size_t n) const {
    return output_of({"ffmpeg", "-v", "error", "-nostdin", "-i", clip_, "-vf",
                      "select=eq(n\\," + std::to_string(n) +
                          "),scale=in_color_matrix=bt709:in_range=tv:out_range=pc:flags=accurate_rnd+full_chroma_int+"
                          "full_chroma_inp+bicubic,format=rgb24",
                      "-vsync", "0", "-frames:v", "1", "-f", "rawvideo", "-"});
  }

  std::string clip_;
};

double mean_difference(const std::string& a, const std::string& b) {
  if (a.size() != b.size() || a.empty()) return 255;
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    sum += std::abs(static_cast<int>(static_cast<unsigned char>(a[i])) - static_cast<unsigned char>(b[i]));
  return sum / static_cast<double>(a.size());
}

TEST_F(Camera, FactsAreThoseOfFfprobe) {
  const json theirs =
      json::parse(output_of({"ffprobe", "-v", "error", "-show_streams", "-show_format", "-of", "json", clip_}));
  const Ran asked = sashline({"footage", clip_, "--json"});
  ASSERT_EQ(asked.code, 0) << asked.err;
  const json ours = json::parse(asked.out);
  for (const auto& stream : theirs.at("streams")) {
    if (stream.at("codec_type") == "video") {
      EXPECT_EQ(ours.at("video").at("codec"), stream.at("codec_name"));
      EXPECT_EQ(ours.at("video").at("width"), stream.at("width"));
      EXPECT_EQ(ours.at("video").at("height"), stream.at("height"));
      EXPECT_EQ(ours.at("video").at("pixel_format"), stream.at("pix_fmt"));
    } else {
      EXPECT_EQ(ours.at("audio").at("codec"), stream.at("codec_name"));
      EXPECT_EQ(std::to_string(ours.at("audio").at("samples_per_second").get<int>()), stream.at("sample_rate"));
      EXPECT_EQ(ours.at("audio").at("channels"), stream.at("channels"));
      EXPECT_EQ(ours.at("audio").at("layout"), stream.at("channel_layout"));
    }
  }
  EXPECT_EQ(std::to_string(ours.at("bytes").get<long>()), theirs.at("format").at("size"));
  EXPECT_NEAR(ours.at("duration").get<double>(), std::stod(theirs.at("format").at("duration").get<std::string>()),
              0.001);
  EXPECT_TRUE(ours.at("video").at("variable_rate").get<bool>());
  EXPECT_TRUE(theirs.at("format").at("tags").contains("location"));
  EXPECT_TRUE(ours.at("carries_location").get<bool>());
  EXPECT_NE(sashline({"footage", clip_})
                .out.find("  carries the place where it was filmed; nothing Sashline exports carries it\n"),
            std::string::npos);
}

TEST_F(Camera, StillIsTheFrameOnScreen) {
  const Scratch scratch;
  const auto times = listed_times();
  ASSERT_EQ(times.size(), 41U) << "the clip's 41 frames";
  const std::string png = scratch.path("still.png");
  for (const std::size_t n : {std::size_t{0}, std::size_t{13}, std::size_t{29}, times.size() - 1}) {
    // Half-way through the frame, and in its very first millisecond.
    const double until = n + 1 < times.size() ? times[n + 1] : times[n] + 0.03;
    for (const double at : {(times[n] + until) / 2, times[n] + 0.001}) {
      const Ran taken = sashline({"still", clip_, "--at", std::to_string(at), "--to", png});
      ASSERT_EQ(taken.code, 0) << taken.err;
      const std::string ours =
          output_of({"ffmpeg", "-v", "error", "-nostdin", "-i", png, "-f", "rawvideo", "-pix_fmt", "rgb24", "-"});
      const double right = mean_difference(ours, frame_by_ffmpeg(n));
      EXPECT_LT(right, 1.0) << "frame " << n << " at " << at;
      EXPECT_GT(mean_difference(ours, frame_by_ffmpeg(n == 0 ? 1 : n - 1)), right + 0.5) << "frame " << n;
    }
  }
}

TEST_F(Camera, NothingHandedOverCarriesWhereItWasFilmed) {
  const std::string tag = json::parse(output_of({"ffprobe", "-v", "error", "-show_format", "-of", "json", clip_}))
                              .at("format")
                              .at("tags")
                              .at("location");
  ASSERT_EQ(tag, "-15.8355-048.0153/");
  const Scratch scratch;
  // The tag, its numbers alone, and the two as degrees, minutes and seconds (15° 50' 7.8", 48° 0' 55.1").
  for (const auto& [name, bytes] : handed_over(scratch, clip_)) {
    for (const char* place : {"15.8355", "48.0153", "15\xC2\xB0", "15 deg", "\xA9xyz", "location-eng"})
      EXPECT_EQ(bytes.find(place), std::string::npos) << name << " carries " << place;
  }
}

}  // namespace
}  // namespace sash::flow
