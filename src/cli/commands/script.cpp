#include <ostream>

#include "cli/commands/commands.h"
#include "session/handing_over.h"
#include "store/store.h"

namespace sash::cli {

int script(const std::string& record, const std::string& folder, const Console& console) {
  const auto opened = store::Store::open(record);
  if (!opened) return console.fail(opened.fault());
  Progress progress;
  const auto written = session::write_script(opened->record(), record, folder, progress);
  if (!written) return console.fail(written.fault());
  console.out << "The script is in " << *written << '\n';
  return fine;
}

}  // namespace sash::cli
