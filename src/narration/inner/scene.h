#pragma once
// Scene: all that the passes of recognition know about a narration, filled by one after the other: words, names,
// phrases, then for each figure what it is about and how it hangs together with others. Private to the recognition.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/figure.h"
#include "narration/figures.h"
#include "narration/inner/acts.h"
#include "narration/inner/evidence.h"
#include "narration/inner/mention.h"
#include "narration/inner/phrase.h"
#include "narration/inner/token.h"
#include "narration/inner/word_set.h"

namespace sash::narration {

/// A phrase that is a figure, while it is being understood. Indices are places in Scene::figures.
struct Draft {
  std::size_t phrase = 0;
  std::string subject;               ///< empty: about no substance
  const Mention* mention = nullptr;  ///< the words that named the subject, if any did
  model::Role role = model::Role::other;
  const char* subject_rule = "";
  const char* role_rule = "";
  std::optional<std::size_t> same_as;
  std::optional<std::size_t> corrected_by;
  std::optional<std::size_t> attached_to;
  std::optional<std::size_t> fraction_of;
  std::vector<std::size_t> sum_of;
  bool count_times_each = false;  ///< sum_of is a count and what each of them is
  double subject_sure = 1;        ///< the share of what was weighed that speaks for the subject
  double role_sure = 1;
  double sample_sure = 1;            ///< that it restates what it restates, or nothing
  std::optional<double> molar_mass;  ///< g/mol, said between this and what it puts in another quantity
};

/// From `token` on, `what` is the thing the procedure makes or has made.
struct ProductCue {
  std::size_t token = 0;
  const Mention* what = nullptr;
};

class Reckoning;

struct Scene {
  TokenStream tokens;
  std::vector<Mention> mentions;                       ///< in order
  std::vector<std::optional<std::size_t>> mention_at;  ///< per token: the mention it belongs to
  std::vector<std::uint32_t> sentence;                 ///< per token
  std::vector<std::size_t> sentence_begin;             ///< first token of each sentence; one more at the end
  std::vector<Phrase> phrases;
  std::vector<std::optional<std::size_t>> phrase_at;  ///< per token
  std::vector<Draft> figures;
  std::vector<Act> acts;             ///< per token
  std::vector<ProductCue> products;  ///< in order
  std::vector<std::size_t> workups;  ///< tokens that speak of isolating what was made, in order
  bool punctuated = true;
  Study study;  ///< what is weighed with

  std::size_t size() const { return tokens.size(); }
  std::string_view word(std::size_t i) const { return tokens.text(i); }
  /// The word `back` places before token `i`; empty at the start.
  std::string_view word_before(std::size_t i, std::size_t back = 1) const {
    return i >= back ? tokens.text(i - back) : std::string_view();
  }
  bool same_sentence(std::size_t a, std::size_t b) const {
    return a < sentence.size() && b < sentence.size() && sentence[a] == sentence[b];
  }
  std::size_t begin_of_sentence(std::size_t token) const { return sentence_begin[sentence[token]]; }
  std::size_t end_of_sentence(std::size_t token) const { return sentence_begin[sentence[token] + 1]; }

  /// "early", "middle" or "late" in the narration.
  std::string_view third_of(std::size_t token) const {
    return token * 3 < size() ? "early" : token * 3 < 2 * size() ? "middle" : "late";
  }

  const Phrase& phrase_of(const Draft& d) const { return phrases[d.phrase]; }
  Phrase& phrase_of(const Draft& d) { return phrases[d.phrase]; }

  /// Fills mention_at from the mentions.
  void place_mentions();

  /// What the procedure makes or has made, as of `token`; nothing when it is nowhere said.
  const Mention* product_at(std::size_t token) const;
  /// The last word of isolation before `token`: "filter", "crystals", "dried".
  std::optional<std::size_t> workup_before(std::size_t token) const;
  /// The nearest token of any of `wanted` among the `reach` tokens before `at` in its sentence.
  std::optional<std::size_t> act_before(std::size_t at, Acts wanted, std::size_t reach) const;
  /// The nearest among the `reach` tokens from `at` on, in the sentence of the token before.
  std::optional<std::size_t> act_after(std::size_t at, Acts wanted, std::size_t reach) const;

  /// The nearest of `words` among the `reach` tokens before `at` in its sentence.
  template <std::size_t N>
  std::optional<std::size_t> find_before(std::size_t at, const WordSet<N>& words, std::size_t reach) const {
    if (at == 0 || at > size()) return std::nullopt;
    const std::uint32_t here = sentence[at - 1];
    for (std::size_t i = at; i-- > 0 && at - i <= reach && sentence[i] == here;) {
      if (words.has(tokens[i].text)) return i;
    }
    return std::nullopt;
  }
  /// The nearest of `words` among the `reach` tokens from `at` on, in the sentence of the token before.
  template <std::size_t N>
  std::optional<std::size_t> find_after(std::size_t at, const WordSet<N>& words, std::size_t reach) const {
    if (at == 0 || at >= size()) return std::nullopt;
    const std::uint32_t here = sentence[at - 1];
    for (std::size_t i = at; i < size() && i < at + reach && sentence[i] == here; ++i) {
      if (words.has(tokens[i].text)) return i;
    }
    return std::nullopt;
  }
  /// Any of `words` in the sentence of token `at`.
  template <std::size_t N>
  std::optional<std::size_t> find_in_sentence(std::size_t at, const WordSet<N>& words) const {
    if (at >= size()) return std::nullopt;
    for (std::size_t i = begin_of_sentence(at); i < end_of_sentence(at); ++i) {
      if (words.has(tokens[i].text)) return i;
    }
    return std::nullopt;
  }
};

/// The scene of the lines with all passes run; weighed with the own weights unless `study` has others.
Scene read_scene(std::span<const model::NarrationLine> lines, Study study = {});

/// Words, names, acts, sentences and phrases of the lines; no phrase is judged yet.
Scene open_scene(std::span<const model::NarrationLine> lines);

/// As narration/figures.h has it, weighed as `study` says.
Reading read_figures(std::span<const model::NarrationLine> lines, Study study);

// The passes, in the order in which they run.
void judge_phrases(Scene& scene);       ///< capacities, money, negations, idioms; what has a unit and stays is a figure
void judge_bare_numbers(Scene& scene);  ///< numbers whose unit was not said
void settle_scales(Scene& scene);       ///< Celsius or Fahrenheit where only degrees were said
void settle_kinds(Scene& scene);        ///< percents, temperature changes, counts, shares
void settle_hedges(Scene& scene);       ///< about, under, over, exactly
void find_topics(Scene& scene, const Reckoning& reckoning);  ///< what is made, and where it is isolated
void name_subjects(Scene& scene,
                   const Reckoning& reckoning);  ///< makes the drafts; what each figure is about; volumes of gas
void settle_roles(Scene& scene);
void tie_figures(Scene& scene);  ///< restatements, corrections, strengths, shares, sums
void follow_ties(Scene& scene);  ///< subjects and roles that follow from how figures hang together

}  // namespace sash::narration
