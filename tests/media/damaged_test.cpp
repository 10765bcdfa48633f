// What is no footage, or no longer: one sentence each, compared whole.
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "clips.h"
#include "media/index_builder.h"
#include "media/inner/exact.h"
#include "media/probe.h"
#include "media/stills.h"
#include "media/waveform.h"

namespace sash::media {
namespace {

using test::clip;
using test::clip_of_bytes;

void expect_fault(const test::fs::path& file, Code code, const std::string& sentence) {
  const auto facts = probe(file);
  ASSERT_FALSE(facts.ok());
  EXPECT_EQ(facts.fault().code, code);
  EXPECT_EQ(facts.fault().sentence, sentence);
  Progress progress;
  EXPECT_FALSE(build_frame_index(file, progress).ok());
  EXPECT_FALSE(make_waveform(file, progress).ok());
  EXPECT_FALSE(still_at(file, Moment(), {}, Quality::fast, nullptr, progress).ok());
}

std::string q(const test::fs::path& file) { return "'" + file.string() + "'"; }

TEST(Damaged, MissingFile) {
  expect_fault("no/such.mp4", Code::not_found,
               "There is no file 'no/such.mp4'; check the path or find the footage again.");
}

TEST(Damaged, Folder) {
  expect_fault(test::clip_folder(), Code::wrong_use,
               q(test::clip_folder()) + " is a folder, not footage; choose a file inside it.");
}

TEST(Damaged, PipeDoesNotHang) {
  const auto pipe = test::clip_folder() / "pipe.mp4";
  ::unlink(pipe.c_str());
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  expect_fault(pipe, Code::wrong_use, q(pipe) + " is not an ordinary file; copy the footage to a file and open that.");
}

TEST(Damaged, EmptyFile) {
  const auto file = clip_of_bytes("empty.mp4", "");
  expect_fault(file, Code::damaged, "The file " + q(file) + " is empty (0 bytes); copy it from the camera again.");
}

TEST(Damaged, TextNamedAsFootage) {
  const auto file =
      clip_of_bytes("notes.mp4", "Weighed 2.5 g of copper wire.\nAdded 20 mL of nitric acid (μ = 1.2).\n");
  expect_fault(file, Code::unsupported, q(file) + " holds plain text, not footage; open the media file itself.");
}

// Local file headers by PKWARE's APPNOTE, 4.3.7: signature, version, flags (bit 0: encrypted), method, ...
TEST(Damaged, ZipNamedAsFootage) {
  const std::string rest = std::string("\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00", 14) + "clip.mov";
  const auto open = clip_of_bytes("packed.mp4", std::string("PK\x03\x04\x14\x00\x00\x00\x08\x00", 10) + rest);
  expect_fault(open, Code::unsupported,
               q(open) + " is a ZIP archive, not footage; unpack it and open the file inside.");
  const auto locked = clip_of_bytes("locked.mp4", std::string("PK\x03\x04\x14\x00\x01\x00\x08\x00", 10) + rest);
  expect_fault(
      locked, Code::unsupported,
      q(locked) +
          " is a ZIP archive locked with a password, not footage; unpack it with its password and open the file "
          "inside.");
}

TEST(Damaged, CutBeforeItsIndex) {
  std::string bytes = test::bytes_of(clip("moov_last.mp4"));
  bytes.resize(bytes.size() / 2);
  const auto file = clip_of_bytes("cut_without_index.mp4", bytes);
  expect_fault(
      file, Code::damaged,
      "The file " + q(file) +
          " is cut short: its index (the 'moov' box, written last) is missing, so nothing in it can be played; copy it "
          "from the camera again.");
}

TEST(Damaged, BytesOfNoFormat) {
  std::string bytes;
  for (int i = 0; i < 5000; ++i) bytes += static_cast<char>(i * 7919 >> 3);
  bytes[0] = '\x01';
  const auto file = clip_of_bytes("noise.mp4", bytes);
  expect_fault(file, Code::unsupported,
               q(file) + " is no media file known here, or its start is damaged; open the original from the camera.");
}

TEST(Damaged, CodecNobodyDecodes) {
  std::string bytes = test::bytes_of(clip("silent.mp4"));
  for (std::size_t at = bytes.find("avc1", bytes.find("stsd")); at != std::string::npos; at = std::string::npos) {
    bytes.replace(at, 4, "zq9x");
  }
  const auto file = clip_of_bytes("strange_codec.mp4", bytes);
  const auto facts = probe(file);
  ASSERT_FALSE(facts.ok());
  EXPECT_EQ(facts.fault().code, Code::unsupported);
  EXPECT_EQ(facts.fault().sentence,
            "The picture of " + q(file) +
                " is in a format tagged 'zq9x', which cannot be decoded here; convert it to H.264 and "
                "open that.");
}

TEST(Damaged, NeitherPictureNorSound) {
  const auto file = test::clip_folder() / "only_captions.mkv";
  test::output_of("ffmpeg -y -nostdin -v error -i '" + clip("captions.srt").string() + "' -c:s srt '" + file.string() +
                  "' 2>&1");
  expect_fault(file, Code::unsupported, q(file) + " holds neither picture nor sound; open the media file itself.");
}

TEST(Damaged, SoundAloneHasNoFrames) {
  const auto file = clip("sound.mp3");
  Progress progress;
  EXPECT_EQ(build_frame_index(file, progress).fault().sentence,
            q(file) + " has sound only: there are no frames to find.");
  EXPECT_EQ(still_at(file, Moment(), {}, Quality::fast, nullptr, progress).fault().sentence,
            q(file) + " has sound only: there is no picture to show.");
  EXPECT_EQ(make_waveform(clip("silent.mp4"), progress).fault().sentence, q(clip("silent.mp4")) + " has no sound.");
}

TEST(Damaged, CancelledWorkSaysSo) {
  Progress progress;
  progress.cancel();
  const auto file = clip("h264_2997.mp4");
  const std::string sentence = "Reading " + q(file) + " was stopped.";
  EXPECT_EQ(build_frame_index(file, progress).fault().sentence, sentence);
  EXPECT_EQ(make_waveform(file, progress).fault().sentence, sentence);
  EXPECT_EQ(probe(file, progress).fault().sentence, sentence);
}

/// Frames decodable from what is left of a clip, each checked against the whole clip's listing.
void expect_playable_to_the_cut(const std::string& whole_name, const test::fs::path& cut) {
  const auto times = test::listed_times(clip(whole_name));
  const auto hashes = test::listed_hashes(clip(whole_name));
  Progress progress;
  auto index = build_frame_index(cut, progress);
  ASSERT_TRUE(index.ok()) << index.fault().sentence;
  ASSERT_GT(index->count(), 10U);
  ASSERT_LT(index->count(), times.size());
  auto reader = inner::VideoReader::open(cut, {.threads = 1, .deinterlace = false}, {});
  ASSERT_TRUE(reader.ok());
  const std::size_t count = index->count();
  reader->use_index(std::make_shared<const FrameIndex>(std::move(*index)));
  // The frames next to the cut may have lost what they lean on; all others must be right.
  for (const std::size_t i : {count / 2, std::size_t{0}, count - 5, count / 3}) {
    const auto found = inner::find_picture(*reader, reader->index()->frame(i).at, Moment(), {});
    ASSERT_TRUE(found.ok() && *found != nullptr);
    EXPECT_EQ((*found)->at, times[i]);
    EXPECT_EQ(test::md5_of(**found), hashes[i]) << "frame " << i << " of " << count;
  }
}

TEST(Damaged, CutFilesPlayToTheCut) {
  for (const char* name : {"moov_first.mp4", "fragmented.mp4", "hevc10.mkv", "h264_open_gop.ts"}) {
    SCOPED_TRACE(name);
    std::string bytes = test::bytes_of(clip(name));
    bytes.resize(bytes.size() * 6 / 10);
    expect_playable_to_the_cut(name, clip_of_bytes(std::string("cut_") + name, bytes));
  }
}

TEST(Damaged, AStreamJoinedInTheMiddleBeginsAtItsFirstKey) {
  const std::string whole = "h264_open_gop.ts";
  const auto hashes = test::listed_hashes(clip(whole));
  std::string bytes = test::bytes_of(clip(whole));
  bytes.erase(0, bytes.size() / 3 / 188 * 188);
  const auto file = clip_of_bytes("joined_late.ts", bytes);
  Progress progress;
  auto index = build_frame_index(file, progress);
  ASSERT_TRUE(index.ok()) << index.fault().sentence;
  auto reader = inner::VideoReader::open(file, {.threads = 2, .deinterlace = false}, {});
  ASSERT_TRUE(reader.ok());
  reader->use_index(std::make_shared<const FrameIndex>(*index));
  // Same content from the first whole frame to the end, in order.
  const std::size_t skipped = hashes.size() - index->count();
  ASSERT_GT(skipped, 0U);
  for (std::size_t i = 0; i < index->count(); ++i) {
    const auto found = inner::find_picture(*reader, index->frame(i).at, Moment(), {});
    ASSERT_TRUE(found.ok() && *found != nullptr);
    EXPECT_EQ(test::md5_of(**found), hashes[skipped + i]) << i;
  }
}

}  // namespace
}  // namespace sash::media
