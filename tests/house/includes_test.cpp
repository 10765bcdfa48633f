// Includes run downhill: each part includes only itself and what the table allows, and outside headers only where the
// table lets them in. The table is the house's plan (DEVELOPERS.md).
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "house/tree.h"
#include "support/text.h"

namespace sash::house {
namespace {

struct Rule {
  std::set<std::string> parts;             // may be included beside itself
  std::vector<std::string> outside;        // prefixes of <...> headers allowed anywhere in the part
  std::vector<std::string> outside_inner;  // allowed in .cpp files and inner/ headers only
};

const std::vector<std::string> av{"libav", "libsw", "SDL.h"};

// The parts in building order; each may include those named.
const std::map<std::string, Rule>& rules() {
  static const std::map<std::string, Rule> table{
      {"support", {{}, {"fmt/"}, {}}},
      {"quantity", {{"support"}, {"fmt/"}, {}}},
      {"chem", {{"support", "quantity"}, {"fmt/"}, {"Eigen/"}}},
      {"model", {{"support", "quantity"}, {"fmt/"}, {}}},
      {"workings", {{"support", "quantity", "chem", "model"}, {"fmt/"}, {"Eigen/"}}},
      {"plot", {{"support", "quantity", "chem", "model", "workings"}, {"fmt/"}, {}}},
      {"narration", {{"support", "quantity", "chem", "model"}, {"fmt/"}, {"unicode/"}}},
      {"safety", {{"support", "quantity", "chem", "model"}, {"fmt/"}, {}}},
      {"store",
       {{"support", "quantity", "model"}, {"fmt/"}, {"sqlite3.h", "nlohmann/", "sys/", "unistd.h", "fcntl.h"}}},
      {"media", {{"support", "quantity", "model"}, {"fmt/"}, av}},
      {"script",
       {{"support", "quantity", "chem", "model", "workings", "plot", "narration", "safety"},
        {"fmt/"},
        {"nlohmann/", "cairo", "pango/"}}},
      {"session",
       {{"support", "quantity", "chem", "model", "workings", "narration", "safety", "store", "media", "script"},
        {"fmt/"},
        {}}},
      {"demo", {{"support", "quantity", "model", "narration", "store", "media"}, {"fmt/"}, {"cairo", "pango/"}}},
      {"cli",
       {{"support", "quantity", "chem", "model", "workings", "narration", "safety", "store", "media", "script",
         "session", "demo"},
        {"fmt/"},
        {"CLI/", "nlohmann/"}}},
      {"desk/shown",
       {{"support", "quantity", "chem", "model", "workings", "plot", "narration", "safety", "media", "session"},
        {"fmt/"},
        {}}},
      {"desk/draw",
       {{"support", "quantity", "model", "workings", "plot", "media", "session", "desk/shown"}, {"fmt/", "imgui"}, {}}},
      {"desk",
       {{"support", "quantity", "model", "media", "session", "desk/shown", "desk/draw", "desk/shell"},
        {"fmt/", "imgui"},
        {}}},
      {"desk/shell",
       {{"support", "media", "desk/shown", "desk/draw"},
        {"fmt/", "imgui", "backends/"},
        {"GLFW/", "epoxy/", "EGL/", "sys/", "unistd.h", "fcntl.h", "poll.h", "signal.h", "spawn.h"}}},
  };
  return table;
}

// "desk/draw/kit/x.h" belongs to desk/draw, "chem/inner/x.h" to chem, "main.cpp" to none.
std::string part_of(const std::string& path_below_src) {
  const auto s = steps(path_below_src);
  if (s.size() < 2) return "";
  if (s[0] == "desk" && s.size() > 2) return s[0] + "/" + s[1];
  return s[0];
}

bool is_standard(const std::string& name) {
  return name.find('.') == std::string::npos && name.find('/') == std::string::npos;
}

bool has_prefix(const std::string& name, const std::vector<std::string>& prefixes) {
  return std::any_of(prefixes.begin(), prefixes.end(), [&](const std::string& p) { return name.rfind(p, 0) == 0; });
}

TEST(Includes, RunDownhill) {
  std::size_t looked_at = 0;
  for (const auto& file : files_below("src", {".h", ".cpp"})) {
    const std::string below = file.path.substr(4);
    const std::string part = part_of(below);
    if (part.empty()) continue;  // main.cpp ties the top together
    ASSERT_TRUE(rules().contains(part)) << file.path << " lies in no known part";
    const Rule& rule = rules().at(part);
    const bool inside = below.find("/inner/") != std::string::npos || below.ends_with(".cpp");
    for (const auto& include : includes_of(file)) {
      ++looked_at;
      const std::string name = include.substr(1, include.size() - 2);
      if (include[0] == '"') {
        if (name.rfind("embedded/", 0) == 0) continue;
        const std::string other = part_of(name);
        EXPECT_TRUE(other == part || rule.parts.contains(other)) << file.path << " must not include " << include;
        EXPECT_TRUE(other == part || name.find("/inner/") == std::string::npos)
            << file.path << " reaches into " << include;
        continue;
      }
      EXPECT_TRUE(is_standard(name) || has_prefix(name, rule.outside) ||
                  (inside && has_prefix(name, rule.outside_inner)))
          << file.path << " must not include " << include;
    }
  }
  EXPECT_GT(looked_at, 100U) << "the test has lost sight of the sources";
}

TEST(Includes, NameTheirPartFromTheSourceRoot) {
  for (const auto& file : files_below("src", {".h", ".cpp"})) {
    for (const auto& include : includes_of(file)) {
      EXPECT_TRUE(include[0] != '"' || include.find('/') != std::string::npos) << file.path << " includes " << include;
      EXPECT_EQ(include.find(".."), std::string::npos) << file.path << " includes " << include;
    }
  }
}

TEST(Includes, PurePartsKnowNoClockLocaleOrFile) {
  const std::set<std::string> pure{"quantity", "chem", "model", "workings", "plot", "narration", "safety"};
  const std::set<std::string> forbidden{"<fstream>", "<iostream>", "<filesystem>", "<chrono>", "<ctime>",
                                        "<locale>",  "<thread>",   "<cstdio>",     "<random>"};
  for (const auto& file : files_below("src", {".h", ".cpp"})) {
    if (!pure.contains(part_of(file.path.substr(4)))) continue;
    for (const auto& include : includes_of(file))
      EXPECT_FALSE(forbidden.contains(include)) << file.path << " includes " << include;
  }
}

}  // namespace
}  // namespace sash::house
