#include "script/figures_csv.h"

#include <fmt/format.h>

#include <algorithm>

#include "model/names.h"
#include "script/film_time.h"

namespace sash::script {
namespace {

std::string quoted(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string words(std::string_view text) {
  const bool formula = !text.empty() && (text[0] == '=' || text[0] == '+' || text[0] == '-' || text[0] == '@');
  return quoted(formula ? "'" + std::string(text) : std::string(text));
}

std::string number(const std::optional<double>& n) { return n ? fmt::format("{}", *n) : ""; }

std::vector<const model::Figure*> in_order_of_time(const model::Record& record, const FilmTime& film) {
  std::vector<const model::Figure*> out;
  for (const auto& figure : record.figures) {
    if (figure.origin.standing != model::Standing::refused) out.push_back(&figure);
  }
  std::stable_sort(out.begin(), out.end(),
                   [&](const auto* a, const auto* b) { return film.of(a->place) < film.of(b->place); });
  return out;
}

}  // namespace

std::string figures_csv(const Materials& m) {
  const FilmTime film(m.record);
  std::string out =
      "id,time_s,until_s,label,kind,value,upper,unit,hedge,standard_uncertainty,uncertainty_reason,substance,portion,"
      "role,source,"
      "standing,reconciled_value,reconciled_uncertainty\r\n";
  for (const auto* f : in_order_of_time(m.record, film)) {
    const Stretch span = film.span(f->place);
    const auto* portion = f->portion ? model::find(m.record, *f->portion) : nullptr;
    const auto* state = m.report.find(f->id);
    std::vector<std::string> cells{
        std::to_string(f->id.number),
        fmt::format("{:.3f}", span.from.in_seconds()),
        f->place.until ? fmt::format("{:.3f}", span.until.in_seconds()) : "",
        words(f->label),
        std::string(quantity::kind_name(f->kind)),
        f->reading ? fmt::format("{}", f->reading->value) : "",
        f->reading ? number(f->reading->upper) : "",
        f->reading ? words(f->reading->unit) : "",
        f->reading ? std::string(model::name_of(f->reading->hedge)) : "",
        state != nullptr && state->said ? fmt::format("{:.4g}", state->said->spread) : "",
        state != nullptr ? words(state->doubt) : "",
        words(f->subject),
        portion != nullptr ? words(portion->name) : "",
        std::string(model::name_of(f->role)),
        std::string(model::name_of(f->source)),
        std::string(model::name_of(f->origin.standing)),
        state != nullptr && state->reconciled ? fmt::format("{:.6g}", state->reconciled->value) : "",
        state != nullptr && state->reconciled ? fmt::format("{:.4g}", state->reconciled->spread) : "",
    };
    for (std::size_t i = 0; i < cells.size(); ++i) out += (i == 0 ? "" : ",") + cells[i];
    out += "\r\n";
  }
  return out;
}

}  // namespace sash::script
