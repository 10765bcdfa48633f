#pragma once
// A lesson: a made record of the copper cycle in a teaching lab, with the mistakes a real one has, for looking at pages
// and for driving them. All names and numbers are invented for it. Also a long record, for cost.

#include "model/record.h"

namespace sash::testing {

/// Two footages, four minutes, about twenty figures, five hazards, proposals, chapters, notes.
model::Record lesson();

/// The lesson with two more relations that have a diagram: relation 51 (heat, figures 101 to 104) and relation 52 (gas
/// given off, figures 105 to 107).
model::Record lesson_with_diagrams();

/// `hours` of narration, a line every three seconds, with `pins` figures spread over it and a hazard for every twenty.
model::Record long_lesson(int hours, int pins);

}  // namespace sash::testing
