#include "scoring/predictions.h"

#include "model/names.h"

namespace sash::test {

namespace {

using nlohmann::json;

double seconds(Moment m) { return static_cast<double>(m.in_millis()) / 1000; }

json place(const narration::NarrationText& text, const std::vector<narration::SpokenPiece>& pieces,
           const std::string& all) {
  json out;
  json parts = json::array();
  for (const auto& piece : pieces) {
    const auto where = narration::place_in_file(text, piece);
    parts.push_back({{"t0", seconds(where.cue)},
                     {"text", text.lines[piece.line].text.substr(piece.begin, piece.length)},
                     {"at", where.at}});
  }
  out["t0"] = parts[0]["t0"];
  out["at"] = parts[0]["at"];
  out["text"] = all;
  if (parts.size() > 1) out["parts"] = parts;
  return out;
}

json optional(const std::optional<std::size_t>& index) { return index ? json(*index) : json(); }

}  // namespace

json predictions(const narration::NarrationText& text, const narration::Reading& reading) {
  json figures = json::array();
  for (const auto& f : reading.figures) {
    json out = place(text, f.pieces, f.text);
    // The labels know no mass concentration: it is a mass per volume like a density.
    const auto kind = f.kind == quantity::Kind::mass_concentration ? quantity::Kind::density : f.kind;
    out["kind"] = quantity::kind_name(kind);
    out["value"] = f.reading.upper ? json::array({f.reading.value, *f.reading.upper}) : json(f.reading.value);
    out["unit"] = f.reading.unit;
    out["approx"] = model::name_of(f.reading.hedge);
    out["subject"] = f.subject.empty() ? json() : json(f.subject);
    out["role"] = model::name_of(f.role);
    out["same_sample_as"] = optional(f.same_sample_as);
    out["corrected_by"] = optional(f.corrected_by);
    if (f.attached_to) out["attached_to"] = *f.attached_to;
    if (f.fraction_of) out["fraction_of"] = *f.fraction_of;
    if (!f.sum_of.empty()) out["sum_of"] = f.sum_of;
    out["rule"] = f.rule;
    out["subject_rule"] = f.subject_rule;
    figures.push_back(std::move(out));
  }
  json capacities = json::array();
  for (const auto& c : reading.capacities) capacities.push_back(place(text, c.pieces, c.text));
  return {{"figures", figures}, {"capacities", capacities}};
}

}  // namespace sash::test
