#include <ostream>

#include "cli/commands/commands.h"
#include "session/session.h"

namespace sash::cli {
namespace {

// Everything the narration proposes, as references to accept.
std::vector<session::ThingRef> proposals(const model::Record& record) {
  std::vector<session::ThingRef> out;
  const auto add = [&](const auto& list) {
    for (const auto& each : list) {
      if (each.origin.standing == model::Standing::proposed) out.push_back(each.id);
    }
  };
  add(record.figures);
  add(record.relations);
  add(record.hazards);
  add(record.callouts);
  return out;
}

}  // namespace

int begin(const std::string& record, const std::vector<std::string>& footage, const std::vector<std::string>& narration,
          bool accept, const Console& console) {
  session::Session session(session::Setup{.background = false, .sound = false});
  if (const Done done = session.apply(session::BeginRecord{record, footage, narration}); !done)
    return console.fail(done.fault());
  if (accept) {
    if (const Done done = session.apply(session::ReadNarration{}); !done) return console.fail(done.fault());
    const auto all = proposals(session.view().record);
    if (!all.empty()) {
      if (const Done done = session.apply(session::Accept{all}); !done) return console.fail(done.fault());
    }
  }
  const auto view = session.view();
  for (const auto& notice : view.notices) console.err << notice.sentence << '\n';
  console.out << record << ": " << view.record.footages.size() << " footage, " << view.record.lines.size()
              << " narration lines, " << view.record.figures.size() << " figures, " << view.record.relations.size()
              << " relations\n";
  return fine;
}

}  // namespace sash::cli
