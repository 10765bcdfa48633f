#include "script/inner/sections.h"

#include <fmt/format.h>

#include <algorithm>

#include "model/names.h"
#include "plot/relation_plot.h"
#include "safety/callout_text.h"
#include "safety/reading.h"
#include "script/film_time.h"
#include "script/inner/html.h"
#include "script/inner/plot_svg.h"
#include "support/text.h"
#include "workings/to_look_at.h"

namespace sash::script::inner {
namespace {

using workings::Finding;
using workings::Verdict;

std::string relation_title(const Materials& m, const Finding& finding) {
  if (!finding.relation) return "Several relations together";
  const auto* relation = model::find(m.record, *finding.relation);
  if (relation != nullptr && !relation->label.empty()) return relation->label;
  return finding.type ? replace_all(std::string(model::name_of(*finding.type)), "_", " ") : "Relation";
}

// The moment to look at, the same one the desk goes to.
std::string when_text(const Materials& m, const FilmTime& film, const Finding& finding) {
  const auto id = workings::figure_to_look_at(finding);
  const auto* figure = id ? model::find(m.record, *id) : nullptr;
  return figure != nullptr ? clock_text(film.of(figure->place)) : "";
}

std::string list_of(const std::vector<std::string>& items, const char* css) {
  if (items.empty()) return {};
  std::string out = fmt::format("<ul class=\"{}\">", css);
  for (const auto& item : items) out += "<li>" + escaped(item) + "</li>";
  return out + "</ul>";
}

std::string culprits_and_explanations(const Finding& finding) {
  std::vector<std::string> culprits;
  for (const auto& culprit : finding.culprits) culprits.push_back(culprit.sentence);
  std::vector<std::string> explanations;
  for (const auto& explanation : finding.explanations) explanations.push_back(explanation.sentence);
  std::string out;
  if (!culprits.empty()) out += "<p class=\"lead\">Most likely wrong</p>" + list_of(culprits, "culprits");
  if (!explanations.empty())
    out += "<p class=\"lead\">What would explain it</p>" + list_of(explanations, "explanations");
  return out;
}

// What cannot be is marked like what is not settled.
std::string_view css_of(const Finding& finding) {
  const bool doubtful = !finding.remark.empty() && finding.verdict != Verdict::conflicts;
  return workings::name_of(doubtful ? Verdict::unsettled : finding.verdict);
}

std::string told(const Finding& finding) {
  return finding.remark.empty() ? finding.sentence : finding.sentence + " " + finding.remark;
}

}  // namespace

std::string summary_html(const Materials& m) {
  const auto figures = std::count_if(m.record.figures.begin(), m.record.figures.end(),
                                     [](const auto& f) { return f.origin.standing != model::Standing::refused; });
  std::string out = "<section class=\"summary\"><table><tr>";
  const auto cell = [&](const char* css, auto count, std::string_view word) {
    out += fmt::format("<td class=\"{}\"><b>{}</b><br>{}</td>", css, count, escaped(word));
  };
  cell("", figures, figures == 1 ? "figure" : "figures");
  for (const Verdict verdict : {Verdict::conflicts, Verdict::unsettled, Verdict::agrees_as_rounded, Verdict::agrees}) {
    cell(std::string(workings::name_of(verdict)).c_str(), m.report.count(verdict), workings::label_of(verdict));
  }
  cell("", m.cover.hazards, m.cover.hazards == 1 ? "hazard" : "hazards");
  cell(m.cover.covered == m.cover.hazards ? "agrees" : "conflicts", m.cover.hazards - m.cover.covered,
       "without full cover");
  return out +
         "</tr></table><p class=\"caution\">Screening estimates made from what was said and shown. They do not replace "
         "a risk "
         "assessment: local codes, the safety officer and licensed practice decide what may be done and "
         "shown.</p></section>\n";
}

std::string attention_html(const Materials& m) {
  const FilmTime film(m.record);
  std::string items;
  for (const Finding& finding : m.report.findings) {
    if (finding.verdict != Verdict::conflicts && finding.remark.empty()) continue;
    items +=
        fmt::format("<li class=\"{}\"><b>{} {}</b>: {}{}</li>\n", css_of(finding), when_text(m, film, finding),
                    escaped(relation_title(m, finding)), escaped(told(finding)), culprits_and_explanations(finding));
  }
  for (const auto& finding : m.cover.findings) {
    if (finding.gap == safety::Gap::none) continue;
    const auto* hazard = model::find(m.record, finding.hazard);
    const Moment at = hazard != nullptr ? film.of(hazard->place.footage, finding.at) : finding.at;
    items += fmt::format("<li class=\"gap\"><b>{} {}</b>: {}</li>\n", clock_text(at),
                         escaped(safety::gap_label(finding.gap)), escaped(finding.sentence));
  }
  if (items.empty())
    return "<section><h2>Needs attention</h2><p>Nothing: no conflict was found, and every hazard is "
           "covered.</p></section>\n";
  return "<section><h2>Needs attention</h2><ol class=\"attention\">\n" + items + "</ol></section>\n";
}

std::string workings_html(const Materials& m) {
  if (m.report.findings.empty()) return {};
  const FilmTime film(m.record);
  std::string out = "<section><h2>Workings</h2>\n";
  for (const Finding& finding : m.report.findings) {
    out += fmt::format(
        "<article class=\"finding {}\"><h3>{} <small>{}</small> <span class=\"verdict\">{}</span></h3><p>{}</p>",
        css_of(finding), escaped(relation_title(m, finding)), when_text(m, film, finding),
        escaped(workings::label_of(finding)), escaped(told(finding)));
    if (!finding.workings.empty()) {
      out += "<div class=\"workings\">";
      for (const auto& line : finding.workings.lines) out += "<div>" + typeset(line) + "</div>";
      out += "</div>";
    }
    const auto* relation = finding.relation ? model::find(m.record, *finding.relation) : nullptr;
    if (relation != nullptr) {
      if (const auto diagram = plot::plot_of(*relation, m.report)) out += plot_svg(*diagram);
    }
    if (!finding.tolerance_reason.empty())
      out += "<p class=\"tolerance\">" + escaped(finding.tolerance_reason) + "</p>";
    out += list_of(finding.missing, "missing") + list_of(finding.notes, "notes") + culprits_and_explanations(finding) +
           "</article>\n";
  }
  return out + "</section>\n";
}

std::string hazards_html(const Materials& m) {
  const FilmTime film(m.record);
  std::vector<const model::Hazard*> hazards;
  for (const auto& hazard : m.record.hazards) {
    if (hazard.origin.standing != model::Standing::refused) hazards.push_back(&hazard);
  }
  if (hazards.empty()) return {};
  std::stable_sort(hazards.begin(), hazards.end(),
                   [&](const auto* a, const auto* b) { return film.of(a->place) < film.of(b->place); });
  const auto& limits = safety::reading_profile(m.record.bench.reading_profile);
  std::string out =
      "<section><h2>Hazards and callouts</h2><table "
      "class=\"hazards\"><thead><tr><th>From</th><th>To</th><th>Hazard</th>"
      "<th>Route</th><th>Callouts</th><th>Cover</th></tr></thead><tbody>\n";
  for (const auto* hazard : hazards) {
    const Stretch span = film.span(hazard->place);
    out +=
        fmt::format("<tr class=\"{}\"><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>", model::name_of(hazard->level),
                    precise_text(span.from), hazard->place.until ? precise_text(span.until) : "open",
                    escaped(hazard->cause.empty() ? hazard->substance : hazard->cause), model::name_of(hazard->route));
    for (const auto& callout : m.record.callouts) {
      if (callout.origin.standing == model::Standing::refused) continue;
      if (std::find(callout.hazards.begin(), callout.hazards.end(), hazard->id) == callout.hazards.end()) continue;
      out += fmt::format("<div>{} <small>({}, {})</small></div>", escaped_lines(safety::read_text(callout)),
                         callout.delivery == model::Delivery::shown ? "shown" : "spoken",
                         precise_text(film.of(callout.place)));
    }
    out += "</td><td>";
    for (const auto& finding : m.cover.findings) {
      if (finding.hazard == hazard->id) out += "<div>" + escaped(safety::gap_label(finding.gap)) + "</div>";
    }
    out += "</td></tr>\n";
  }
  return out + fmt::format("</tbody></table><p><small>Reading time by \u201c{}\u201d: {}</small></p></section>\n",
                           escaped(limits.name), escaped(limits.source));
}

std::string constants_html(const Materials& m) {
  if (m.report.constants.empty()) return {};
  std::string out = "<section><h2>Constants and their sources</h2><table class=\"constants\"><tbody>\n";
  for (const auto& constant : m.report.constants) {
    out += fmt::format("<tr><td>{}</td><td>{}</td><td>{}</td></tr>\n", escaped(constant.name), escaped(constant.text),
                       escaped(constant.source));
  }
  return out + "</tbody></table></section>\n";
}

}  // namespace sash::script::inner
