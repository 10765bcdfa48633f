// Small files with one purpose: none over 600 lines unless it is listed here with a reason.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "house/tree.h"
#include "support/text.h"

namespace sash::house {
namespace {

const std::map<std::string, std::string>& allowed_long() {
  static const std::map<std::string, std::string> reasons{};
  return reasons;
}

TEST(Sizes, NoSourceIsLongerThanSixHundredLines) {
  for (const char* folder : {"src", "tests"}) {
    for (const auto& file : files_below(folder, {".h", ".cpp"})) {
      const auto lines = split_lines(file.text).size();
      if (allowed_long().contains(file.path)) continue;
      EXPECT_LE(lines, 600U) << file.path;
    }
  }
}

TEST(Sizes, TheMedianFileIsSmall) {
  std::vector<std::size_t> lines;
  for (const auto& file : files_below("src", {".h", ".cpp"})) lines.push_back(split_lines(file.text).size());
  ASSERT_FALSE(lines.empty());
  std::nth_element(lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(lines.size() / 2), lines.end());
  EXPECT_LE(lines[lines.size() / 2], 150U);
}

TEST(Sizes, EveryHeaderSaysWhatItIsFor) {
  for (const auto& file : files_below("src", {".h"})) {
    const auto lines = split_lines(file.text);
    ASSERT_GE(lines.size(), 2U) << file.path;
    EXPECT_EQ(lines[0], "#pragma once") << file.path;
    EXPECT_TRUE(lines[1].starts_with("// ")) << file.path << " does not begin by saying what it is for";
  }
}

}  // namespace
}  // namespace sash::house
