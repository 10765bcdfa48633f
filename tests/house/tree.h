#pragma once
// The source tree as the house tests see it: the files that are kept, and what they hold.

#include <string>
#include <vector>

namespace sash::house {

struct SourceFile {
  std::string path;  ///< from the root: "src/chem/formula.h"
  std::string text;
};

/// Every kept file below `folder` ("src") with one of the endings (".h"); all endings when none is given.
std::vector<SourceFile> files_below(const std::string& folder, const std::vector<std::string>& endings = {});

/// The parts of a path: "src/chem/inner/x.h" gives src, chem, inner, x.h.
std::vector<std::string> steps(const std::string& path);

/// What `#include "..."` and `#include <...>` lines name, with the marks: "\"chem/formula.h\"", "<vector>".
std::vector<std::string> includes_of(const SourceFile& file);

}  // namespace sash::house
