#pragma once
// A folder of its own for each test, removed afterwards; and small clips made with ffmpeg.

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include <gtest/gtest.h>

namespace sash::session {

class Scratch {
 public:
  Scratch() {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::temp_directory_path() / (std::string("sashline-") + test->test_suite_name() + "-" +
                                                        test->name() + "-" + std::to_string(::getpid()));
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path(name), std::ios::binary) << text;
    return path(name);
  }
  /// `seconds` of a counting test picture at 25 frames a second with a tone.
  std::string clip(const std::string& name, int seconds) const {
    const std::string command =
        "ffmpeg -v error -y -f lavfi -i testsrc2=size=160x120:rate=25:duration=" + std::to_string(seconds) +
        " -f lavfi -i sine=frequency=440:duration=" + std::to_string(seconds) +
        " -c:v libx264 -preset ultrafast -g 50 -pix_fmt yuv420p -c:a aac -shortest " + path(name);
    EXPECT_EQ(std::system(command.c_str()), 0) << command;
    return path(name);
  }

 private:
  std::filesystem::path folder_;
};

}  // namespace sash::session
