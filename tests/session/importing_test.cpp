#include "session/importing.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "narration/read.h"
#include "session/scratch.h"

namespace sash::session {
namespace {

NewNumber counter() {
  return [next = std::int64_t{1}](const model::Thing&) mutable { return next++; };
}

/// One line, from 1 to 4 seconds.
narration::NarrationText hello() {
  narration::NarrationText text;
  model::NarrationLine line;
  line.when = {Moment::seconds(1), Moment::seconds(4)};
  line.text = "hello";
  text.lines = {line};
  return text;
}

TEST(Importing, TellsFilesApartByContentThenByEnding) {
  const Scratch scratch;
  EXPECT_EQ(what_file_is(scratch.write("a.bin", "WEBVTT\n\n00:00.000 --> 00:01.000\nx")), FileIs::narration);
  EXPECT_EQ(what_file_is(scratch.write("a.srt", "1\n00:00:00,000 --> 00:00:01,000\nx")), FileIs::narration);
  EXPECT_EQ(what_file_is(scratch.write("a.dat", std::string("SQLite format 3\0rest", 20))), FileIs::record);
  EXPECT_EQ(what_file_is(scratch.write("a.mp4", "whatever")), FileIs::footage);
  EXPECT_EQ(what_file_is(scratch.path("missing.vtt")), FileIs::narration);
}

TEST(Importing, NarrationWithoutFootageWaitsForIt) {
  narration::NarrationText text = hello();
  const auto ids = counter();
  model::Record r;
  ASSERT_TRUE(model::apply(add_narration(r, ids, {}, "talk.srt", text).edit, r).ok());
  ASSERT_EQ(r.footages.size(), 1U);
  EXPECT_TRUE(r.footages[0].path.empty());
  EXPECT_EQ(r.footages[0].duration, Moment::seconds(4));

  media::FootageFacts facts;
  facts.duration = Moment::seconds(9);
  facts.fingerprint = "f";
  ASSERT_TRUE(model::apply(add_footage(r, ids, "clip.mp4", facts).edit, r).ok());
  ASSERT_EQ(r.footages.size(), 1U) << "the footage takes the place that waited for it";
  EXPECT_EQ(r.footages[0].path, "clip.mp4");
  EXPECT_EQ(r.lines[0].footage, r.footages[0].id);
}

TEST(Importing, LinesAlreadyThereAreNotTakenTwice) {
  narration::NarrationText text = hello();
  const auto ids = counter();
  model::Record r;
  ASSERT_TRUE(model::apply(add_narration(r, ids, {}, "talk.srt", text).edit, r).ok());
  EXPECT_TRUE(add_narration(r, ids, r.footages[0].id, "talk.srt", text).edit.empty());
}

TEST(Importing, NarrationThatWaitsForItsFootageIsAsLongAsAllThatIsSaid) {
  narration::NarrationText text = hello();
  const auto ids = counter();
  model::Record r;
  ASSERT_TRUE(model::apply(add_narration(r, ids, {}, "talk.srt", text).edit, r).ok());
  text.lines[0].when = {Moment::seconds(60), Moment::seconds(65)};
  ASSERT_TRUE(model::apply(add_narration(r, ids, r.footages[0].id, "more.srt", text).edit, r).ok());
  EXPECT_EQ(r.footages[0].duration, Moment::seconds(65));
  r.footages[0].path = "talk.mp4";
  text.lines[0].when = {Moment::seconds(70), Moment::seconds(75)};
  ASSERT_TRUE(model::apply(add_narration(r, ids, r.footages[0].id, "end.srt", text).edit, r).ok());
  EXPECT_EQ(r.footages[0].duration, Moment::seconds(65)) << "a clip is as long as it is";
}

TEST(Importing, CaptionsFindTheFootageOfTheSameName) {
  model::Record r;
  r.footages = {{{1}, "day one.mp4", "", "", {}, 0}, {{2}, "day two.mp4", "", "", {}, 1}};
  EXPECT_EQ(footage_for_narration(r, "/x/day two.srt", {1}), model::FootageId{2});
  EXPECT_EQ(footage_for_narration(r, "/x/other.srt", {2}), model::FootageId{2});
  EXPECT_EQ(footage_for_narration(r, "/x/other.srt", {}), model::FootageId{1});
  EXPECT_EQ(footage_for_narration({}, "/x/other.srt", {}), model::FootageId{});
}

TEST(Importing, OfAFarTooLongNarrationTheBeginningComesIn) {
  const Scratch scratch;
  std::string text;
  for (int i = 0; text.size() <= narration::most_bytes; ++i)
    text += "[" + std::to_string(i / 60) + ":" + (i % 60 < 10 ? "0" : "") + std::to_string(i % 60) +
            "] And then we add four grams of the salt to what is in the beaker and stir.\n";
  const std::string path = scratch.write("long.txt", text);
  std::filesystem::resize_file(path, 200u << 20);
  const auto read = read_narration_file(path);
  ASSERT_TRUE(read.ok()) << read.fault().sentence;
  EXPECT_GT(read->lines.size(), 100'000U);
  ASSERT_EQ(read->warnings.size(), 1U);
  EXPECT_NE(read->warnings[0].find("long.txt has 200 MB, far more than a narration: its first 12 MB were read"),
            std::string::npos)
      << read->warnings[0];
}

}  // namespace
}  // namespace sash::session
