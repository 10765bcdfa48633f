#pragma once
// The script: everything that is handed over for a record but the record's own JSON. Pure; see materials.h.

#include <vector>

#include "script/materials.h"

namespace sash::script {

/// Where stills are wanted: one a row of the running sheet, at most `most` altogether, by footage and time.
std::vector<model::Place> stills_wanted(const model::Record& record, std::size_t most = 150);

/// script.html, narration.vtt, narration.srt, callouts.vtt, callouts.srt, chapters.txt, figures.csv.
std::vector<File> write_files(const Materials& materials);

/// The safety script as one HTML page that needs nothing else: no network, no other file, no scripting.
std::string script_html(const Materials& materials);

}  // namespace sash::script
