#pragma once
// What is spoken of at the bench and in the kitchen, and the name it stands for: assets/tables/bench_materials.tsv.
// Its columns are the words as they are said, the name, flags and the source. Flags: g gas, k a gas by its name that is
// solid or liquid here, a acid, w water, s solvent, l solution, d dissolves, e element, i indicator, m mixture,
// r a word for a kind of which one was named before ("the iodate"), x only as it is written and never by its sound,
// n names nothing ("mercury lamp" is no mercury). Immutable once read. Pure.

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "narration/inner/mention.h"
#include "narration/inner/token.h"

namespace sash::narration {

struct Material {
  std::vector<std::string_view> words;
  std::string_view name;
  std::string_view flags;

  bool has(char flag) const { return flags.find(flag) != std::string_view::npos; }
};

class Materials {
 public:
  static const Materials& all();

  /// The longest row that begins at token `at`, and in `last` the token behind it. "oil's" is oil.
  const Material* longest(const TokenStream& s, std::size_t at, std::size_t& last) const;

  /// The first row that sounds like `key` (see sounds_of).
  const Material* sounding(const std::string& key) const;

 private:
  Materials();

  std::unordered_map<std::string_view, std::vector<Material>> by_first_;
  std::unordered_map<std::string, Material> by_sound_;
};

/// The mention that tokens [first, last) make of a material.
Mention mention_of(const Material& material, std::size_t first, std::size_t last);

}  // namespace sash::narration
