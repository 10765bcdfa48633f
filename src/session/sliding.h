#pragma once
// Sliding narration lines to their moments: what moves along with a line. Pure.

#include "session/editing.h"

namespace sash::session {

/// The line begins at `from`; its word times and the figures pinned to its words go with it. Lines after it keep their
/// order: they are pushed on where it would run into them, no further. The line before it ends where it begins.
/// Fails: Code::not_found, when the line is no longer there.
Outcome<Planned> slide_line(const model::Record& record, model::LineId line, Moment from);

}  // namespace sash::session
