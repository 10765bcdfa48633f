#pragma once
// Rows of the running sheet on paper: each narration line is a row, and pins in silence get rows of their own. Pure.

#include <vector>

#include "model/record.h"
#include "script/film_time.h"

namespace sash::script::inner {

struct Row {
  model::Place place;                          ///< where it begins, in its footage
  Moment at;                                   ///< the same in the film
  const model::Chapter* chapter = nullptr;     ///< a chapter begins here
  const model::NarrationLine* line = nullptr;  ///< null in silence
  std::vector<const model::Figure*> figures;
  std::vector<const model::Hazard*> hazards;    ///< that begin in this row
  std::vector<const model::Callout*> callouts;  ///< that begin in this row
  std::vector<const model::Note*> notes;
};

/// In order of time; refused things and noise are left out. Every chapter, figure, hazard, callout and note that stays
/// is in exactly one row.
std::vector<Row> make_rows(const model::Record& record, const FilmTime& film);

}  // namespace sash::script::inner
