#include "narration/inner/name_ending.h"

#include <algorithm>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "embedded/name_endings.h"
#include "narration/inner/word_set.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

constexpr std::size_t shortest_ending = 4;
constexpr std::size_t shortest_name = 6;

struct Ending {
  std::string_view letters;
  std::vector<std::string_view> not_in;  ///< words of everyday English: "examine"
};
/// By their last letters, so that most words are done with after one look.
using Endings = std::unordered_map<std::string_view, std::vector<Ending>>;

const Endings& endings() {
  static const Endings all = [] {
    Endings read;
    const std::vector<std::string_view> lines = split_lines(embedded::name_endings);
    for (std::size_t i = 1; i < lines.size(); ++i) {
      const auto cells = split(lines[i], '\t');
      promise(cells.size() == 3 && cells[0].size() >= shortest_ending,
              "a row of the name endings holds four letters or more, the words that are no names, and its source");
      Ending ending{cells[0], {}};
      for (const std::string_view word : split(cells[1], ';')) ending.not_in.push_back(trim(word));
      read[cells[0].substr(cells[0].size() - shortest_ending)].push_back(std::move(ending));
    }
    return read;
  }();
  return all;
}

bool ends_as_a_name(std::string_view word, bool with_locant) {
  const auto found = endings().find(word.substr(word.size() - shortest_ending));
  if (found == endings().end()) return false;
  const std::size_t before = with_locant ? 0 : 2;
  return std::ranges::any_of(found->second, [&](const Ending& ending) {
    return word.ends_with(ending.letters) && word.size() >= ending.letters.size() + before &&
           std::ranges::find(ending.not_in, word) == ending.not_in.end();
  });
}

}  // namespace

std::size_t name_by_ending(const TokenStream& s, std::size_t at) {
  std::size_t word = at;
  // Locants: "4-", "2,4-", "n-", "para-"
  while (word + 2 < s.size() && s.is(word + 1, "-") && s[word + 1].glued && s[word + 2].glued &&
         (s.is_type(word, Token::Type::number) || s.text(word).size() == 1 || s.is(word, "para") ||
          s.is(word, "ortho") || s.is(word, "meta") || s.is(word, "tert")))
    word += 2;
  if (!s.is_type(word, Token::Type::word) || s.text(word).size() < shortest_name) return 0;
  const std::string_view text = s.text(word);
  if (text.ends_with("ic") && s.is(word + 1, "acid")) return word + 2;
  constexpr WordSet behind_radical{"chloride",     "bromide",      "iodide",     "acetate",    "alcohol",   "ether",
                                   "benzoate",     "formate",      "fluoride",   "peroxide",   "ketone",    "amine",
                                   "mercaptan",    "sulfide",      "disulfide",  "cyanide",    "lactate",   "oleate",
                                   "stearate",     "palmitate",    "propionate", "propanoate", "butyrate",  "butanoate",
                                   "valerate",     "hexanoate",    "octanoate",  "salicylate", "cinnamate", "acrylate",
                                   "methacrylate", "acetoacetate", "malonate",   "oxalate",    "phthalate", "citrate",
                                   "tartrate",     "carbonate",    "phosphate",  "borate",     "isocyanate"};
  if (text.ends_with("yl") && behind_radical.has(s.text(word + 1))) return word + 2;
  if (!ends_as_a_name(text, word > at)) return 0;
  constexpr WordSet salts{"hydrochloride", "hydrobromide", "sulfate",     "sulphate", "dihydrochloride", "oxalate",
                          "phosphate",     "nitrate",      "monohydrate", "chloride", "bromide",         "iodide"};
  return salts.has(s.text(word + 1)) ? word + 2 : word + 1;
}

}  // namespace sash::narration
