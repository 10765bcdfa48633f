#pragma once
// Intent: what the person wants done, as a value. Pages make intents, the session carries them out; commands use the
// same. Everything that changes the record ends as one undoable edit. Pure values.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "model/edit.h"

namespace sash::session {

/// Any one thing of the record.
using ThingRef = std::variant<model::FootageId, model::LineId, model::PortionId, model::FigureId, model::HazardId,
                              model::CalloutId, model::NoteId, model::ChapterId, model::RelationId>;

// --- the record itself
struct OpenRecord {
  std::string path;
};
struct BeginRecord {
  std::string path;
  std::vector<std::string> footage;
  std::vector<std::string> narration;
};
struct OpenDemo {};
struct CloseRecord {};
/// Footage or narration by content; onto the open record, or onto a new one beside the first file when none is open.
struct AddFiles {
  std::vector<std::string> paths;
};
/// Captions, a transcript or a script as text (pasted), onto the open record or a new one. Text without times is spread
/// from the playing moment on.
struct AddText {
  std::string text;
};
/// The footage was moved: this is where it is now (checked by content).
struct FindFootageAgain {
  model::FootageId footage;
  std::string path;
};
struct SaveCopy {
  std::string path;
};

// --- transport
struct TogglePlay {};
/// J, K and L: -1 faster backwards, 0 stop, +1 faster forwards.
struct Shuttle {
  int direction = 0;
};
struct SetSpeed {
  double speed = 1.0;
};  ///< 0.25 to 4
struct StepFrames {
  int frames = 1;
};
/// `settled` false while scrubbing: a near picture will do until the hand stops.
struct Seek {
  model::FootageId footage;
  Moment to;
  bool settled = true;
};
struct LoopOver {
  std::optional<Stretch> span;
};  ///< nothing: no loop
struct SetVolume {
  double volume = 1.0;
};  ///< 0 to 1

// --- pins
enum class PinKind { figure, yield, hazard, note, chapter };
/// A pin of that kind at the playing moment; the new thing becomes the one just made (SessionView::just_made).
struct PinHere {
  PinKind kind = PinKind::figure;
};
/// The second press: the span of this pin ends at the playing moment.
struct EndSpanHere {
  ThingRef thing;
};
/// What was typed in a pin's field ("20 mL 6 M nitric acid"): fills the figure and makes those attached to it.
struct TypeFigure {
  model::FigureId figure;
  std::string text;
};
/// Words of a narration line become a figure at their time.
struct PinWords {
  model::Words words;
};
/// Makes or replaces one thing; an id of 0 means new.
struct PutThing {
  model::Thing thing;
  std::string name;
};
struct PutBench {
  model::Bench bench;
};
/// Moves the pin's start to `from`, its span with it. A narration line pushes on those it would run into.
struct MovePin {
  ThingRef thing;
  Moment from;
};
/// Removes things and what cannot stand without them (relations of a figure, callouts' ties to a hazard).
struct RemoveThings {
  std::vector<ThingRef> things;
};
struct Accept {
  std::vector<ThingRef> things;
};  ///< proposals become confirmed
struct Refuse {
  std::vector<ThingRef> things;
};
struct Undo {};
struct Redo {};

// --- narration
/// Reads all narration again and proposes what is not there yet; what was confirmed or refused stays.
struct ReadNarration {};

// --- background work
/// Gives up the long work of that name (Job::what).
struct StopWork {
  std::string what;
};

// --- handing over
struct ExportScript {
  std::string folder;
};

using Intent = std::variant<OpenRecord, BeginRecord, OpenDemo, CloseRecord, AddFiles, AddText, FindFootageAgain,
                            SaveCopy, TogglePlay, Shuttle, SetSpeed, StepFrames, Seek, LoopOver, SetVolume, PinHere,
                            EndSpanHere, TypeFigure, PinWords, PutThing, PutBench, MovePin, RemoveThings, Accept,
                            Refuse, Undo, Redo, ReadNarration, StopWork, ExportScript>;

}  // namespace sash::session
