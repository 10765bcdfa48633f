#pragma once
// Where the narration names a material: compounds by chem's name book, bench and kitchen materials by
// assets/tables/bench_materials.tsv, and nicknames the presenter gives ("solution A is the iodate"). Pure.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "narration/inner/token.h"

namespace sash::narration {

struct Mention {
  std::size_t first = 0;  ///< tokens [first, last)
  std::size_t last = 0;
  std::string name;  ///< normalised: "copper(II) sulfate pentahydrate"
  bool gas = false;
  bool acid = false;
  bool water = false;
  bool solvent = false;    ///< used to dissolve or wash rather than to react
  bool solution = false;   ///< the word itself means a solution, or "solution" follows
  bool dissolves = false;  ///< a salt or base: its volumes and strengths are those of its solution
  bool element = false;
  bool indicator = false;  ///< only shows something
  bool mixture = false;
  bool negated = false;  ///< "not the bicarb": expressly another one
  bool generic = false;  ///< "the acid", "the metal": stands for one named before
};

std::vector<Mention> find_mentions(const TokenStream& s, std::span<const model::NarrationLine> lines);

}  // namespace sash::narration
