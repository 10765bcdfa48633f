#pragma once
// Console: where commands print. Tests give streams of their own.

#include <iosfwd>
#include <string_view>

#include "support/outcome.h"

namespace sash::cli {

inline constexpr int fine = 0;
inline constexpr int conflicts_found = 1;
inline constexpr int failed = 2;

struct Console {
  std::ostream& out;
  std::ostream& err;

  /// Prints the fault's sentence and its further offenders on `err`; returns the exit code for it.
  int fail(const Fault& fault) const;
  int fail(std::string_view sentence) const;
};

}  // namespace sash::cli
