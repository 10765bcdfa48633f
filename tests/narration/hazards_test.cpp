// How well dangerous moments are found: proposals against moments marked by hand (tests/known/narration/hazards.csv). A
// proposal hits a mark of the same route that is spoken within twelve seconds of it. The floors are what was reached.

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <map>

#include "model/names.h"
#include "narration/propose.h"
#include "narration/read.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::test {
namespace {

narration::NarrationText narration_named(const std::string& file) {
  const std::string path = "tests/known/narration/" + file;
  auto text = narration::read_narration(read_source_file(path), path);
  EXPECT_TRUE(text) << file;
  return text ? *text : narration::NarrationText{};
}

std::vector<model::Hazard> hazards_of(const narration::NarrationText& text) {
  model::Record record;
  record.footages.emplace_back().id = {1};
  std::int64_t number = 0;
  for (model::NarrationLine line : text.lines) {
    line.id = {++number};
    line.footage = {1};
    record.lines.push_back(std::move(line));
  }
  std::int64_t next = 0;
  return narration::propose(record, [&](const model::Thing&) { return ++next; }).hazards;
}

/// When the words are first spoken.
Moment spoken_at(const narration::NarrationText& text, const std::string& words) {
  for (const model::NarrationLine& line : text.lines) {
    const std::size_t at = to_lower(line.text).find(to_lower(words));
    if (at != std::string::npos) return narration::heard_at(line, at);
  }
  ADD_FAILURE() << "nobody says: " << words;
  return {};
}

TEST(Hazards, AreProposedWhereAChemistWouldAnnounceThem) {
  std::map<std::string, std::vector<Row>> marks;
  for (const Row& row : read_table("known/narration/hazards.csv")) marks[row.at("narration")].push_back(row);
  int marked = 0;
  int found = 0;
  int proposed = 0;
  int right = 0;
  for (const auto& [stem, rows] : marks) {
    const auto text = narration_named(stem);
    const auto hazards = hazards_of(text);
    std::vector<bool> hit(hazards.size(), false);
    for (const Row& row : rows) {
      const Moment at = spoken_at(text, row.at("words"));
      bool any = false;
      for (std::size_t h = 0; h < hazards.size(); ++h) {
        constexpr Moment near = Moment::seconds(12);
        const model::Hazard& hazard = hazards[h];
        const Moment until = hazard.place.until.value_or(hazard.place.from);
        if (model::name_of(hazard.route) != row.at("route") || at + near < hazard.place.from || until + near < at)
          continue;
        any = hit[h] = true;
      }
      ++marked;
      found += any ? 1 : 0;
      if (!any) std::cout << stem << ": missed " << row.at("route") << " at \"" << row.at("words") << "\"\n";
    }
    proposed += static_cast<int>(hazards.size());
    right += static_cast<int>(std::count(hit.begin(), hit.end(), true));
    for (std::size_t h = 0; h < hazards.size(); ++h) {
      if (!hit[h])
        std::cout << stem << ": not marked: " << hazards[h].cause << " at " << hazards[h].place.from.in_millis() / 1000
                  << " s\n";
    }
  }
  std::cout << "hazards: recall " << found << " of " << marked << ", precision " << right << " of " << proposed << '\n';
  EXPECT_GE(found * 100, marked * 80);
  EXPECT_GE(right * 100, proposed * 70);
}

}  // namespace
}  // namespace sash::test
