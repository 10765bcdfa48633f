#include "desk/shell/file_chooser.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>

namespace sash::desk {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;

/// A folder on PATH with a stand-in for the desktop's dialog, a shell script.
class Desktop {
 public:
  Desktop(const std::string& program, const std::string& script) {
    folder_ = std::filesystem::temp_directory_path() / ("sash-chooser-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder_);
    const auto file = folder_ / program;
    std::ofstream(file) << "#!/bin/sh\n" << script << "\n";
    std::filesystem::permissions(file, std::filesystem::perms::owner_all);
    before_ = std::getenv("PATH");
    setenv("PATH", (folder_.string() + ":/usr/bin:/bin").c_str(), 1);
  }
  ~Desktop() {
    setenv("PATH", before_.c_str(), 1);
    std::filesystem::remove_all(folder_);
  }
  Desktop(const Desktop&) = delete;
  Desktop& operator=(const Desktop&) = delete;
  std::filesystem::path folder() const { return folder_; }

 private:
  std::filesystem::path folder_;
  std::string before_;
};

std::optional<std::vector<std::string>> waited(FileChooser& chooser) {
  for (int i = 0; i < 1000; ++i) {
    if (auto answer = chooser.answer()) return answer;
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  return std::nullopt;
}

TEST(FileChooser, GivesEveryPathThatWasChosen) {
  const Desktop desktop("zenity", "printf '/films/one take.mp4\\n/films/zwei.mov\\n'");
  std::atomic<int> woken = 0;
  FileChooser chooser([&] { ++woken; });
  ASSERT_TRUE(chooser.ask({.what = FileWish::What::open_several, .title = "Open footage"}));
  EXPECT_EQ(waited(chooser), (std::vector<std::string>{"/films/one take.mp4", "/films/zwei.mov"}));
  EXPECT_EQ(chooser.answer(), std::nullopt);  // once
}

TEST(FileChooser, GivesNoPathWhenThePersonThoughtBetterOfIt) {
  const Desktop desktop("zenity", "echo /not/meant; exit 1");
  FileChooser chooser({});
  ASSERT_TRUE(chooser.ask({.title = "Open"}));
  EXPECT_EQ(waited(chooser), std::vector<std::string>{});
}

TEST(FileChooser, PassesWordsUntouchedByAnyShell) {
  const Desktop desktop("zenity", "for a in \"$@\"; do printf '/%s\\n' \"$a\"; done");
  FileChooser chooser({});
  ASSERT_TRUE(
      chooser.ask({.what = FileWish::What::save, .title = "$(touch /tmp/x); `id` \"quoted\"", .name = "a b.sash"}));
  const auto answer = waited(chooser);
  ASSERT_TRUE(answer);
  EXPECT_THAT(*answer, Contains("/--title=$(touch /tmp/x); `id` \"quoted\""));
  EXPECT_THAT(*answer, Contains("/--filename=a b.sash"));
}

TEST(FileChooser, IsOneAtATimeAndEndsWithTheDesk) {
  const Desktop desktop("zenity", "exec sleep 60");
  const auto start = std::chrono::steady_clock::now();
  {
    FileChooser chooser({});
    ASSERT_TRUE(chooser.ask({.title = "Open"}));
    EXPECT_TRUE(chooser.open());
    EXPECT_FALSE(chooser.ask({.title = "Open again"}));
  }
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(30));
}

TEST(FileChooser, IsNotThereWhereNoneIsInstalled) {
  const Desktop desktop("something-else", "true");
  setenv("PATH", desktop.folder().c_str(), 1);
  EXPECT_EQ(FileChooser::installed(), std::nullopt);
  FileChooser chooser({});
  EXPECT_FALSE(chooser.ask({.title = "Open"}));
}

// Options as the manual pages zenity(1) and kdialog --help-all give them.
TEST(FileChooser, SpeaksToBothDesktops) {
  const FileWish wish{.what = FileWish::What::open_several,
                      .title = "Open footage",
                      .folder = "/films",
                      .kind = "Footage",
                      .endings = {"mp4", "mov"}};
  EXPECT_THAT(
      FileChooser::arguments("/usr/bin/zenity", wish),
      ElementsAre("--file-selection", "--title=Open footage", "--multiple", "--separator=\n", "--filename=/films/",
                  "--file-filter=Footage | *.mp4 *.MP4 *.mov *.MOV", "--file-filter=All files | *"));
  EXPECT_THAT(FileChooser::arguments("/usr/bin/kdialog", wish),
              ElementsAre("--title", "Open footage", "--multiple", "--separate-output", "--getopenfilename", "/films/",
                          "Footage (*.mp4 *.MP4 *.mov *.MOV)"));
}

}  // namespace
}  // namespace sash::desk
