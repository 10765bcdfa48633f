#pragma once
// What is done with a material: verbs and turns of speech of the bench ("tip in", "made up to", "end up with", "cost
// me"), by assets/tables/bench_acts.tsv. Says where which is spoken of; what follows from it others decide. Pure.

#include <cstdint>
#include <string_view>
#include <vector>

#include "narration/inner/token.h"

namespace sash::narration {

enum class Act : std::uint8_t {
  none,
  measure,    ///< weighed or measured out
  take,       ///< taken, used, wanted
  have,       ///< there, in hand
  add,        ///< put to something else
  destroy,    ///< makes a reagent harmless: quenched, neutralised
  dissolve,   ///< taken up in a liquid
  wash,       ///< washed, extracted, recrystallised
  boil_down,  ///< evaporated to less
  obtain,     ///< came out
  recover,    ///< got back
  reckon,     ///< expected, worked out, summed
  lose,       ///< lost on the way
  remain,     ///< left over
  hearsay,    ///< said by a book, a label, other people
  suppose,    ///< only thought of, for comparison, another time
  waste       ///< thrown out
};

/// Several acts, for looking for any of them.
class Acts {
 public:
  template <class... A>
  constexpr explicit Acts(A... acts) : bits_(((1u << static_cast<unsigned>(acts)) | ... | 0u)) {}
  constexpr bool has(Act a) const { return a != Act::none && (bits_ >> static_cast<unsigned>(a) & 1u) != 0; }

 private:
  std::uint32_t bits_;
};

std::string_view act_name(Act act);  ///< as in the table; "none"

/// Per token the act its words tell of; the longest turn of speech wins.
std::vector<Act> find_acts(const TokenStream& s);

}  // namespace sash::narration
