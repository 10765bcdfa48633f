// Footage made with a place in it, by the ways a phone's clip does not show: the notice when it comes in, and nothing
// of it in anything handed over.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "flow/handed_over.h"
#include "flow/program.h"

namespace sash::flow {
namespace {

using session::Scratch;

std::string film(const Scratch& scratch, const std::string& name, const std::vector<std::string>& arguments) {
  std::vector<std::string> command{"ffmpeg", "-y", "-nostdin", "-v", "error"};
  command.insert(command.end(), arguments.begin(), arguments.end());
  command.push_back(scratch.path(name));
  output_of(command);
  return scratch.path(name);
}

/// A JPEG whose EXIF block says 48° 12' 30" north. Layout: CIPA DC-008 (Exif 2.32), 4.5.2 and 4.6.
std::string placed_jpeg(const Scratch& scratch) {
  using namespace std::string_literals;
  std::string bytes = bytes_of(
      film(scratch, "plain.jpg", {"-f", "lavfi", "-i", "testsrc2=size=64x48", "-frames:v", "1", "-f", "image2"}));
  bytes.insert(2,
               "\xFF\xE1\0\x5E"s
               "Exif\0\0"s
               "II*\0\x08\0\0\0"s
               "\x01\0\x25\x88\x04\0\x01\0\0\0\x1A\0\0\0\0\0\0\0"s
               "\x02\0\x01\0\x02\0\x02\0\0\0N\0\0\0\x02\0\x05\0\x03\0\0\0\x38\0\0\0\0\0\0\0"s
               "\x30\0\0\0\x01\0\0\0\x0C\0\0\0\x01\0\0\0\x1E\0\0\0\x01\0\0\0"s
               "\0\0\0\0"s);
  return scratch.write("placed.jpg", bytes);
}

void expect_kept_back(const Scratch& scratch, const std::string& clip) {
  const auto all = handed_over(scratch, clip);
  EXPECT_NE(all.at("begin").find("carries the place where it was filmed; nothing exported will carry it"),
            std::string::npos)
      << all.at("begin");
  EXPECT_TRUE(nlohmann::json::parse(all.at("footage")).at("carries_location").get<bool>());
  for (const auto& [name, bytes] : all) {
    for (const char* place : {"48.2083", "16.3731", "Exif", "GPSLat", "ISO6709", "LOCATION"})
      EXPECT_EQ(bytes.find(place), std::string::npos) << name << " carries " << place;
  }
}

const std::vector<std::string> picture{"-f", "lavfi", "-i", "testsrc2=size=160x96:rate=25:duration=2"};

std::vector<std::string> with(std::vector<std::string> begin, const std::vector<std::string>& end) {
  begin.insert(begin.end(), end.begin(), end.end());
  return begin;
}

TEST(PlaceKeptBack, OfQuickTimeKeys) {
  const Scratch scratch;
  expect_kept_back(scratch, film(scratch, "clip.mov",
                                 with(picture, {"-c:v", "libx264", "-movflags", "use_metadata_tags", "-metadata",
                                                "com.apple.quicktime.location.ISO6709=+48.2083+016.3731/"})));
}

TEST(PlaceKeptBack, OfMatroskaTags) {
  const Scratch scratch;
  expect_kept_back(
      scratch, film(scratch, "clip.mkv", with(picture, {"-c:v", "libx264", "-metadata", "LOCATION=48.2083 16.3731"})));
}

TEST(PlaceKeptBack, OfThePicturesOfMotionJpeg) {
  const Scratch scratch;
  expect_kept_back(scratch,
                   film(scratch, "clip.avi",
                        {"-loop", "1", "-framerate", "25", "-t", "2", "-i", placed_jpeg(scratch), "-c", "copy"}));
}

TEST(PlaceKeptBack, OfTheCoverPicture) {
  const Scratch scratch;
  expect_kept_back(scratch, film(scratch, "clip.mp4",
                                 with(picture, {"-i", placed_jpeg(scratch), "-map", "0", "-map", "1", "-c:v:0",
                                                "libx264", "-c:v:1", "copy", "-disposition:v:1", "attached_pic"})));
}

}  // namespace
}  // namespace sash::flow
