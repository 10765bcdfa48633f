#include "desk/shown/outlook.h"

#include <algorithm>

#include "session/editing.h"
#include "session/proposing.h"

namespace sash::desk {
namespace {

template <class Id>
bool is_proposed(const model::Record& record, Id id) {
  const auto* thing = model::find(record, id);
  return thing != nullptr && thing->origin.standing == model::Standing::proposed;
}

auto conflicts_in(const workings::Report& report) {
  return std::count_if(report.findings.begin(), report.findings.end(),
                       [](const workings::Finding& f) { return f.verdict == workings::Verdict::conflicts; });
}

}  // namespace

std::optional<Outlook> outlook_of(const model::Record& record) {
  constexpr std::size_t most = 400;  // figures and relations; more could take longer than a frame
  if (record.figures.size() + record.relations.size() > most) return std::nullopt;
  const auto sure = session::sure_proposals(record);
  if (sure.empty()) return std::nullopt;
  const auto accepting = session::settle(record, sure, model::Standing::confirmed);
  model::Record accepted = record;
  if (!accepting || !model::apply(accepting->edit, accepted)) return std::nullopt;
  return Outlook{workings::check(accepted), safety::check_cover(accepted)};
}

bool brings_conflicts(const std::optional<Outlook>& outlook, const workings::Report& now) {
  return outlook && conflicts_in(outlook->report) > conflicts_in(now);
}

bool rests_on_proposals(const model::Record& record, const workings::Finding& finding) {
  if (finding.relation && is_proposed(record, *finding.relation)) return true;
  return std::any_of(finding.figures.begin(), finding.figures.end(),
                     [&](model::FigureId figure) { return is_proposed(record, figure); });
}

}  // namespace sash::desk
