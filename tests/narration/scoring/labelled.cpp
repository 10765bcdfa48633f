#include "scoring/labelled.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "model/names.h"

namespace sash::test {

namespace {

using narration::SpokenFigure;
using narration::SpokenPiece;
using nlohmann::json;

std::optional<std::size_t> index_of(const json& f, const char* key) {
  if (!f.contains(key) || !f[key].is_number_integer()) return std::nullopt;
  return f[key].get<std::size_t>();
}

/// Byte of character `at` of `text`.
std::size_t byte_of(const std::string& text, std::size_t at) {
  std::size_t byte = 0;
  for (; byte < text.size() && at > 0; --at) {
    do ++byte;
    while (byte < text.size() && (static_cast<unsigned char>(text[byte]) & 0xC0) == 0x80);
  }
  return byte;
}

std::optional<SpokenPiece> piece_of(const json& place, const narration::NarrationText& text) {
  const double t0 = place["t0"];
  const std::size_t at = place["at"];
  const std::string words = place["text"];
  for (std::size_t line = 0; line < text.lines.size(); ++line) {
    const auto& source = text.sources[line];
    if (std::abs(static_cast<double>(source.cue.in_millis()) / 1000 - t0) > 0.02 || at < source.at) continue;
    const std::size_t begin = byte_of(text.lines[line].text, at - source.at);
    if (text.lines[line].text.compare(begin, words.size(), words) != 0) continue;
    return SpokenPiece{line, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(words.size())};
  }
  return std::nullopt;
}

std::vector<SpokenPiece> pieces_of(const json& f, const narration::NarrationText& text) {
  std::vector<SpokenPiece> pieces;
  const json parts = f.contains("parts") && !f["parts"].empty() ? f["parts"] : json::array({f});
  for (const json& part : parts) {
    if (const auto piece = piece_of(part, text)) pieces.push_back(*piece);
  }
  return pieces;
}

const SpokenFigure* same_words(const narration::Reading& reading, const SpokenFigure& f) {
  for (const SpokenFigure& own : reading.figures) {
    for (const SpokenPiece& p : own.pieces) {
      const SpokenPiece& q = f.pieces.front();
      const bool overlaps = p.line == q.line && p.begin < q.begin + q.length && q.begin < p.begin + p.length;
      if (overlaps && own.reading.value == f.reading.value) return &own;
    }
  }
  return nullptr;
}

}  // namespace

narration::Reading labelled(const json& labels, const narration::NarrationText& text) {
  const narration::Reading own = narration::read_figures(text);
  narration::Reading out;
  for (const json& label : labels["figures"]) {
    SpokenFigure f;
    f.pieces = pieces_of(label, text);
    if (f.pieces.empty()) f.pieces.push_back({0, 0, 0});
    f.text = label["text"];
    f.kind = quantity::kind_from_name(label["kind"].get<std::string>()).value_or(quantity::Kind::other);
    f.reading.value = label["value"].is_array() ? label["value"][0].get<double>() : label["value"].get<double>();
    if (label["value"].is_array()) f.reading.upper = label["value"][1].get<double>();
    f.reading.unit = label["unit"];
    f.reading.hedge = model::from_name<model::Hedge>(label["approx"].get<std::string>()).value_or(model::Hedge::exact);
    f.reading.digits = fmt::format("{}", f.reading.value);
    if (const SpokenFigure* same = same_words(own, f)) f.reading.digits = same->reading.digits;
    if (label["subject"].is_string()) f.subject = label["subject"];
    f.role = model::from_name<model::Role>(label["role"].get<std::string>()).value_or(model::Role::other);
    f.same_sample_as = index_of(label, "same_sample_as");
    f.corrected_by = index_of(label, "corrected_by");
    f.attached_to = index_of(label, "attached_to");
    f.fraction_of = index_of(label, "fraction_of");
    f.rule = "labelled by hand";
    if (label.contains("sum_of") && label["sum_of"].is_array())
      f.sum_of = label["sum_of"].get<std::vector<std::size_t>>();
    f.count_times_each = std::any_of(f.sum_of.begin(), f.sum_of.end(),
                                     [&](std::size_t k) { return labels["figures"][k]["kind"] == "count"; });
    out.figures.push_back(std::move(f));
  }
  return out;
}

void make_wrong(narration::SpokenFigure& f) {
  const std::size_t point = f.reading.digits.find('.');
  const std::size_t decimals = point == std::string::npos ? 0 : f.reading.digits.size() - point - 1;
  const double wrong = 0.7 * f.reading.value;
  f.reading.digits = fmt::format("{:.{}f}", wrong, decimals);
  if (std::abs(std::stod(f.reading.digits) / wrong - 1) > 0.1) f.reading.digits = fmt::format("{:.2g}", wrong);
  f.reading.value = std::stod(f.reading.digits);
}

}  // namespace sash::test
