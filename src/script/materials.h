#pragma once
// What a script is written from, and what comes out: values in, bytes out. The same materials give the same bytes: no
// clock, no locale, no path of this machine. Pure.

#include <string>
#include <vector>

#include "model/record.h"
#include "safety/cover.h"
#include "workings/check.h"

namespace sash::script {

/// A still for the running sheet.
struct StillPicture {
  model::FootageId footage;
  Moment at;
  std::string jpeg;  ///< the file's bytes
};

struct Materials {
  const model::Record& record;
  const workings::Report& report;
  const safety::Cover& cover;
  std::vector<StillPicture> stills;  ///< any order; the nearest at or before a row's time is used
};

/// One file to be handed over.
struct File {
  std::string name;
  std::string bytes;
};

}  // namespace sash::script
