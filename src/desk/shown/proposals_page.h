#pragma once
// The list of proposals as it is shown: what reading the narration suggests and nobody has looked at yet, in the order
// of the film, each with why it was proposed. Made anew when the record or the search changes. Pure.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/shown/outlook.h"
#include "desk/shown/sheet.h"

namespace sash::desk {

struct ProposalRow {
  session::ThingRef thing;
  Moment film;
  std::string title;  ///< "20 mL", "in solution", "danger"
  std::string about;  ///< its substance and what it is about, the figures it ties, what harms
  std::string why;    ///< "volume of strength, 85 % sure"
  Icon icon = Icon::figure;
  std::optional<Family> family;  ///< of a figure: its sign instead of the icon
  std::optional<Safety> safety;  ///< of a hazard or a callout
  bool wrong = false;            ///< it would stand in a conflict: a figure that may be wrong, a relation that fails
};

struct ProposalsShown {
  std::vector<ProposalRow> rows;
  std::string heading;                    ///< "Proposals 41"
  std::vector<session::ThingRef> things;  ///< one a row
  std::vector<session::ThingRef> sure;    ///< those that may be taken unseen
  std::string accept_all;                 ///< what taking these is called: "Accept 41 sure"
  std::string outlook;                    ///< "If accepted: 2 conflicts"; empty where that was not worked out
  bool outlook_bad = false;
};

/// `stops` are the proposals of the sheet, in its order.
ProposalsShown show_proposals(const model::Record& record, const std::vector<PinStop>& stops,
                              const std::optional<Outlook>& outlook);

/// The row of the selected thing; nothing when it is none of them.
std::optional<std::size_t> row_of(const ProposalsShown& shown, const Selection& selection);

}  // namespace sash::desk
