// What is handed over: every file, the same bytes each time, in the forms that players and browsers accept.
#include <gtest/gtest.h>

#include <regex>

#include "flow/caption_rules.h"
#include "flow/program.h"
#include "session/scratch.h"
#include "support/text.h"

namespace sash::flow {
namespace {

using session::Scratch;

const std::vector<std::string> names{"callouts.srt",  "callouts.vtt",  "chapters.txt", "figures.csv",
                                     "narration.srt", "narration.vtt", "record.json",  "script.html"};

class Script : public ::testing::Test {
 protected:
  Script() : folder_(scratch_.path("script")) {
    const Ran written = sashline({"script", demo_record().string(), "--to", folder_});
    EXPECT_EQ(written.code, 0) << written.err;
    EXPECT_EQ(written.out, "The script is in " + folder_ + "\n");
  }
  std::string file(const std::string& name) const { return bytes_of(fs::path(folder_) / name); }

  Scratch scratch_;
  std::string folder_;
};

TEST_F(Script, HoldsEveryFileAndNoOther) {
  std::vector<std::string> found;
  for (const auto& entry : fs::directory_iterator(folder_)) found.push_back(entry.path().filename().string());
  std::sort(found.begin(), found.end());
  EXPECT_EQ(found, names);
}

TEST_F(Script, IsTheSameBytesEachTime) {
  const std::string again = scratch_.path("again");
  ASSERT_EQ(sashline({"script", demo_record().string(), "--to", again}).code, 0);
  for (const auto& name : names) EXPECT_TRUE(bytes_of(fs::path(again) / name) == file(name)) << name;
}

TEST_F(Script, PageNeedsNothingElse) {
  const std::string html = file("script.html");
  const auto pictures = [&] {
    std::size_t n = 0;
    for (std::size_t at = 0; (at = html.find("src=\"data:image/jpeg;base64,", at)) != std::string::npos; ++at) ++n;
    return n;
  }();
  EXPECT_GT(pictures, 5U) << "stills belong in it";
  // Attributes and CSS that could fetch something: only data: and places on the page itself are allowed.
  static const std::regex fetching(
      R"re((?:\s(?:src|href|srcset|poster|data|action|background|xlink:href)\s*=\s*["']?|url\(\s*["']?|@import\s*)(.{0,6}))re",
      std::regex::icase);
  std::string lean;  // the page without the bytes of its pictures, which make the search slow
  for (std::size_t at = 0; at < html.size();) {
    const auto picture = html.find(";base64,", at);
    lean += html.substr(at, picture == std::string::npos ? picture : picture + 8 - at);
    if (picture == std::string::npos) break;
    at = html.find_first_of("\"')", picture);
  }
  for (std::sregex_iterator it(lean.begin(), lean.end(), fetching), end; it != end; ++it) {
    const std::string to = (*it)[1].str();
    EXPECT_TRUE(to.starts_with("#") || to.starts_with("data:")) << it->str();
  }
  for (const char* never : {"<script", "<link", "<iframe", "<object", "<embed", "<base", "http-equiv=\"refresh",
                            "javascript:", " onload=", " onclick=", " onerror="})
    EXPECT_EQ(lean.find(never), std::string::npos) << never;
}

TEST_F(Script, PageSaysWhatWasFound) {
  const std::string html = file("script.html");
  for (const char* words : {"The copper cycle", "The sodium hydroxide", "(60.0 ± 2.1) mmol", "110.4",
                            "hydrogen from zinc", "brown fume of nitrogen dioxide", "Poisonous brown gas"})
    EXPECT_NE(html.find(words), std::string::npos) << words;
}

TEST_F(Script, CaptionsKeepTheRulesOfWebVttAndSubRip) {
  for (const std::string what : {"narration", "callouts"}) {
    const auto vtt = read_webvtt_strictly(file(what + ".vtt"));
    const auto srt = read_subrip_strictly(file(what + ".srt"));
    EXPECT_EQ(vtt.offences, std::vector<std::string>{}) << what;
    EXPECT_EQ(srt.offences, std::vector<std::string>{}) << what;
    ASSERT_EQ(vtt.cues.size(), srt.cues.size());
    EXPECT_EQ(vtt.cues.size(), what == "callouts" ? 6U : vtt.cues.size());
    EXPECT_GT(vtt.cues.size(), 5U);
    for (std::size_t i = 0; i < vtt.cues.size(); ++i) {
      EXPECT_EQ(vtt.cues[i].from_ms, srt.cues[i].from_ms);
      EXPECT_EQ(vtt.cues[i].until_ms, srt.cues[i].until_ms);
    }
  }
}

// ffmpeg reads both forms; it forgives more than the rules do, so this only adds to the test above.
TEST_F(Script, CaptionsAreReadByAnotherProgram) {
  for (const char* name : {"narration.vtt", "narration.srt", "callouts.vtt", "callouts.srt"}) {
    const std::string path = (fs::path(folder_) / name).string();
    const std::string packets =
        output_of({"ffprobe", "-v", "error", "-show_entries", "packet=pts_time", "-of", "compact=p=0:nk=1", path});
    const auto cues = std::string(name).ends_with("vtt") ? read_webvtt_strictly(file(name)).cues
                                                         : read_subrip_strictly(file(name)).cues;
    std::size_t lines = 0;
    for (const auto line : split_lines(packets)) lines += trim(line).empty() ? 0 : 1;
    EXPECT_EQ(lines, cues.size()) << name;
  }
}

// Custom of video hosts: one line a chapter, the first at 0:00, times rising, at least three (common practice).
TEST_F(Script, ChaptersBeginAtZeroAndRise) {
  static const std::regex form(R"((?:(\d+):)?(\d{1,2}):(\d{2}) (\S.*))");
  const std::string chapters = file("chapters.txt");
  long last = -1;
  int count = 0;
  for (const auto view : split_lines(chapters)) {
    const std::string line(view);
    if (line.empty()) continue;
    std::smatch m;
    ASSERT_TRUE(std::regex_match(line, m, form)) << line;
    const long at = (m[1].length() > 0 ? std::stol(m[1]) * 3600 : 0) + std::stol(m[2]) * 60 + std::stol(m[3]);
    EXPECT_TRUE(count > 0 || at == 0) << line;
    EXPECT_GT(at, last) << line;
    last = at;
    ++count;
  }
  EXPECT_GE(count, 3);
}

TEST_F(Script, IsWrittenOverAnEarlierOneAndRefusesAFolderThatCannotBe) {
  const std::string before = file("script.html");
  std::ofstream(fs::path(folder_) / "script.html") << "older";
  EXPECT_EQ(sashline({"script", demo_record().string(), "--to", folder_}).code, 0);
  EXPECT_TRUE(file("script.html") == before);
  const std::string taken = scratch_.write("taken", "a file");
  const Ran refused = sashline({"script", demo_record().string(), "--to", taken});
  EXPECT_EQ(refused.code, 2);
  EXPECT_TRUE(refused.err.starts_with("sashline: ") && refused.err.find(taken) != std::string::npos) << refused.err;
}

}  // namespace
}  // namespace sash::flow
