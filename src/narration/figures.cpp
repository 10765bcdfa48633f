#include "narration/figures.h"

#include "narration/inner/encoding.h"
#include "narration/inner/scene.h"
#include "support/check.h"

namespace sash::narration {

namespace {

std::vector<SpokenPiece> pieces_of(const Scene& scene, const Phrase& p) {
  std::vector<SpokenPiece> pieces;
  for (std::size_t i = p.first; i < p.last; ++i) {
    const Token& t = scene.tokens[i];
    if (pieces.empty() || pieces.back().line != t.line) {
      pieces.push_back({t.line, t.begin, t.end - t.begin});
    } else {
      pieces.back().length = t.end - pieces.back().begin;
    }
  }
  return pieces;
}

std::string text_of(std::span<const model::NarrationLine> lines, const std::vector<SpokenPiece>& pieces) {
  std::string text;
  for (const SpokenPiece& piece : pieces) {
    if (!text.empty()) text += '\n';
    text += lines[piece.line].text.substr(piece.begin, piece.length);
  }
  return text;
}

model::Reading reading_of(const Phrase& p) {
  model::Reading r;
  r.value = p.value;
  r.upper = p.upper;
  r.digits = p.digits;
  r.unit = p.unit;
  r.hedge = p.hedge;
  return r;
}

SpokenFigure figure_of(const Scene& scene, const Draft& d, std::span<const model::NarrationLine> lines) {
  const Phrase& p = scene.phrase_of(d);
  SpokenFigure f;
  f.pieces = pieces_of(scene, p);
  f.text = text_of(lines, f.pieces);
  f.kind = p.kind;
  f.reading = reading_of(p);
  f.half_width = p.half_width;
  f.subject = d.subject;
  f.role = d.role;
  f.unit_said = p.unit_said;
  f.rule = p.rule;
  f.subject_rule = d.subject_rule;
  f.confidence = p.confidence;
  f.subject_sure = d.subject_sure;
  f.role_sure = d.role_sure;
  f.sample_sure = d.sample_sure;
  f.same_sample_as = d.same_as;
  f.corrected_by = d.corrected_by;
  f.attached_to = d.attached_to;
  f.fraction_of = d.fraction_of;
  f.sum_of = d.sum_of;
  f.count_times_each = d.count_times_each;
  f.molar_mass = d.molar_mass;
  return f;
}

}  // namespace

Reading read_figures(std::span<const model::NarrationLine> lines) { return read_figures(lines, Study{}); }

Reading read_figures(std::span<const model::NarrationLine> lines, Study study) {
  const Scene scene = read_scene(lines, study);
  Reading out;
  out.figures.reserve(scene.figures.size());
  for (const Draft& d : scene.figures) out.figures.push_back(figure_of(scene, d, lines));
  for (const Phrase& p : scene.phrases) {
    if (p.fate != Fate::capacity) continue;
    SpokenCapacity c;
    c.pieces = pieces_of(scene, p);
    c.text = text_of(lines, c.pieces);
    c.kind = p.kind;
    c.reading = reading_of(p);
    out.capacities.push_back(std::move(c));
  }
  return out;
}

Reading read_figures(const NarrationText& text) { return read_figures(std::span(text.lines)); }

PlaceInFile place_in_file(const NarrationText& text, const SpokenPiece& piece) {
  promise(piece.line < text.sources.size(), "a piece stands in a line of its narration");
  const LineSource& source = text.sources[piece.line];
  const std::string_view line = text.lines[piece.line].text;
  return {source.cue, source.at + characters(line.substr(0, piece.begin))};
}

}  // namespace sash::narration
