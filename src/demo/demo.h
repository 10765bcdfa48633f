#pragma once
// The demo: a teaching lab's copper cycle, with footage drawn by the program itself, spoken narration, and a record
// that has on purpose two figures that conflict, a yield over 100 % that residual water explains, a hazard nobody
// announces and one announced too late. Everything in it is invented for showing. Takes a minute or so; safe from any
// thread.

#include <string>

#include "support/outcome.h"
#include "support/progress.h"

namespace sash::demo {

/// Makes footage and record in `folder` (made when missing) and returns the record's path,
/// "<folder>/copper-cycle.sash". What is there already is kept and returned. Fails: unreadable, when the folder cannot
/// be written; cancelled.
Outcome<std::string> make_demo(const std::string& folder, Progress& progress);

}  // namespace sash::demo
