#include "cli/console.h"

#include <ostream>

namespace sash::cli {

int Console::fail(const Fault& fault) const {
  err << "sashline: " << fault.sentence << '\n';
  // A short text with a known place is shown with a mark under the offending byte.
  if (fault.place && !fault.offending.empty() && fault.offending.size() <= 120 &&
      *fault.place <= fault.offending.size() && fault.offending.find('\n') == std::string::npos) {
    std::size_t columns = 0;
    for (std::size_t i = 0; i < *fault.place; ++i)
      columns += (static_cast<unsigned char>(fault.offending[i]) & 0xC0U) != 0x80U ? 1 : 0;
    err << "  " << fault.offending << "\n  " << std::string(columns, ' ') << "^\n";
  }
  for (const auto& other : fault.others) err << "  " << other << '\n';
  return failed;
}

int Console::fail(std::string_view sentence) const {
  err << "sashline: " << sentence << '\n';
  return failed;
}

}  // namespace sash::cli
