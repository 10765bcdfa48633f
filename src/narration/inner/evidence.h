#pragma once
// Weighing: where several answers are possible (which of the materials spoken of is this figure about?), every answer
// is given the cues that speak for or against it, each cue has a weight in assets/tables/narration_weights.tsv, and the
// answer of the greatest sum is taken. A cue is words of this program, parts joined by '/', so that every decision can
// be explained by what weighed most. The weights are fitted to labelled narrations (tests/narration/README.md); cues
// that were never met weigh nothing. Pure but for the table, which is read once.

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace sash::narration {

/// How much each cue weighs; positive speaks for the answer.
class Weights {
 public:
  Weights();
  /// Lines "cue<tab>weight<tab>source" under a header. Requires: every line is one of those.
  explicit Weights(std::string_view table);

  void set(std::string_view cue, double weight);
  /// The weight of the cue that `parts` joined by '/' make; 0 of one nobody has weighed. No part holds a '/'.
  double of(std::initializer_list<std::string_view> parts) const;

 private:
  struct Slot {
    std::uint64_t key = 0;  ///< 0: free
    float weight = 0;
  };
  void put(std::uint64_t key, float weight);
  void grow();

  std::vector<Slot> slots_;  ///< open addressing; a power of two of them, at most half in use
  std::size_t used_ = 0;
};

/// The weights of the program's own table.
const Weights& own_weights();

/// A decision with everything that was weighed in it, kept for fitting and for explaining.
struct Decision {
  struct Answer {
    std::string what;  ///< a subject, a role, the place of another figure
    std::vector<std::string> cues;
  };
  std::string_view question;  ///< "subject", "role", "same"
  std::size_t figure = 0;     ///< place among the figures of the narration
  std::vector<Answer> answers;
};

/// What is used for weighing, and where decisions are kept if anybody wants them.
struct Study {
  const Weights* weights = nullptr;
  std::vector<Decision>* decisions = nullptr;
};

/// One answer on the scales.
class Scale {
 public:
  Scale(const Weights& weights, std::vector<std::string>* cues) : weights_(&weights), cues_(cues) {}

  void add(std::initializer_list<std::string_view> parts);
  double sum() const { return sum_; }

 private:
  const Weights* weights_;
  std::vector<std::string>* cues_;
  double sum_ = 0;
};

/// How sure the answer of the greatest sum is: its share of all answers, each of which counts e to the power of its
/// sum.
class Certainty {
 public:
  void add(double sum);
  /// 1 where there was only one answer, or none.
  double share() const { return all_ > 0 ? 1 / all_ : 1; }

 private:
  double most_ = 0;
  double all_ = 0;  ///< of e to the power of what each falls short of the most
};

/// Steps of distance in words: "0", "2", "4", "7", "11", "17", "26", "41", "71", "far".
std::string_view step_of(std::size_t tokens);
/// "0", "1", "2", "3", "more".
std::string_view few(std::size_t count);

}  // namespace sash::narration
