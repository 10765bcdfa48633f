#include "narration/inner/materials.h"

#include <algorithm>

#include "embedded/bench_materials.h"
#include "narration/inner/name_kind.h"
#include "narration/inner/sounds.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

std::string_view stem(std::string_view word) { return word.ends_with("'s") ? word.substr(0, word.size() - 2) : word; }

/// Fewer consonants are alike by chance.
constexpr std::size_t fewest_sounds = 3;

}  // namespace

const Materials& Materials::all() {
  static const Materials read;
  return read;
}

Materials::Materials() {
  const std::vector<std::string_view> lines = split_lines(embedded::bench_materials);
  for (std::size_t i = 1; i < lines.size(); ++i) {  // behind the header
    const auto cells = split(lines[i], '\t');
    promise(cells.size() == 4, "a row of the bench materials has four cells");
    Material m{split(cells[0], ' '), cells[1], cells[2]};
    if (!m.has('r') && !m.has('x') && !m.has('n')) {
      std::string key = sounds_of(cells[0]);
      if (key.size() >= fewest_sounds) by_sound_.try_emplace(std::move(key), m);
    }
    by_first_[m.words[0]].push_back(std::move(m));
  }
  for (auto& [word, list] : by_first_) {
    std::ranges::stable_sort(list, std::ranges::greater(), [](const Material& m) { return m.words.size(); });
  }
}

const Material* Materials::longest(const TokenStream& s, std::size_t at, std::size_t& last) const {
  auto it = by_first_.find(s.text(at));
  if (it == by_first_.end()) it = by_first_.find(stem(s.text(at)));
  if (it == by_first_.end()) return nullptr;
  for (const Material& m : it->second) {
    std::size_t p = at;
    const bool all = std::ranges::all_of(m.words, [&](std::string_view word) {
      const std::string_view said = s.text(p++);
      return said == word || stem(said) == word;
    });
    if (!all) continue;
    last = at + m.words.size();
    return &m;
  }
  return nullptr;
}

const Material* Materials::sounding(const std::string& key) const {
  const auto it = by_sound_.find(key);
  return it == by_sound_.end() ? nullptr : &it->second;
}

Mention mention_of(const Material& material, std::size_t first, std::size_t last) {
  Mention out;
  out.first = first;
  out.last = last;
  out.name = material.name;
  out.gas = material.has('g');
  out.acid = material.has('a');
  out.water = material.has('w');
  out.solvent = material.has('s');
  out.solution = material.has('l');
  out.dissolves = material.has('d');
  out.element = material.has('e');
  out.indicator = material.has('i');
  out.mixture = material.has('m');
  out.generic = material.has('r');
  set_kind_by_name(out);
  if (material.has('k')) out.gas = false;
  return out;
}

}  // namespace sash::narration
