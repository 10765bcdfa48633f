// The project speaks of itself alone: no path of somebody's machine, no leftovers of how it was made.
#include <gtest/gtest.h>

#include "house/tree.h"
#include "support/text.h"

namespace sash::house {
namespace {

TEST(Words, NoPathOfAnyMachineIsWrittenDown) {
  // Put together here so that this file does not hold them.
  const std::vector<std::string> never{std::string("/ro") + "ot/", std::string("/ho") + "me/",
                                       std::string("/wo") + "rk/", std::string("../sha") + "red",
                                       std::string("TO") + "DO",   std::string("FIX") + "ME"};
  for (const char* folder : {"src", "tests", "assets", "shaders", "third_party"}) {
    for (const auto& file : files_below(folder)) {
      if (file.text.find('\0') != std::string::npos) continue;
      for (const auto& word : never)
        EXPECT_EQ(file.text.find(word), std::string::npos) << file.path << " holds " << word;
    }
  }
}

TEST(Words, TextFilesAreUtf8WithoutTrailingSpace) {
  for (const auto& file : files_below("src", {".h", ".cpp", ".txt"})) {
    EXPECT_TRUE(is_utf8(file.text)) << file.path;
    std::size_t row = 0;
    for (const auto line : split_lines(file.text)) {
      ++row;
      EXPECT_FALSE(!line.empty() && (line.back() == ' ' || line.back() == '\t')) << file.path << ":" << row;
    }
  }
}

}  // namespace
}  // namespace sash::house
