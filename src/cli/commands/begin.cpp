#include <ostream>

#include "cli/commands/commands.h"
#include "session/proposing.h"
#include "session/session.h"

namespace sash::cli {
int begin(const std::string& record, const std::vector<std::string>& footage, const std::vector<std::string>& narration,
          bool accept, const Console& console) {
  session::Session session(session::Setup{.background = false, .sound = false});
  if (const Done done = session.apply(session::BeginRecord{record, footage, narration}); !done)
    return console.fail(done.fault());
  if (accept) {
    const auto all = session::sure_proposals(session.view().record);
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
