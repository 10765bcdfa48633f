// Footage that says where it was filmed, by each of the ways cameras, phones and editors write that; and the same
// without.
#include <gtest/gtest.h>

#include "clips.h"
#include "media/probe.h"
#include "support/text.h"

namespace sash::media {
namespace {

using test::clip;

/// A clip from ffmpeg's arguments; `{x}` is the small source clip.
test::fs::path made(const std::string& name, const std::string& arguments) {
  const auto file = test::clip_folder() / name;
  test::output_of("ffmpeg -y -nostdin -v error " + arguments + " '" + file.string() + "' 2>&1");
  return file;
}

bool names_a_place(const test::fs::path& file) {
  const auto facts = probe(file);
  EXPECT_TRUE(facts.ok()) << (facts.ok() ? "" : facts.fault().sentence);
  return facts.ok() && facts->has_location;
}

std::string source() { return "-i '" + clip("tiny.mp4").string() + "' -c copy "; }

std::string little_endian(std::uint32_t value, int bytes) {
  std::string out;
  for (int i = 0; i < bytes; ++i) out += static_cast<char>(value >> (8 * i) & 0xFF);
  return out;
}

/// An APP1 segment with a latitude of 48 degrees north. Source of the layout: CIPA DC-008 (Exif 2.32), 4.5.2 and 4.6.
std::string exif_segment(bool with_gps) {
  std::string tiff = "II*" + std::string(1, '\0') + little_endian(8, 4);
  const std::uint32_t gps_at = 8 + 2 + 12 + 4;
  // Without a place: the orientation instead of the pointer.
  tiff += little_endian(1, 2);
  tiff += with_gps ? little_endian(0x8825, 2) + little_endian(4, 2) + little_endian(1, 4) + little_endian(gps_at, 4)
                   : little_endian(0x0112, 2) + little_endian(3, 2) + little_endian(1, 4) + little_endian(1, 4);
  tiff += little_endian(0, 4);
  if (with_gps) {
    const std::uint32_t numbers_at = gps_at + 2 + 2 * 12 + 4;
    tiff += little_endian(2, 2);
    tiff += little_endian(1, 2) + little_endian(2, 2) + little_endian(2, 4) + std::string("N\0\0\0", 4);
    tiff += little_endian(2, 2) + little_endian(5, 2) + little_endian(3, 4) + little_endian(numbers_at, 4);
    tiff += little_endian(0, 4);
    for (const std::uint32_t part : {48U, 12U, 30U}) tiff += little_endian(part, 4) + little_endian(1, 4);
  }
  const std::string inside = std::string("Exif\0\0", 6) + tiff;
  const auto length = static_cast<std::uint32_t>(inside.size() + 2);
  return std::string("\xFF\xE1") + static_cast<char>(length >> 8) + static_cast<char>(length & 0xFF) + inside;
}

test::fs::path jpeg(bool with_gps) {
  const auto plain = made("plain.jpg", "-f lavfi -i testsrc2=size=64x48 -frames:v 1 -c:v mjpeg -f image2");
  std::string bytes = test::bytes_of(plain);
  bytes.insert(2, exif_segment(with_gps));
  return test::clip_of_bytes(with_gps ? "placed.jpg" : "turned.jpg", bytes);
}

TEST(Place, IsSeenInTheTagsOfTheContainer) {
  EXPECT_TRUE(names_a_place(made("xyz.mp4", source() + "-metadata location=+48.2000+016.3667/")));
  EXPECT_TRUE(names_a_place(made("xyz.mov", source() + "-metadata location=+48.2000+016.3667/")));
  EXPECT_TRUE(names_a_place(made("keys.mov", source() + "-movflags use_metadata_tags -metadata "
                                                        "com.apple.quicktime.location.ISO6709=+48.2000+016.3667/")));
  EXPECT_TRUE(names_a_place(made("global.mkv", source() + "-metadata LOCATION=48.2,16.4")));
  EXPECT_TRUE(names_a_place(made("official.mkv", source() + "-metadata RECORDING_LOCATION=Vienna")));
  EXPECT_TRUE(names_a_place(made("stream.mkv", source() + "-metadata:s:v GPS_LATITUDE=48.2")));
  EXPECT_FALSE(names_a_place(made("titled.mp4", source() + "-metadata title=Copper -metadata comment=Bench")));
  EXPECT_FALSE(names_a_place(made("titled.mkv", source() + "-metadata title=Copper -metadata comment=Bench")));
}

TEST(Place, IsSeenInThePicturesOfMotionJpeg) {
  for (const std::string kind : {"avi", "mov", "mkv"}) {
    for (const bool with_gps : {true, false}) {
      const auto file = made((with_gps ? "placed." : "turned.") + kind,
                             "-loop 1 -framerate 25 -t 0.4 -i '" + jpeg(with_gps).string() + "' -c copy");
      // ffprobe's own reading of EXIF is the reference.
      const std::string tags =
          test::output_of("ffprobe -v error -show_frames -read_intervals %+#1 '" + file.string() + "'");
      ASSERT_EQ(tags.find("GPSLatitude") != std::string::npos, with_gps) << kind;
      EXPECT_EQ(names_a_place(file), with_gps) << kind;
    }
  }
}

TEST(Place, IsSeenInCoverPictures) {
  const std::string sound = "-f lavfi -i sine=duration=0.4 ";
  for (const bool with_gps : {true, false}) {
    const std::string name = with_gps ? "placed_" : "turned_";
    const std::string picture = "'" + jpeg(with_gps).string() + "'";
    const std::string cover = "-map 0 -map 1 -c:v copy -disposition:v attached_pic ";
    EXPECT_EQ(names_a_place(made(name + "cover.m4a", sound + "-i " + picture + " " + cover + "-c:a aac")), with_gps);
    EXPECT_EQ(names_a_place(made(name + "cover.mp3", sound + "-i " + picture + " " + cover + "-c:a libmp3lame")),
              with_gps);
    EXPECT_EQ(names_a_place(made(name + "cover.mkv", source() + "-attach " + picture +
                                                         " -metadata:s:t mimetype=image/jpeg -metadata:s:t "
                                                         "filename=cover.jpg")),
              with_gps);
  }
}

// A box of its own kind at the end of the file, as editing programs append XMP (ISO 16684-1 names the property).
TEST(Place, IsSeenInXmpBesideTheStreams) {
  const auto with_box = [](const std::string& name, const std::string& property) {
    const std::string xmp = "<x:xmpmeta xmlns:x='adobe:ns:meta/'><rdf:Description " + property + "/></x:xmpmeta>";
    const auto length = static_cast<std::uint32_t>(8 + 16 + xmp.size());
    std::string box;
    for (int i = 3; i >= 0; --i) box += static_cast<char>(length >> (8 * i) & 0xFF);
    box += "uuid\xBE\x7A\xCF\xCB\x97\xA9\x42\xE8\x9C\x71\x99\x94\x91\xE3\xAF\xAC" + xmp;
    return test::clip_of_bytes(name, test::bytes_of(clip("tiny.mp4")) + box);
  };
  EXPECT_TRUE(names_a_place(with_box("xmp_place.mp4", "exif:GPSLatitude='48,12.5N'")));
  EXPECT_FALSE(names_a_place(with_box("xmp_title.mp4", "dc:title='Copper'")));
}

}  // namespace
}  // namespace sash::media
