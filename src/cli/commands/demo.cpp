#include "demo/demo.h"

#include <ostream>

#include "cli/commands/commands.h"

namespace sash::cli {

int demo(const std::string& folder, const Console& console) {
  console.out << "Drawing the demo footage; this takes about a minute.\n" << std::flush;
  Progress progress;
  const auto record = sash::demo::make_demo(folder, progress);
  if (!record) return console.fail(record.fault());
  console.out << *record << '\n';
  return fine;
}

}  // namespace sash::cli
