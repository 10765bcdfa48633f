#include <ostream>

#include "cli/commands/commands.h"
#include "cli/commands/open_to_read.h"
#include "session/handing_over.h"

namespace sash::cli {

int script(const std::string& record, const std::string& folder, const Console& console) {
  const auto opened = open_to_read(record, console);
  if (!opened) return console.fail(opened.fault());
  Progress progress;
  const auto written = session::write_script(opened->record(), record, folder, progress);
  if (!written) return console.fail(written.fault());
  console.out << "The script is in " << *written << '\n';
  return fine;
}

}  // namespace sash::cli
