#include "narration/figures.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/time_text.h"
#include "model/names.h"
#include "session/importing.h"
#include "support/text.h"

namespace sash::cli {
namespace {

using narration::NarrationText;
using narration::SpokenFigure;
using narration::SpokenPiece;
using nlohmann::ordered_json;

std::string words_of(const NarrationText& text, const SpokenPiece& piece) {
  return text.lines[piece.line].text.substr(piece.begin, piece.length);
}

// Times to the millisecond, as captions have them.
double seconds(Moment at) { return static_cast<double>(at.in_millis()) / 1000; }

ordered_json index_or_null(const std::optional<std::size_t>& index) {
  return index ? ordered_json(*index) : ordered_json(nullptr);
}

void put_place(ordered_json& out, const NarrationText& text, const std::vector<SpokenPiece>& pieces,
               const std::string& words) {
  const auto first = narration::place_in_file(text, pieces.front());
  out["t0"] = seconds(first.cue);
  out["at"] = first.at;
  out["text"] = words;
  if (pieces.size() < 2) return;
  auto& parts = out["parts"] = ordered_json::array();
  for (const auto& piece : pieces) {
    const auto place = narration::place_in_file(text, piece);
    parts.push_back({{"t0", seconds(place.cue)}, {"text", words_of(text, piece)}, {"at", place.at}});
  }
}

void put_reading(ordered_json& out, quantity::Kind kind, const model::Reading& reading) {
  out["kind"] = quantity::kind_name(kind);
  out["value"] = reading.upper ? ordered_json{reading.value, *reading.upper} : ordered_json(reading.value);
  out["unit"] = reading.unit;
}

ordered_json as_json(const NarrationText& text, const SpokenFigure& figure) {
  ordered_json out;
  put_place(out, text, figure.pieces, figure.text);
  put_reading(out, figure.kind, figure.reading);
  out["approx"] = model::name_of(figure.reading.hedge);
  out["subject"] = figure.subject.empty() ? ordered_json(nullptr) : ordered_json(figure.subject);
  out["role"] = model::name_of(figure.role);
  out["same_sample_as"] = index_or_null(figure.same_sample_as);
  out["corrected_by"] = index_or_null(figure.corrected_by);
  if (figure.attached_to) out["attached_to"] = *figure.attached_to;
  if (figure.fraction_of) out["fraction_of"] = *figure.fraction_of;
  if (!figure.sum_of.empty()) out["sum_of"] = figure.sum_of;
  out["rule"] = figure.rule;
  out["confidence"] = figure.confidence;
  return out;
}

void print(const NarrationText& text, const narration::Reading& reading, std::ostream& out) {
  out << fmt::format("{:>4}  {:<12} {:<22} {:<20} {:<18} {:<26} {}\n", "", "time", "said", "kind", "value", "substance",
                     "part played");
  for (std::size_t i = 0; i < reading.figures.size(); ++i) {
    const auto& f = reading.figures[i];
    std::string value;
    if (f.reading.hedge != model::Hedge::exact && f.reading.hedge != model::Hedge::range)
      value = fmt::format("{} ", model::name_of(f.reading.hedge));
    value += fmt::format("{:g}", f.reading.value);
    if (f.reading.upper) value += fmt::format(" to {:g}", *f.reading.upper);
    value += " " + f.reading.unit;
    std::string tie;
    if (f.same_sample_as) tie += fmt::format("  same as {}", *f.same_sample_as);
    if (f.corrected_by) tie += fmt::format("  corrected by {}", *f.corrected_by);
    if (f.attached_to) tie += fmt::format("  of {}", *f.attached_to);
    if (f.fraction_of) tie += fmt::format("  part of {}", *f.fraction_of);
    for (const auto part : f.sum_of) tie += fmt::format("{} {}", part == f.sum_of.front() ? "  from" : ",", part);
    out << fmt::format("{:>4}  {:<12} {:<22} {:<20} {:<18} {:<26} {}{}\n", i,
                       time_text(narration::place_in_file(text, f.pieces.front()).cue), replace_all(f.text, "\n", " "),
                       quantity::kind_label(f.kind), value, f.subject,
                       replace_all(std::string(model::name_of(f.role)), "_", " "), tie);
  }
  out << reading.figures.size() << (reading.figures.size() == 1 ? " figure, " : " figures, ")
      << reading.capacities.size()
      << (reading.capacities.size() == 1 ? " capacity of a vessel\n" : " capacities of vessels\n");
}

}  // namespace

int figures(const std::string& narration, bool json, const Console& console) {
  const auto text = session::read_narration_file(narration);
  if (!text) return console.fail(text.fault());
  for (const auto& warning : text->warnings) console.err << warning << '\n';
  const auto reading = narration::read_figures(*text);
  if (!json) {
    print(*text, reading, console.out);
    return fine;
  }
  ordered_json out;
  auto& figures = out["figures"] = ordered_json::array();
  for (const auto& figure : reading.figures) figures.push_back(as_json(*text, figure));
  auto& capacities = out["capacities"] = ordered_json::array();
  for (const auto& capacity : reading.capacities) {
    ordered_json one;
    put_place(one, *text, capacity.pieces, capacity.text);
    put_reading(one, capacity.kind, capacity.reading);
    capacities.push_back(std::move(one));
  }
  console.out << out.dump(1) << '\n';
  return fine;
}

}  // namespace sash::cli
