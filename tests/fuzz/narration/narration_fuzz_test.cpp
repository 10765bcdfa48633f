// Captions and transcripts that nobody meant well: seeds are cut, spliced and changed at random (always the same way).
// Whatever comes of it, reading ends, gives lines or a sentence, and every figure points at words that are there.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "narration/figures.h"
#include "narration/propose.h"
#include "narration/quick_figure.h"
#include "narration/read.h"
#include "tools/table.h"

namespace sash::narration {
namespace {

std::vector<std::string> seeds() {
  std::vector<std::string> found;
  const std::filesystem::path folder = std::filesystem::path(SASH_TESTS_DIR) / "known" / "narration" / "given";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".json") continue;
    std::ifstream in(entry.path(), std::ios::binary);
    found.emplace_back((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  }
  std::sort(found.begin(), found.end());
  found.emplace_back(
      "WEBVTT\n\nREGION\nid:r lines:3\n\nSTYLE\n::cue{}\n\n00:01.000 --> 00:02.000 region:r line:1%\n<v "
      "A><c.b>5&nbsp;g</c>");
  return found;
}

constexpr std::array<std::string_view, 26> pieces = {
    "-->",        "\n\n",    "<c>",     "&amp;",      "<00:00:01.000>",
    "\r",         "[0:01]",  "point",   "and a half", "to",
    "half a",     "mils of", "percent", "H two O",    "\xFF",
    "%",          "°C",      "±",       "1e9",        "999999999999999999999",
    "copper two", "milli",   "per",     "of a",       "twice with",
    "pH"};

std::string mangled(std::string s, std::mt19937& random) {
  const auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
  for (std::size_t n = 1 + below(6); n > 0 && !s.empty(); --n) {
    const std::size_t at = below(s.size());
    switch (below(5)) {
      case 0:
        s[at] = static_cast<char>(random());
        break;
      case 1:
        s.erase(at, std::size_t{1} << below(12));
        break;
      case 2:
        s.insert(at, pieces[below(pieces.size())]);
        break;
      case 3:
        s.insert(at, s.substr(below(s.size()), std::size_t{1} << below(8)));
        break;
      default:
        for (int k = 0; k < 20; ++k) s.insert(std::min(at, s.size()), std::string(pieces[below(pieces.size())]) + " ");
        break;
    }
  }
  return s;
}

void expect_sound(const NarrationText& text) {
  ASSERT_EQ(text.lines.size(), text.sources.size());
  const Reading reading = read_figures(text);
  for (const SpokenFigure& f : reading.figures) {
    ASSERT_FALSE(f.pieces.empty());
    for (const SpokenPiece& p : f.pieces) {
      ASSERT_LT(p.line, text.lines.size());
      ASSERT_LE(p.begin + p.length, text.lines[p.line].text.size());
    }
    const std::size_t n = reading.figures.size();
    for (const auto& link : {f.same_sample_as, f.corrected_by, f.attached_to, f.fraction_of})
      ASSERT_TRUE(!link || *link < n);
    for (const std::size_t i : f.sum_of) ASSERT_LT(i, n);
    ASSERT_TRUE(std::isfinite(f.reading.value));
  }
}

TEST(NarrationFuzz, MangledFilesGiveLinesOrASentence) {
  std::mt19937 random(2026);
  for (const std::string& seed : seeds()) {
    for (int round = 0; round < 25; ++round) {
      const std::string bytes = mangled(seed, random);
      const auto text = read_narration(bytes, round % 2 == 0 ? "a.vtt" : "a.txt");
      if (!text) {
        EXPECT_TRUE(text.fault().sentence.ends_with('.')) << text.fault().sentence;
        continue;
      }
      expect_sound(*text);
    }
  }
}

TEST(NarrationFuzz, ProposalsOfMangledFilesMakeASoundRecord) {
  std::mt19937 random(7);
  for (const std::string& seed : seeds()) {
    for (int round = 0; round < 6; ++round) {
      const auto text = read_narration(mangled(seed, random), "a.srt");
      if (!text) continue;
      model::Record record;
      model::Footage footage;
      footage.id = {1};
      record.footages.push_back(footage);
      std::int64_t line_number = 0;
      for (model::NarrationLine line : text->lines) {
        line.id = {++line_number};
        line.footage = footage.id;
        record.lines.push_back(line);
      }
      std::int64_t number = 0;
      const Proposals proposals = propose(record, [&](const model::Thing&) { return ++number; });
      EXPECT_TRUE(model::apply(edit_of(proposals), record).ok());
    }
  }
}

TEST(NarrationFuzz, AnythingMayBeTypedIntoAPinsField) {
  std::mt19937 random(11);
  const auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
  for (int round = 0; round < 1500; ++round) {
    std::string typed;
    for (std::size_t n = below(8); n > 0; --n)
      typed += std::string(pieces[below(pieces.size())]) + (below(2) == 0 ? " " : "");
    const auto figures = read_quick_figure(typed);
    if (figures) {
      EXPECT_FALSE(figures->empty());
    }
  }
}

}  // namespace
}  // namespace sash::narration
