#pragma once
// The running sheet as it is shown: everything of the record laid out on one elastic time axis, ready to be drawn by
// looking up the visible part. Made anew when the record, its findings, the search or the width change, never per
// frame. Not the scroll position, the selection or the playhead: those change every frame and are page state. Pure
// values; const calls are safe from any thread.

#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "desk/shown/elastic.h"
#include "desk/shown/film.h"
#include "desk/shown/measure.h"
#include "desk/shown/selection.h"
#include "desk/shown/span_index.h"
#include "desk/shown/tone.h"
#include "safety/cover.h"

namespace sash::desk {

/// The worst verdict of the findings a figure is in.
using FigureVerdicts = std::unordered_map<model::FigureId, Verdict>;

/// Columns from left to right, in pixels from the sheet's left edge; a column of no width is left out.
struct SheetColumns {
  struct Column {
    float x = 0;
    float width = 0;
    float right() const { return x + width; }
  };
  Column scale;
  Column picture;
  Column wave;
  Column sound;
  Column figures;
  Column safety;
};

/// Shares `width` out; `em` is the height of the reading face. The picture column goes first when room is short.
/// `pictures`: the record has footage; without any, the narration takes the place of stills and waveform.
SheetColumns share_columns(float width, float em, bool pictures = true);

/// Sizes that layout needs to know of the drawing.
struct SheetStyle {
  SheetColumns columns;
  const Measure& body;
  const Measure& small;
  float gap = 6;    ///< between blocks
  float inset = 8;  ///< of text inside its column or box
  float lane = 9;   ///< width of one hazard band
  float sign = 18;  ///< width of a sign before a title
};

/// Words of a line that state a figure.
struct WordMark {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  model::FigureId figure;
  Family family = Family::other;
  bool proposed = false;
};

struct LineShown {
  model::LineId id;
  Stretch when;  ///< film time
  std::string text;
  std::string speaker;  ///< where it changes; empty otherwise
  std::vector<TextRow> rows;
  std::vector<WordMark> marks;  ///< by begin
  bool noise = false;
  bool dimmed = false;  ///< the search looks for something else
};

struct NoteShown {
  model::NoteId id;
  Moment at;
  std::string text;
  std::vector<TextRow> rows;
};

struct ChapterShown {
  model::ChapterId id;
  Moment at;
  std::string title;
};

struct FigureShown {
  model::FigureId id;
  Moment at;
  std::string title;    ///< "20 mL"
  std::string subject;  ///< "nitric acid", or the label where it is about no substance; may be empty
  Family family = Family::other;
  std::optional<Verdict> verdict;
  bool proposed = false;
  bool superseded = false;  ///< corrected later
};

struct HazardShown {
  model::HazardId id;
  Stretch span;  ///< film time
  bool open_end = false;
  std::uint32_t lane = 0;
  Safety tone = Safety::warning;
  Harm harm = Harm::other;
  std::string cause;
  std::vector<TextRow> rows;
  safety::Gap gap = safety::Gap::none;
  std::string gap_words;  ///< empty when covered
  std::vector<TextRow> gap_rows;
  bool proposed = false;
};

struct CalloutShown {
  model::CalloutId id;
  Stretch span;
  Safety tone = Safety::warning;
  std::string_view delivery;
  std::string text;
  std::vector<TextRow> rows;
  bool proposed = false;
  bool tied = true;  ///< announces at least one hazard
};

/// What a block of the elastic sheet is: a kind and its place in the list of that kind.
struct SheetItem {
  enum class Kind : std::uint8_t { line, note, chapter, figure, hazard, callout, gap };
  Kind kind = Kind::line;
  std::uint32_t index = 0;
  float height = 0;
};

/// A place that "next" and "previous" stop at.
struct PinStop {
  Moment at;  ///< film time
  session::ThingRef thing;
};

struct SheetShown {
  static constexpr std::uint32_t sound_column = 0;
  static constexpr std::uint32_t figure_column = 1;
  static constexpr std::uint32_t safety_column = 2;

  Film film;
  SheetColumns columns;
  Elastic elastic;
  std::vector<SheetItem> items;  ///< one a block of `elastic`
  std::vector<LineShown> lines;
  std::vector<NoteShown> notes;
  std::vector<ChapterShown> chapters;
  std::vector<FigureShown> figures;
  std::vector<HazardShown> hazards;  ///< by start
  SpanIndex hazard_spans;            ///< over `hazards`
  std::vector<CalloutShown> callouts;
  std::vector<Moment> marks;                                      ///< labelled moments of the scale
  std::vector<PinStop> stops;                                     ///< all pins the search finds, by time
  std::vector<PinStop> proposals;                                 ///< those nobody has looked at
  std::uint32_t lanes = 0;                                        ///< hazard bands side by side
  std::size_t hits = 0;                                           ///< pins and lines the search found
  std::size_t pins = 0;                                           ///< pins there are
  std::unordered_map<std::int64_t, std::uint32_t> block_of_line;  ///< line id to block
  std::unordered_map<std::int64_t, std::uint32_t> block_of_figure;
};

/// What the sheet is made from.
struct SheetSource {
  const model::Record& record;
  const safety::Cover& cover;
  const FigureVerdicts& verdicts;
  std::string_view search;
};

SheetShown show_sheet(const SheetSource& source, const SheetStyle& style);

/// The stop after (`by` 1) or before (-1) the selected thing, or else the moment; nothing at the ends.
std::optional<PinStop> step_stop(const std::vector<PinStop>& stops, const Selection& selection, Moment now, int by);

}  // namespace sash::desk
