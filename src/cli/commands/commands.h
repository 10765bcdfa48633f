#pragma once
// The commands, one function each: what was asked for in, exit code out.

#include <string>
#include <vector>

#include "cli/console.h"
#include "cli/put_in.h"

namespace sash::cli {

/// What the command `equation` was asked.
struct EquationAsked {
  std::string text;                ///< one equation, or two half-reactions with ';' between them
  std::string medium;              ///< "acid", "base" or nothing
  std::vector<std::string> taken;  ///< as read_put_in takes them
  GasRoom room;
  bool json = false;
};

int demo(const std::string& folder, const Console& console);
int begin(const std::string& record, const std::vector<std::string>& footage, const std::vector<std::string>& narration,
          bool accept, const Console& console);
int footage(const std::string& file, bool json, const Console& console);
int still(const std::string& file, const std::string& at, const std::string& to, const Console& console);
int formula(const std::string& text, bool json, const Console& console);
int equation(const EquationAsked& asked, const Console& console);
int check(const std::string& record, bool json, const Console& console);
int script(const std::string& record, const std::string& folder, const Console& console);
int record_to_json(const std::string& record, const std::string& to, const Console& console);
int record_from_json(const std::string& record, const std::string& from, const Console& console);
int figures(const std::string& narration, bool json, const Console& console);

}  // namespace sash::cli
