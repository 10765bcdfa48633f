// Files that nobody can use: one clear sentence, exit code 2, and nothing made of them.
#include <gtest/gtest.h>

#include "flow/program.h"
#include "session/scratch.h"
#include "support/text.h"

namespace sash::flow {
namespace {

using session::Scratch;

// One line that names the file and ends as a sentence.
void expect_refused(const Ran& ran, const std::string& file, const std::string& words) {
  EXPECT_EQ(ran.code, 2) << file;
  EXPECT_EQ(ran.out, "") << file;
  EXPECT_TRUE(ran.err.starts_with("sashline: ")) << ran.err;
  EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << "more than one line: " << ran.err;
  EXPECT_TRUE(ran.err.ends_with(".\n")) << ran.err;
  EXPECT_NE(ran.err.find(file), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find(words), std::string::npos) << ran.err;
}

// A ZIP archive with one stored entry; bit 0 of its flags says that it needs a password.
// Source: PKWARE APPNOTE 6.3.9, 4.3.7 and 4.4.4.
std::string zip(bool locked) {
  std::string head = "PK\x03\x04";
  head += std::string("\x14\0", 2) + (locked ? std::string("\x01\0", 2) : std::string("\0\0", 2));
  head += std::string(16, '\0') + std::string("\x04\0\0\0", 4) + std::string("\x05\0\0\0", 4) + "a.mp4" + "film";
  return head;
}

TEST(Damaged, FootageIsRefusedInOneSentence) {
  const Scratch scratch;
  const std::string film = bytes_of(fs::path(SASH_DEMO) / "copper-cycle.mp4");
  const auto refuse = [&](const std::string& name, const std::string& bytes, const std::string& words) {
    const std::string path = scratch.write(name, bytes);
    const std::string record = scratch.path(name + ".sash");
    expect_refused(sashline({"footage", path}), path, words);
    expect_refused(sashline({"still", path, "--at", "1", "--to", scratch.path("x.png")}), path, words);
    expect_refused(sashline({"begin", record, "--footage", path}), path, words);
    EXPECT_FALSE(fs::exists(record)) << name;
    EXPECT_FALSE(fs::exists(scratch.path("x.png"))) << name;
  };
  refuse("empty.mp4", "", "is empty (0 bytes)");
  refuse("text.mp4", "Weigh half a gram of copper.\n", "holds plain text");
  refuse("plain.mp4", zip(false), "ZIP archive");
  refuse("locked.mp4", zip(true), "ZIP archive locked with a password");
  refuse("noise.mp4", std::string(5000, '\x07'), "");
}

// Cut anywhere, a film is either refused in one sentence or read as far as it goes.
TEST(Damaged, TruncatedFootageIsRefusedOrReadAsFarAsItGoes) {
  const Scratch scratch;
  const std::string film = bytes_of(fs::path(SASH_DEMO) / "copper-cycle.mp4");
  int refused = 0;
  for (const double share : {0.0005, 0.1, 0.5, 0.999}) {
    const std::string path =
        scratch.write("cut.mp4", film.substr(0, static_cast<std::size_t>(share * static_cast<double>(film.size()))));
    const Ran asked = sashline({"footage", path});
    if (asked.code == 2) {
      ++refused;
      expect_refused(asked, path, "");
    } else {
      EXPECT_EQ(asked.code, 0);
      EXPECT_EQ(asked.err, "");
    }
  }
  EXPECT_GE(refused, 1) << "half a kilobyte holds no film";
}

TEST(Damaged, RecordsAreRefusedInOneSentence) {
  const Scratch scratch;
  const auto refuse = [&](const std::string& name, const std::string& bytes) {
    const std::string path = scratch.write(name, bytes);
    for (const auto& command : {std::vector<std::string>{"check", path},
                                std::vector<std::string>{"script", path, "--to", scratch.path("out")},
                                std::vector<std::string>{"record", path, "--to", scratch.path("out.json")}})
      expect_refused(sashline(command), path, "");
    EXPECT_TRUE(bytes_of(path) == bytes) << name << " was changed";
    EXPECT_FALSE(fs::exists(scratch.path("out")));
    EXPECT_FALSE(fs::exists(scratch.path("out.json")));
  };
  refuse("empty.sash", "");
  refuse("text.sash", "Weigh half a gram of copper.\n");
  refuse("zip.sash", zip(false));
  refuse("film.sash", bytes_of(fs::path(SASH_DEMO) / "copper-cycle.mp4").substr(0, 20000));
  // A database of somebody else.
  const std::string other = scratch.path("other.db");
  output_of({"sqlite3", other, "CREATE TABLE bottle (label TEXT); INSERT INTO bottle VALUES ('ether');"});
  refuse("other.sash", bytes_of(other));
}

TEST(Damaged, NarrationIsRefusedInOneSentence) {
  const Scratch scratch;
  const std::string record = scratch.path("a.sash");
  for (const auto& [name, bytes] :
       {std::pair<std::string, std::string>{"empty.srt", ""},
        {"empty.vtt", "WEBVTT\n"},
        {"film.srt", bytes_of(fs::path(SASH_DEMO) / "copper-cycle.mp4").substr(0, 20000)}}) {
    const std::string path = scratch.write(name, bytes);
    expect_refused(sashline({"begin", record, "--narration", path}), name, "");
    EXPECT_FALSE(fs::exists(record)) << name;
  }
}

}  // namespace
}  // namespace sash::flow
