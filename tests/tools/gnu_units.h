#pragma once
// Asks GNU Units (Debian package units), with its own sizes of units and constants.

#include <optional>
#include <string>

namespace sash::test {

/// Whether the program is installed.
bool has_gnu_units();
/// What GNU Units makes of `from`, in `to`; nothing when it cannot.
std::optional<double> ask_gnu_units(const std::string& from, const std::string& to);

}  // namespace sash::test
