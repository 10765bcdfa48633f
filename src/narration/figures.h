#pragma once
// The figures that a narration states: what each says, what it is about, and how they hang together. Rules and tables
// find the figures; where several answers are possible, cues are weighed by a table that was fitted to labelled
// narrations (inner/evidence.h). The same words always give the same reading, and every figure names the rule that made
// it. Does not make things of a record (propose.h) and judges no figure right or wrong (workings does). Pure; safe from
// any thread; linear in the length of the text. English only.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "model/figure.h"
#include "narration/text.h"

namespace sash::narration {

/// Part of a figure's words: bytes [begin, begin + length) of the text of line `line`.
struct SpokenPiece {
  std::size_t line = 0;
  std::uint32_t begin = 0;
  std::uint32_t length = 0;
  bool operator==(const SpokenPiece&) const = default;
};

struct SpokenFigure {
  std::vector<SpokenPiece> pieces;  ///< one for each line it runs over, never empty
  std::string text;                 ///< its words, pieces joined by \n
  quantity::Kind kind = quantity::Kind::other;
  model::Reading reading;
  std::optional<double> half_width;  ///< a stated plus-minus, in the unit of the reading
  std::string subject;               ///< normalised; empty when it is about no substance
  model::Role role = model::Role::other;
  bool unit_said = true;
  std::string rule;          ///< what made it a figure
  std::string subject_rule;  ///< what told its subject
  double confidence = 1;     ///< 0 to 1, that it is a figure
  // How sure the answers are that were weighed against others, 0 to 1.
  double subject_sure = 1;
  double role_sure = 1;
  double sample_sure = 1;  ///< same_sample_as, or that it restates nothing
  // Places in Reading::figures.
  std::optional<std::size_t> same_sample_as;  ///< always the first that stands
  std::optional<std::size_t> corrected_by;
  std::optional<std::size_t> attached_to;
  std::optional<std::size_t> fraction_of;
  std::vector<std::size_t> sum_of;
  bool count_times_each = false;     ///< sum_of is a count and what each of them is, to be multiplied
  std::optional<double> molar_mass;  ///< g/mol, as said where this restates an amount or a mass ("times 63.5")
};

/// A quantity that is no figure of the procedure: how much a vessel holds, what a supply is rated for.
struct SpokenCapacity {
  std::vector<SpokenPiece> pieces;
  std::string text;
  quantity::Kind kind = quantity::Kind::other;
  model::Reading reading;
};

struct Reading {
  std::vector<SpokenFigure> figures;  ///< in the order of the narration
  std::vector<SpokenCapacity> capacities;
};

Reading read_figures(std::span<const model::NarrationLine> lines);
Reading read_figures(const NarrationText& text);

/// Where a piece stood in the file: the start of its cue or paragraph, and the character of that cue's text.
struct PlaceInFile {
  Moment cue;
  std::uint32_t at = 0;
};
/// Requires: `piece` is of a reading of `text`.
PlaceInFile place_in_file(const NarrationText& text, const SpokenPiece& piece);

}  // namespace sash::narration
