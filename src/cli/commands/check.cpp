#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/commands/open_to_read.h"
#include "cli/time_text.h"
#include "model/names.h"
#include "safety/cover.h"
#include "support/text.h"
#include "workings/check.h"

namespace sash::cli {
namespace {

using nlohmann::ordered_json;
using workings::Finding;
using workings::Reckoned;

ordered_json as_json(const std::optional<Reckoned>& value) {
  if (!value) return nullptr;
  return {{"figure", value->figure.number},
          {"value", value->value},
          {"uncertainty", value->spread},
          {"unit", value->unit},
          {"text", value->text}};
}

ordered_json as_json(const Finding& finding, const model::Record& record) {
  ordered_json out;
  out["relation"] = finding.relation ? ordered_json(finding.relation->number) : ordered_json(nullptr);
  out["type"] = finding.type ? ordered_json(model::name_of(*finding.type)) : ordered_json(nullptr);
  const auto* relation = finding.relation ? model::find(record, *finding.relation) : nullptr;
  out["label"] = relation != nullptr ? relation->label : "";
  out["verdict"] = workings::name_of(finding.verdict);
  auto& figures = out["figures"] = ordered_json::array();
  for (const auto id : finding.figures) figures.push_back(id.number);
  out["said"] = as_json(finding.said);
  out["computed"] = as_json(finding.computed);
  out["tolerance"] = finding.tolerance ? ordered_json(*finding.tolerance) : ordered_json(nullptr);
  out["tolerance_reason"] = finding.tolerance_reason;
  out["sentence"] = finding.sentence;
  auto& besides = out["besides"] = ordered_json::array();
  for (const auto& b : finding.besides) besides.push_back({{"name", b.name}, {"value", as_json(b.value)}});
  out["remark"] = finding.remark;
  out["missing"] = finding.missing;
  out["notes"] = finding.notes;
  auto& culprits = out["culprits"] = ordered_json::array();
  for (const auto& culprit : finding.culprits) {
    ordered_json should = ordered_json::array();
    for (const auto& value : culprit.should_be) should.push_back(as_json(value));
    culprits.push_back(
        {{"should_be", should}, {"tied", culprit.tied}, {"settles", culprit.settles}, {"sentence", culprit.sentence}});
  }
  auto& explanations = out["explanations"] = ordered_json::array();
  for (const auto& e : finding.explanations) {
    explanations.push_back(
        {{"kind", workings::name_of(e.kind)}, {"sentence", e.sentence}, {"would_be", as_json(e.would_be)}});
  }
  out["workings"] = workings::plain_text(finding.workings);
  return out;
}

ordered_json as_json(const model::Record& record, const workings::Report& report, const safety::Cover& cover) {
  ordered_json out;
  auto& findings = out["findings"] = ordered_json::array();
  for (const auto& finding : report.findings) findings.push_back(as_json(finding, record));
  auto& figures = out["figures"] = ordered_json::array();
  for (const auto& state : report.figures) {
    figures.push_back({{"figure", state.figure.number},
                       {"said", as_json(state.said)},
                       {"uncertainty_reason", state.doubt},
                       {"reconciled", as_json(state.reconciled)},
                       {"standardised", state.standardised ? ordered_json(*state.standardised) : ordered_json(nullptr)},
                       {"degrees_of_freedom", state.freedom ? ordered_json(*state.freedom) : ordered_json(nullptr)},
                       {"monte_carlo", state.drawn},
                       {"blame", workings::name_of(state.blame)}});
  }
  auto& hazards = out["cover"] = ordered_json::array();
  for (const auto& finding : cover.findings) {
    hazards.push_back({{"hazard", finding.hazard.number},
                       {"callout", finding.callout ? ordered_json(finding.callout->number) : ordered_json(nullptr)},
                       {"gap", safety::gap_name(finding.gap)},
                       {"at", finding.at.in_seconds()},
                       {"sentence", finding.sentence}});
  }
  auto& constants = out["constants"] = ordered_json::array();
  for (const auto& c : report.constants)
    constants.push_back({{"name", c.name}, {"text", c.text}, {"source", c.source}});
  return out;
}

std::string title(const Finding& finding, const model::Record& record) {
  const auto* relation = finding.relation ? model::find(record, *finding.relation) : nullptr;
  if (relation != nullptr && !relation->label.empty()) return relation->label;
  return finding.type ? replace_all(std::string(model::name_of(*finding.type)), "_", " ") : "Several relations";
}

std::string when(const Finding& finding, const model::Record& record) {
  std::optional<Moment> first;
  for (const auto id : finding.figures) {
    if (const auto* figure = model::find(record, id)) {
      const Moment at = model::film_start(record, figure->place.footage) + figure->place.from;
      first = first ? std::min(*first, at) : at;
    }
  }
  return first ? time_text(*first) : "-";
}

// What the sentence does not say already.
void print_besides(const Finding& finding, std::ostream& out) {
  std::string text;
  for (const auto& b : finding.besides) {
    if (!b.is_mass || finding.sentence.find(b.value.text) != std::string::npos) continue;
    text += (text.empty() ? "" : ", ") + b.name + " " + b.value.text;
  }
  if (!text.empty()) out << "    besides: " << text << '\n';
}

void print(const Finding& finding, const model::Record& record, std::ostream& out) {
  out << workings::label_of(finding) << "  " << when(finding, record) << "  " << title(finding, record) << "\n    "
      << finding.sentence << '\n';
  if (!finding.remark.empty()) out << "    But: " << finding.remark << '\n';
  const std::string written = workings::plain_text(finding.workings);
  for (const auto line : split_lines(written)) out << "      " << line << '\n';
  print_besides(finding, out);
  if (finding.verdict == workings::Verdict::conflicts && !finding.tolerance_reason.empty())
    out << "    " << finding.tolerance_reason << '\n';
  for (const auto& culprit : finding.culprits) out << "    " << culprit.sentence << '\n';
  for (const auto& explanation : finding.explanations) out << "    could be: " << explanation.sentence << '\n';
  for (const auto& note : finding.notes) {
    if (written.find(note) == std::string::npos) out << "    note: " << note << '\n';
  }
}

}  // namespace

int check(const std::string& path, bool json, const Console& console) {
  const auto opened = open_to_read(path, console);
  if (!opened) return console.fail(opened.fault());
  const model::Record& record = opened->record();
  const auto report = workings::check(record);
  const auto cover = safety::check_cover(record);
  const auto conflicts = report.count(workings::Verdict::conflicts);
  const auto remarks = report.remarks();
  const int gaps = cover.hazards - cover.covered;

  if (json) {
    console.out << as_json(record, report, cover).dump(2) << '\n';
  } else {
    for (const auto& finding : report.findings) print(finding, record, console.out);
    if (!report.findings.empty())
      console.out << "± is the expanded uncertainty, coverage factor 2 (about 95 %) where nothing else is said.\n";
    for (const auto& finding : cover.findings) {
      if (finding.gap == safety::Gap::none) continue;
      const auto* hazard = model::find(record, finding.hazard);
      console.out << safety::gap_label(finding.gap) << "  "
                  << time_text(model::film_start(record, hazard->place.footage) + finding.at) << "\n    "
                  << finding.sentence << '\n';
    }
    console.out << conflicts << (conflicts == 1 ? " conflict, " : " conflicts, ");
    if (remarks > 0) console.out << remarks << " that cannot be, ";
    console.out << gaps << " of " << cover.hazards
                << " hazards without full cover. Screening only: local codes, the safety officer and licensed practice "
                   "decide.\n";
  }
  return conflicts == 0 && remarks == 0 && gaps == 0 ? fine : conflicts_found;
}

}  // namespace sash::cli
