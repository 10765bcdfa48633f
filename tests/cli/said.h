#pragma once
// Runs a command in this process and keeps what it printed.

#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <variant>
#include <vector>

#include "cli/cli.h"

namespace sash::cli {

struct Said {
  int code = -1;
  std::string out;
  std::string err;

  bool operator==(const Said&) const = default;
};

inline void PrintTo(const Said& said, std::ostream* to) {
  *to << "exit code " << said.code << "\n--- out\n" << said.out << "--- err\n" << said.err;
}

inline Said said(const std::vector<std::string>& words) {
  std::ostringstream out;
  std::ostringstream err;
  Console console{out, err};
  const Ran ran = run(words, console);
  const int* code = std::get_if<int>(&ran);
  EXPECT_NE(code, nullptr) << "the desk was asked for";
  return {code != nullptr ? *code : -1, out.str(), err.str()};
}

/// A fault: nothing on the output, one sentence and exit code 2.
inline Said fault(const std::string& sentence) { return {failed, "", "sashline: " + sentence + "\n"}; }

}  // namespace sash::cli
