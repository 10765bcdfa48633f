#include "narration/inner/acts.h"

#include <algorithm>
#include <array>
#include <unordered_map>
#include <utility>

#include "embedded/bench_acts.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

constexpr std::array<std::pair<std::string_view, Act>, 16> names = {{{"measure", Act::measure},
                                                                     {"take", Act::take},
                                                                     {"have", Act::have},
                                                                     {"add", Act::add},
                                                                     {"destroy", Act::destroy},
                                                                     {"dissolve", Act::dissolve},
                                                                     {"wash", Act::wash},
                                                                     {"boil_down", Act::boil_down},
                                                                     {"obtain", Act::obtain},
                                                                     {"recover", Act::recover},
                                                                     {"reckon", Act::reckon},
                                                                     {"lose", Act::lose},
                                                                     {"remain", Act::remain},
                                                                     {"hearsay", Act::hearsay},
                                                                     {"suppose", Act::suppose},
                                                                     {"waste", Act::waste}}};

Act act_named(std::string_view name) {
  const auto* it = std::find_if(names.begin(), names.end(), [&](const auto& n) { return n.first == name; });
  promise(it != names.end(), "the table of bench acts uses known acts");
  return it->second;
}

struct Turn {
  std::vector<std::string_view> words;
  Act act = Act::none;
};

class Turns {
 public:
  Turns() {
    bool header = true;
    for (const std::string_view line : split_lines(embedded::bench_acts)) {
      if (std::exchange(header, false)) continue;
      const auto cells = split(line, '\t');
      promise(cells.size() == 3, "a row of the bench acts has three cells");
      for (const std::string_view form : split(cells[1], ';')) {
        Turn turn{split(trim(form), ' '), act_named(cells[0])};
        by_first_[turn.words[0]].push_back(std::move(turn));
      }
    }
    for (auto& [word, turns] : by_first_) {
      std::stable_sort(turns.begin(), turns.end(),
                       [](const Turn& a, const Turn& b) { return a.words.size() > b.words.size(); });
    }
  }

  /// The longest turn of speech that begins at `at`.
  const Turn* longest(const TokenStream& s, std::size_t at) const {
    const auto found = by_first_.find(s.text(at));
    if (found == by_first_.end()) return nullptr;
    for (const Turn& turn : found->second) {
      std::size_t said = 0;
      while (said < turn.words.size() && s.is(at + said, turn.words[said])) ++said;
      if (said == turn.words.size()) return &turn;
    }
    return nullptr;
  }

 private:
  std::unordered_map<std::string_view, std::vector<Turn>> by_first_;
};

}  // namespace

std::string_view act_name(Act act) {
  const auto* it = std::find_if(names.begin(), names.end(), [&](const auto& n) { return n.second == act; });
  return it == names.end() ? "none" : it->first;
}

std::vector<Act> find_acts(const TokenStream& s) {
  static const Turns turns;
  std::vector<Act> acts(s.size(), Act::none);
  for (std::size_t i = 0; i < s.size();) {
    const Turn* turn = turns.longest(s, i);
    if (turn == nullptr) {
      ++i;
      continue;
    }
    std::fill_n(acts.begin() + static_cast<std::ptrdiff_t>(i), turn->words.size(), turn->act);
    i += turn->words.size();
  }
  return acts;
}

}  // namespace sash::narration
