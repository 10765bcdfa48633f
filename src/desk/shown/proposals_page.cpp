#include "desk/shown/proposals_page.h"

#include <algorithm>
#include <set>

#include "desk/shown/findings_page.h"
#include "desk/shown/words.h"
#include "session/proposing.h"

namespace sash::desk {
namespace {

void join(std::string& text, std::string_view more) {
  if (more.empty()) return;
  if (!text.empty()) text += " \u00B7 ";
  text += more;
}

// What stands in the row of each kind of thing; things that are never proposed stay as they are.
class Row {
 public:
  Row(const model::Record& record, const PinStop& stop) : record_(record) {
    row_.thing = stop.thing;
    row_.film = stop.at;
    if (const auto thing = thing_of(record, stop.thing)) std::visit([&](const auto& t) { fill(t); }, *thing);
  }
  ProposalRow done() { return std::move(row_); }

 private:
  void fill(const model::Figure& f) {
    row_.title = short_figure_text(f);
    row_.family = family_of(f.kind);
    join(row_.about, f.subject);
    join(row_.about, kind_words(f.kind));
    if (f.role != model::Role::other) join(row_.about, words_of(f.role));
    why(f.origin);
  }
  void fill(const model::Relation& r) {
    row_.title = words_of(r.type);
    row_.icon = Icon::relation;
    if (const auto equation = r.given.find("equation"); equation != r.given.end()) join(row_.about, equation->second);
    for (const auto& term : r.terms) {
      if (const auto* figure = model::find(record_, term.figure)) {
        join(row_.about, short_figure_text(*figure) + (figure->subject.empty() ? "" : " " + figure->subject));
      }
    }
    why(r.origin);
  }
  void fill(const model::Hazard& h) {
    row_.title = word_of(tone_of(h.level));
    row_.safety = tone_of(h.level);
    row_.icon = Icon::hazard;
    join(row_.about, h.cause.empty() ? words_of(h.route) : std::string_view(h.cause));
    why(h.origin);
  }
  void fill(const model::Callout& c) {
    row_.title = std::string("callout, ") + std::string(words_of(c.delivery));
    row_.safety = tone_of(c.level);
    row_.icon = Icon::callout;
    join(row_.about, c.text);
    why(c.origin);
  }
  template <class T>
  void fill(const T&) {}

  void why(const model::Origin& origin) { row_.why = origin_text(origin); }

  const model::Record& record_;
  ProposalRow row_;
};

void look_ahead(ProposalsShown& shown, const Outlook& outlook) {
  const FigureVerdicts verdicts = verdicts_of(outlook.report);
  std::set<model::RelationId> failing;
  for (const auto& finding : outlook.report.findings) {
    if (finding.verdict == workings::Verdict::conflicts && finding.relation) failing.insert(*finding.relation);
  }
  for (ProposalRow& row : shown.rows) {
    if (const auto* figure = std::get_if<model::FigureId>(&row.thing)) {
      const auto verdict = verdicts.find(*figure);
      row.wrong = verdict != verdicts.end() && verdict->second == Verdict::conflict;
    } else if (const auto* relation = std::get_if<model::RelationId>(&row.thing)) {
      row.wrong = failing.contains(*relation);
    }
  }
  const auto conflicts = static_cast<std::size_t>(
      std::count_if(outlook.report.findings.begin(), outlook.report.findings.end(),
                    [](const workings::Finding& f) { return f.verdict == workings::Verdict::conflicts; }));
  const auto gaps =
      static_cast<std::size_t>(std::count_if(outlook.cover.findings.begin(), outlook.cover.findings.end(),
                                             [](const safety::CoverFinding& f) { return f.gap != safety::Gap::none; }));
  shown.outlook_bad = conflicts > 0;
  shown.outlook = "If accepted: " + (conflicts > 0 ? group_text(FindingGroup::conflict, conflicts) : "no conflict");
  if (gaps > 0) shown.outlook += ", " + group_text(FindingGroup::cover_gap, gaps);
}

}  // namespace

ProposalsShown show_proposals(const model::Record& record, const std::vector<PinStop>& stops,
                              const std::optional<Outlook>& outlook) {
  ProposalsShown shown;
  const auto all_sure = session::sure_proposals(record);
  const std::set<session::ThingRef> sure(all_sure.begin(), all_sure.end());
  shown.rows.reserve(stops.size());
  for (const PinStop& stop : stops) {
    shown.rows.push_back(Row(record, stop).done());
    shown.things.push_back(stop.thing);
    if (sure.contains(stop.thing)) {
      shown.sure.push_back(stop.thing);
    } else {
      shown.rows.back().why += "; a guess, to be looked at";
    }
  }
  const bool guesses = shown.sure.size() < shown.things.size();
  shown.accept_all = guesses ? "Accept " + std::to_string(shown.sure.size()) + " sure" : "Accept all";
  shown.heading = "Proposals " + std::to_string(stops.size());
  if (outlook) look_ahead(shown, *outlook);
  return shown;
}

std::optional<std::size_t> row_of(const ProposalsShown& shown, const Selection& selection) {
  if (!selection.thing) return std::nullopt;
  const auto it = std::find(shown.things.begin(), shown.things.end(), *selection.thing);
  if (it == shown.things.end()) return std::nullopt;
  return static_cast<std::size_t>(it - shown.things.begin());
}

}  // namespace sash::desk
