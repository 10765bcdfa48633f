#pragma once
// The command line: reads the words, runs one command, says how it went. For scripts, CI and people without a display.
// Exit codes: 0 fine, 1 conflicts found, 2 wrong use or fault. Everything printed goes through Console.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cli/console.h"

namespace sash::cli {

/// The desk is to be opened, on this record when one was named.
struct OpenDesk {
  std::optional<std::string> record;
};

/// The exit code of a command that ran, or the wish for the desk.
using Ran = std::variant<int, OpenDesk>;

/// `words` are the arguments without the program's name.
Ran run(const std::vector<std::string>& words, const Console& console);

}  // namespace sash::cli
