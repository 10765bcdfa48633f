// Commands given files that are missing, empty or something else: one sentence, exit code 2, nothing written.
#include "cli/said.h"
#include "session/scratch.h"

namespace sash::cli {
namespace {

using session::Scratch;

TEST(MissingFiles, AreNamed) {
  const Scratch scratch;
  const std::string clip = scratch.path("none.mp4");
  const std::string record = scratch.path("none.sash");
  const Said no_clip = fault("There is no file '" + clip + "'; check the path or find the footage again.");
  const Said no_record = fault("There is no file '" + record + "'; check the name, or begin a record there.");
  EXPECT_EQ(said({"footage", clip}), no_clip);
  EXPECT_EQ(said({"still", clip, "--at", "0", "--to", scratch.path("a.png")}), no_clip);
  EXPECT_EQ(said({"check", record}), no_record);
  EXPECT_EQ(said({"script", record, "--to", scratch.path("out")}), no_record);
  EXPECT_EQ(said({"record", record, "--to", "-"}), no_record);
  for (const char* never : {"a.png", "out", "none.sash"})
    EXPECT_FALSE(std::filesystem::exists(scratch.path(never))) << never;
}

TEST(MissingFiles, TextIsNoFootage) {
  const Scratch scratch;
  const std::string text = scratch.write("notes.mp4", "Weigh half a gram of copper.\n");
  EXPECT_EQ(said({"footage", text}),
            fault("'" + text + "' holds plain text, not footage; open the media file itself."));
}

TEST(MissingFiles, TextIsNoRecord) {
  const Scratch scratch;
  const std::string text = scratch.write("notes.sash", "Weigh half a gram of copper.\n");
  EXPECT_EQ(said({"check", text}), fault("The file '" + text + "' is not a Sashline record; choose a .sash file."));
}

TEST(MissingFiles, ARecordIsNotMadeFromWhatIsNotItsJson) {
  const Scratch scratch;
  const std::string record = scratch.path("new.sash");
  const Said told = said({"record", record, "--from", scratch.write("a.json", "{\"half\": ")});
  EXPECT_EQ(told.code, failed);
  EXPECT_EQ(told.out, "");
  EXPECT_TRUE(told.err.starts_with("sashline: ")) << told.err;
  EXPECT_FALSE(std::filesystem::exists(record));
}

TEST(MissingFiles, BeginLeavesNothingWhenTheFootageIsMissing) {
  const Scratch scratch;
  const std::string record = scratch.path("new.sash");
  const Said told = said({"begin", record, "--footage", scratch.path("none.mp4")});
  EXPECT_EQ(told,
            fault("There is no file '" + scratch.path("none.mp4") + "'; check the path or find the footage again."));
  EXPECT_FALSE(std::filesystem::exists(record)) << "half a record was left";
}

TEST(MissingFiles, ARecordThatIsThereIsNotWrittenOver) {
  const Scratch scratch;
  const std::string record = scratch.write("old.sash", "something of mine");
  EXPECT_EQ(said({"begin", record}).code, failed);
  std::ifstream in(record);
  std::string kept;
  std::getline(in, kept);
  EXPECT_EQ(kept, "something of mine");
}

}  // namespace
}  // namespace sash::cli
