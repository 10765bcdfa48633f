#pragma once
// Runs the program, and the independent tools it is compared with, as separate processes.

#include <filesystem>
#include <iosfwd>
#include <string>
#include <vector>

namespace sash::flow {

namespace fs = std::filesystem;

struct Ran {
  int code = -1;  ///< exit code; -1 when it ended by a signal
  std::string out;
  std::string err;
};
void PrintTo(const Ran& ran, std::ostream* to);

/// Runs the command, found along PATH, and waits for it. Aborts when it cannot be started.
Ran ran(const std::vector<std::string>& command);

/// Runs the program that was built, with these arguments.
Ran sashline(std::vector<std::string> arguments);

/// The standard output of a tool that must succeed; aborts with what it said when it does not.
std::string output_of(const std::vector<std::string>& command);

std::string bytes_of(const fs::path& file);  ///< aborts when it cannot be read

/// The demo's record, made anew beside the film that the build folder keeps.
fs::path demo_record();

}  // namespace sash::flow
