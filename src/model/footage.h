#pragma once
// Footage and narration as the record keeps them. What a file really contains is media's business. Pure values.

#include <string>
#include <vector>

#include "model/place.h"

namespace sash::model {

/// One media file of the record.
struct Footage {
  FootageId id;
  std::string path;         ///< absolute, or relative to the record's folder
  std::string fingerprint;  ///< of the content, to find a moved file again; empty while unknown
  std::string title;
  Moment duration;  ///< from the container's start to the end of the last frame; zero while unknown
  int order = 0;    ///< place among the footages of the record
  bool operator==(const Footage&) const = default;
};

/// One word of a line and when it is first heard.
struct Word {
  std::uint32_t begin = 0;  ///< byte offset in the line's text
  std::uint32_t length = 0;
  Moment from;
  bool operator==(const Word&) const = default;
};

/// A timed line of speech: one caption cue, one paragraph of a transcript, or what somebody typed.
struct NarrationLine {
  LineId id;
  FootageId footage;
  Stretch when;
  std::string text;         ///< plain text; lines of a cue joined by \n; no markup, entities decoded
  std::string speaker;      ///< empty when nobody is named
  std::vector<Word> words;  ///< word times when the file had them; otherwise empty (interpolated by readers)
  bool noise = false;       ///< not speech of the presenter (music marks, stock phrases a recogniser invents); ignored
  bool operator==(const NarrationLine&) const = default;
};

}  // namespace sash::model
