#pragma once
// Outlook: what findings and workings are shown from. While proposals wait, that is the record as it would stand with
// those accepted that may be taken unseen; so what is wrong in a narration is plain before anything was accepted. Pure.

#include <optional>

#include "session/view.h"

namespace sash::desk {

struct Outlook {
  workings::Report report;
  safety::Cover cover;
};

/// Nothing for a record without proposals, and for one too large to be checked between two frames.
std::optional<Outlook> outlook_of(const model::Record& record);

/// Whether accepting would bring conflicts that `now` does not have.
bool brings_conflicts(const std::optional<Outlook>& outlook, const workings::Report& now);

/// A record and what comes out of it, or of what is proposed in it. Borrows all three.
struct Judged {
  const model::Record& record;
  const workings::Report& report;
  const safety::Cover& cover;

  static Judged as_it_stands(const session::SessionView& view) { return {view.record, view.report, view.cover}; }
  static Judged ahead(const session::SessionView& view, const std::optional<Outlook>& outlook) {
    return outlook ? Judged{view.record, outlook->report, outlook->cover} : as_it_stands(view);
  }
};

/// Whether a finding rests on something that nobody has accepted yet.
bool rests_on_proposals(const model::Record& record, const workings::Finding& finding);

}  // namespace sash::desk
