#include "script/inner/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "model/names.h"
#include "quantity/show.h"
#include "quantity/unit.h"
#include "safety/callout_text.h"
#include "script/film_time.h"
#include "script/inner/html.h"
#include "script/inner/rows.h"
#include "support/text.h"

namespace sash::script::inner {
namespace {

// Each still is put into the page once, as a style class, because neighbouring rows may share one.
class Stills {
 public:
  explicit Stills(const Materials& m, const FilmTime& film) {
    for (const auto& still : m.stills) at_.emplace(film.of(still.footage, still.at), &still);
  }
  const StillPicture* for_row(const Row& row) const {
    auto it = at_.upper_bound(row.at + Moment::millis(100));
    if (it == at_.begin()) return nullptr;
    --it;
    return it->second->footage == row.place.footage ? it->second : nullptr;
  }

 private:
  std::map<Moment, const StillPicture*> at_;
};

// The narration with the words of its figures marked by kind.
std::string sound_cell(const Row& row) {
  if (row.line == nullptr) return "<span class=\"silent\">no speech</span>";
  const std::string& text = row.line->text;
  std::vector<const model::Figure*> marked;
  for (const auto* figure : row.figures) {
    if (figure->words && figure->words->line == row.line->id &&
        figure->words->begin + figure->words->length <= text.size()) {
      marked.push_back(figure);
    }
  }
  std::sort(marked.begin(), marked.end(),
            [](const auto* a, const auto* b) { return a->words->begin < b->words->begin; });
  std::string out;
  if (!row.line->speaker.empty()) out += "<b>" + escaped(row.line->speaker) + ":</b> ";
  std::size_t done = 0;
  for (const auto* figure : marked) {
    if (figure->words->begin < done) continue;
    out += escaped_lines(std::string_view(text).substr(done, figure->words->begin - done));
    done = figure->words->begin + figure->words->length;
    out += fmt::format("<a class=\"said\" href=\"#figure-{}\">{}</a>", figure->id.number,
                       escaped_lines(std::string_view(text).substr(figure->words->begin, figure->words->length)));
  }
  return out + escaped_lines(std::string_view(text).substr(done));
}

// The worst finding a figure stands in decides its mark; but of a conflict only its likely culprits bear it.
const workings::Finding* worst_for(const workings::Report& report, model::FigureId id) {
  const auto* state = report.find(id);
  const bool innocent = state != nullptr && state->blame == workings::Blame::involved;
  for (const auto& finding : report.findings) {  // worst first
    if (innocent && finding.verdict == workings::Verdict::conflicts) continue;
    if (std::find(finding.figures.begin(), finding.figures.end(), id) != finding.figures.end()) return &finding;
  }
  return nullptr;
}

std::string figures_cell(const Row& row, const workings::Report& report) {
  std::string out;
  for (const auto* figure : row.figures) {
    const auto* finding = worst_for(report, figure->id);
    const std::string verdict = finding != nullptr ? std::string(workings::name_of(finding->verdict)) : "unchecked";
    out += fmt::format("<div class=\"figure {}\" id=\"figure-{}\"><b>{}</b>", verdict, figure->id.number,
                       escaped(figure_text(*figure)));
    if (!figure->subject.empty()) out += " " + escaped(figure->subject);
    if (figure->source != model::Source::said)
      out += fmt::format(" <small>({})</small>", replace_all(std::string(model::name_of(figure->source)), "_", " "));
    if (figure->origin.standing == model::Standing::proposed) out += " <small>(proposed, not confirmed)</small>";
    if (finding != nullptr) {
      const bool says_so = finding->said && finding->said->figure == figure->id;
      const std::string label =
          says_so ? workings::label_of(*finding) : std::string(workings::label_of(finding->verdict));
      out += fmt::format("<br><small class=\"verdict\">{}</small>", escaped(label));
    }
    out += "</div>";
  }
  for (const auto* note : row.notes) out += "<div class=\"note\">" + escaped_lines(note->text) + "</div>";
  return out;
}

std::string safety_cell(const Row& row, const Materials& m, const FilmTime& film) {
  std::string out;
  for (const auto* hazard : row.hazards) {
    const Stretch span = film.span(hazard->place);
    out += fmt::format("<div class=\"hazard {}\"><b>{}</b> {}<br><small>{}, {} to {}</small>",
                       model::name_of(hazard->level),
                       "&#9650; Hazard:", escaped(hazard->cause.empty() ? hazard->substance : hazard->cause),
                       escaped(model::name_of(hazard->route)), clock_text(span.from),
                       hazard->place.until ? clock_text(span.until) : "its end");
    for (const auto& finding : m.cover.findings) {
      if (finding.hazard == hazard->id && finding.gap != safety::Gap::none) {
        out += fmt::format("<br><span class=\"gap\">{}</span>", escaped(safety::gap_label(finding.gap)));
      }
    }
    out += "</div>";
  }
  for (const auto* callout : row.callouts) {
    const Stretch span = film.span(callout->place);
    out += fmt::format("<div class=\"callout {}\">{}<br><small>{} {} to {}</small></div>",
                       model::name_of(callout->level), escaped_lines(safety::read_text(*callout)),
                       callout->delivery == model::Delivery::shown ? "shown" : "spoken", precise_text(span.from),
                       precise_text(span.until));
  }
  return out;
}

}  // namespace

std::string figure_text(const model::Figure& figure) {
  if (!figure.reading) return "wanted";
  const model::Reading& r = *figure.reading;
  const auto unit = quantity::Unit::parse(r.unit);
  const std::string symbol = unit ? std::string(unit->symbol()) : r.unit;
  const std::string lower = r.digits.empty() ? quantity::show_number(r.value) : r.digits;
  std::string text = r.upper ? lower + " to " + quantity::show_number(*r.upper) : lower;
  if (figure.kind == quantity::Kind::pH) return "pH " + text;
  if (!symbol.empty() && symbol != "1") text += "\u00A0" + symbol;
  switch (r.hedge) {
    case model::Hedge::about:
      return "about " + text;
    case model::Hedge::under:
      return "under " + text;
    case model::Hedge::over:
      return "over " + text;
    default:
      return text;
  }
}

std::string sheet_html(const Materials& m) {
  const FilmTime film(m.record);
  const Stills stills(m, film);
  const bool pictures = !m.stills.empty();  // narration without its footage has no such column
  std::string out = "<table class=\"sheet\"><thead><tr><th class=\"time\">Time</th>";
  if (pictures) out += "<th class=\"picture\">Picture</th>";
  out += "<th>Sound</th><th class=\"figures\">Figures</th><th class=\"safety\">Safety</th></tr></thead>\n<tbody>\n";
  const StillPicture* shown = nullptr;
  for (const Row& row : make_rows(m.record, film)) {
    if (row.chapter != nullptr) {
      out += "<tr class=\"chapter\"><th colspan=\"" + std::string(pictures ? "5" : "4") + "\">" +
             escaped(row.chapter->title) + "</th></tr>\n";
    }
    out += "<tr><td class=\"time\">" + precise_text(row.at) + "</td>";
    if (pictures) out += "<td class=\"picture\">";
    const StillPicture* still = stills.for_row(row);
    if (still != nullptr && still != shown) {
      out += "<img alt=\"Still at " + precise_text(film.of(still->footage, still->at)) +
             "\" src=\"data:image/jpeg;base64," + base64(still->jpeg) + "\">";
      shown = still;
    }
    if (pictures) out += "</td>";
    out += "<td class=\"sound\">" + sound_cell(row) + "</td><td>" + figures_cell(row, m.report) + "</td><td>" +
           safety_cell(row, m, film) + "</td></tr>\n";
  }
  return out + "</tbody></table>\n";
}

}  // namespace sash::script::inner
