#pragma once
// The workings pane as it is shown: the relations of what is selected with their written-out workings, what would mend
// them, and a bar for each figure: what was said, what everything together says, and how sure each is. Pure.

#include <optional>
#include <string>
#include <vector>

#include "desk/shown/outlook.h"
#include "desk/shown/selection.h"
#include "desk/shown/tone.h"
#include "plot/plot.h"

namespace sash::desk {

/// One figure's values on a common scale, 0 to 1 across the bar; said and reconciled each with one standard uncertainty
/// to either side.
struct FigureBar {
  struct Reach {
    double at = 0;
    double from = 0;
    double until = 0;
  };
  model::FigureId figure;
  std::string name;       ///< its subject or label
  std::string slot;       ///< its place in the relation, in words
  std::string said_text;  ///< "28.4 g"
  std::string best_text;  ///< "(28.40 ± 0.14) g"
  std::string doubt;      ///< why it is that uncertain
  Family family = Family::other;
  std::optional<Reach> said;  ///< nothing when nobody stated it
  std::optional<Reach> best;  ///< nothing when it does not follow
  bool suspect = false;       ///< most likely the wrong one
  bool tied = false;          ///< suspect, but others explain the conflict exactly as well
  bool unchecked = false;     ///< nothing could ever catch an error in it
};

struct RelationShown {
  std::optional<model::RelationId> relation;
  std::string title;
  std::string verdict;
  Verdict tone = Verdict::unsettled;
  bool proposed = false;
  bool judged = true;  ///< false: nothing can be said of it before it is accepted
  std::string sentence;
  std::vector<workings::Line> lines;
  std::vector<FigureBar> bars;
  std::string tolerance;  ///< how much difference would still agree, and why
  std::vector<std::string> missing;
  std::vector<std::string> notes;
  std::vector<std::string> culprits;      ///< sentences
  std::vector<std::string> explanations;  ///< sentences
  std::optional<plot::Plot> plot;         ///< for relations that have a diagram
};

struct WorkingsShown {
  std::vector<RelationShown> relations;
  std::vector<workings::ConstantUsed> constants;  ///< all of the report's, as its workings number them
  std::vector<std::string> sources;               ///< those the workings shown use: "M(Cu) = 63.546 g/mol: source"
  std::string heading;                            ///< what it is about
  std::string said_of_all;                        ///< the test of everything together, in a sentence
  std::vector<std::string> remarks;               ///< when there are no relations: what to do; for a hazard, its times
  std::vector<std::string> findings;              ///< of a hazard's cover
};

WorkingsShown show_workings(const Judged& judged, const Selection& selection);

}  // namespace sash::desk
