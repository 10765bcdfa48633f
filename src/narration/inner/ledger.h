#pragma once
// Ledger: the figures of a reading as those who tie them ask for them: standing, size with its doubt, matter, sample,
// the words around. Judges nothing. Not for keeping: it refers to the reading and the lines it was made from.

#include <functional>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "narration/figures.h"
#include "narration/inner/molar_masses.h"
#include "narration/inner/samples.h"
#include "narration/inner/sized.h"

namespace sash::narration {

class Ledger {
 public:
  Ledger(const Reading& reading, std::span<const model::NarrationLine> lines);

  std::size_t size() const { return figures_.size(); }
  const SpokenFigure& operator[](std::size_t i) const { return figures_[i]; }
  const std::vector<SpokenFigure>& figures() const { return figures_; }
  const std::vector<Sample>& samples() const { return samples_; }
  const Sample& sample_of(std::size_t i) const;  ///< Requires: stands(i)
  bool one_sample(std::size_t a, std::size_t b) const;

  bool stands(std::size_t i) const { return !figures_[i].corrected_by && !figures_[i].reading.upper; }
  quantity::Kind kind(std::size_t i) const { return figures_[i].kind; }
  model::Role role(std::size_t i) const { return figures_[i].role; }
  Sized sized(std::size_t i) const;  ///< SI, as the workings take it
  /// Whether `computed` (SI) is what figure `i` says, within its digits, its hedge and the doubt of both.
  bool agrees(std::size_t i, const Sized& computed) const;

  /// What it is about, without "solution" and water of crystallisation; empty when unknown.
  const std::string& matter(std::size_t i) const { return matter_[i]; }
  bool same_matter(std::size_t a, std::size_t b) const { return !matter_[a].empty() && matter_[a] == matter_[b]; }
  /// Neither is known to be of other matter.
  bool may_be_same_matter(std::size_t a, std::size_t b) const {
    return matter_[a].empty() || matter_[b].empty() || matter_[a] == matter_[b];
  }
  /// kg/mol with its doubt; the substance may be a hydrate.
  std::optional<Sized> molar_mass(const std::string& substance) const;
  /// Substances that were figures' subjects in the `reach` figures before `i` and just after it, nearest first.
  std::vector<std::string> substances_near(std::size_t i, std::size_t reach) const;

  /// Standing figures before `i`, the nearest first: at most `most` for which `wanted` holds, among the last `reach`.
  std::vector<std::size_t> before(std::size_t i, std::size_t reach, std::size_t most,
                                  const std::function<bool(std::size_t)>& wanted) const;

  /// Standing figures of that kind just before and behind `i`, and those of its sample. Requires: stands(i).
  std::vector<std::size_t> around(std::size_t i, quantity::Kind kind) const;

  /// Whether the sentence of figure `i` has `word` in it.
  bool sentence_has(std::size_t i, std::string_view word) const;
  /// Whether `word` is said shortly before figure `i`, with no figure between.
  bool leads_to(std::size_t i, std::string_view word) const;
  /// Whether `word` is said right before or behind figure `i`.
  bool said_close(std::size_t i, std::string_view word) const;
  /// Whether the sentence of figure `i` has a word that belongs to the name of `substance` and not to that of `other`.
  bool sentence_names(std::size_t i, const std::string& substance, const std::string& other) const;
  /// Whether `substance` is named not far from figure `i`, or nowhere at all, so that this tells nothing.
  bool named_nearby(std::size_t i, const std::string& substance) const;
  /// Substances that are named not far before figure `i`.
  std::vector<std::string> named_before(std::size_t i) const;
  /// All substances that are named anywhere.
  const std::vector<std::string>& all_named() const;
  /// The substance that is named last before figure `i`, other than water; empty when there is none.
  std::string last_named(std::size_t i) const;
  /// How many sentences begin between figures `a` and `b`.
  int sentences_between(std::size_t a, std::size_t b) const;

 private:
  std::string sentence(std::size_t i) const;
  const std::vector<std::size_t>& mentions_of(const std::string& substance) const;

  const std::vector<SpokenFigure>& figures_;
  std::vector<Sample> samples_;
  std::vector<std::size_t> sample_;  ///< of each figure
  std::vector<std::string> matter_;
  std::string text_;                 ///< all lines, in lower case
  std::vector<std::size_t> begins_;  ///< of each figure in text_
  MolarMasses molar_masses_;
  mutable std::map<std::string, std::vector<std::size_t>> mentions_;  ///< by matter, places in text_
  mutable std::vector<std::string> all_named_;
  mutable bool mentions_found_ = false;
};

}  // namespace sash::narration
