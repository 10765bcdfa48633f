#include "tools/gnu_units.h"

#include <unistd.h>

#include <cstdio>

#include "support/text.h"

namespace sash::test {

namespace {

constexpr const char* program = "/usr/bin/units";

}  // namespace

bool has_gnu_units() { return access(program, X_OK) == 0; }

std::optional<double> ask_gnu_units(const std::string& from, const std::string& to) {
  const std::string command = std::string(program) + " -t -d 15 -- '" + from + "' '" + to + "' 2>&1";
  FILE* pipe = popen(command.c_str(), "r");  // NOLINT(cert-env33-c): a fixed program and rows of our own
  if (pipe == nullptr) return std::nullopt;
  std::string text;
  for (char buffer[200]; std::fgets(buffer, sizeof buffer, pipe) != nullptr;) text += buffer;
  pclose(pipe);
  return read_number(trim(text));
}

}  // namespace sash::test
