#pragma once
// Reading: what taking a narration in amounts to: its lines, and what they propose, worked out together on a snapshot
// of the record, so that a long one can be read away from the main thread. Changes nothing. Safe from any thread.

#include <string>
#include <variant>
#include <vector>

#include "model/record.h"
#include "session/editing.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::session {

struct NarrationFile {
  std::string path;
};
struct PastedNarration {
  std::string text;
  Moment begins;  ///< where text without times begins
};
/// The lines that the record has, read once more.
struct SameNarration {};
using NarrationFrom = std::variant<SameNarration, NarrationFile, PastedNarration>;

/// Two edits, the second made upon the first.
struct NarrationPlan {
  Planned lines;      ///< empty for SameNarration
  Planned proposals;  ///< empty when the narration suggests nothing new
  std::vector<std::string> to_say;
};

/// Bytes of narration that are read between two frames; more is work for the background. An hour of captions has less.
inline constexpr std::size_t ordinary_narration = std::size_t{128} << 10U;

/// How many bytes there are to read; 0 where that cannot be known.
std::size_t bytes_to_read(const model::Record& record, const NarrationFrom& from);

/// The lines go to the footage of the file's name, else to `current`.
/// Fails: as read_narration_file; cancelled.
Outcome<NarrationPlan> plan_narration(const model::Record& record, const NewNumber& ids, const NarrationFrom& from,
                                      model::FootageId current, Progress& progress);

}  // namespace sash::session
