#include "cli/commands/open_to_read.h"

#include <ostream>

namespace sash::cli {

Outcome<store::Store> open_to_read(const std::string& path, const Console& console) {
  auto opened = store::Store::open(path);
  if (!opened) return opened;
  const Fault* why = opened->read_only();
  if (why != nullptr && (why->code == Code::damaged || why->code == Code::newer_version))
    console.err << why->sentence << '\n';
  return opened;
}

}  // namespace sash::cli
