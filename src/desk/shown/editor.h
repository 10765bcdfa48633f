#pragma once
// The pin editor: what stands in its fields for the selected pin, and what the pin becomes when a field is committed.
// Every field is committed by itself, so each is one undoable edit and nothing waits for an "OK". Pure.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/shown/selection.h"
#include "desk/shown/tone.h"
#include "safety/cover.h"
#include "support/outcome.h"

namespace sash::desk {

/// Fields that take text.
enum class PinField {
  typed,  ///< a figure's quick field: "20 mL 6 M nitric acid"
  value,
  upper,
  unit,
  half_width,
  subject,
  label,
  cause,
  substance,
  note,
  text,   ///< of a callout or a note
  title,  ///< of a chapter
  from,
  until,
};

/// What stands in the field for this thing; empty for a field it does not have.
std::string field_text(const model::Thing& thing, PinField field);

/// The thing with the field changed to `text`.
/// Fails: Code::malformed or Code::unknown_name with a sentence that fits under the field; Code::wrong_use for a field
/// the thing does not have.
Outcome<model::Thing> with_field(const model::Thing& thing, PinField field, std::string_view text);

/// Reads "83.5", "1:23.5" or "1:02:03.5" as a moment. Fails: Code::malformed.
Outcome<Moment> read_clock(std::string_view text);

/// The name of an edit of this thing: "Edit figure".
std::string edit_name(const model::Thing& thing);

/// A hazard a callout may announce, to be ticked.
struct HazardChoice {
  model::HazardId hazard;
  std::string words;
  bool tied = false;
};

/// Something that would close a gap in the cover, ready to be done.
struct Mend {
  std::string words;  ///< "Show it for 13.5 s"
  model::Callout callout;
};

/// What the editor shows beside the fields.
struct EditorShown {
  std::optional<model::Thing> thing;  ///< nothing selected, or no pin
  std::string title;                  ///< "Figure", "Hazard", ...
  Icon icon = Icon::none;
  bool proposed = false;
  std::string origin;                      ///< "proposed by “volume of strength”, 85 % sure"; empty by hand
  std::vector<std::string> portion_names;  ///< first "no portion"
  std::vector<std::optional<model::PortionId>> portions;
  std::size_t portion = 0;
  std::vector<std::string> instruments;  ///< that measure such a figure; first the one it was read on, if any
  std::vector<std::string> remarks;      ///< cover findings of a hazard, why a figure is uncertain
  std::vector<HazardChoice> hazards;     ///< for a callout
  std::vector<Mend> mends;               ///< for a callout
  bool read_only = false;
};

EditorShown show_editor(const model::Record& record, const safety::Cover& cover, const Selection& selection,
                        bool read_only);

/// The callout a hazard wants: three seconds ahead of it, a second into it, with a text to start from.
model::Callout callout_for(const model::Hazard& hazard);

}  // namespace sash::desk
