#pragma once
// SessionView: everything a page may look at, for the length of one frame. References stay good until the next
// Session::poll or Session::apply. It changes nothing. Main thread only.

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "media/frame_index.h"
#include "media/picture.h"
#include "media/probe.h"
#include "media/waveform.h"
#include "model/record.h"
#include "safety/cover.h"
#include "session/intent.h"
#include "workings/check.h"

namespace sash::session {

/// One sentence for the person, and whether it is bad news.
struct Notice {
  std::string sentence;
  bool fault = false;
  std::uint64_t number = 0;  ///< rises with every notice of the session
  bool result = false;       ///< good news that must not be missed: where something was written, what to do next
  /// It says that this clip's file is gone, and stands until it is found.
  std::optional<model::FootageId> missing = {};
};

/// Long work under way.
struct Job {
  std::string what;       ///< "Indexing bench.mp4"
  double share = 0;       ///< 0 to 1
  bool can_stop = false;  ///< by StopWork; what every footage needs goes on
};

/// A small picture for the running sheet, RGBA, rows top to bottom without padding.
struct Still {
  Moment at;
  int width = 0;
  int height = 0;
  std::shared_ptr<const std::vector<std::uint8_t>> rgba;
  std::uint64_t key = 0;  ///< unique per picture, for texture caches
};

/// What is known of one footage of the record by now; parts arrive from background work.
struct FootageState {
  std::optional<media::FootageFacts> facts;         ///< nothing while opening, or when it cannot be opened
  std::optional<Fault> fault;                       ///< why not
  bool missing = false;                             ///< the file is not where the record says
  std::shared_ptr<const media::FrameIndex> index;   ///< null until made
  std::shared_ptr<const media::Waveform> waveform;  ///< null until made; null for ever when silent
  std::vector<Still> stills;                        ///< by time
};

struct Transport {
  model::FootageId footage;  ///< unknown id: nothing to play
  Moment at;                 ///< the shown frame's presentation time
  Moment frame_length;       ///< of the shown frame
  std::string time_code;     ///< SMPTE, ";" before the frames when drop-frame applies
  bool playing = false;
  double speed = 1.0;  ///< negative while shuttling backwards
  std::optional<Stretch> loop;
  double volume = 1.0;
  bool exact = true;  ///< false while a near picture stands in for the exact one
  std::shared_ptr<const media::Picture> picture;
  std::int64_t dropped = 0;  ///< frames that came too late since playback began
};

struct SessionView {
  bool has_record = false;
  std::string path{};
  std::string name{};                      ///< for the title: file name without ending
  std::optional<std::string> read_only{};  ///< why nothing can be changed
  const model::Record& record;
  std::uint64_t revision = 0;      ///< changes with every edit
  const workings::Report& report;  ///< findings for this revision
  const safety::Cover& cover;      ///< cover for this revision
  const std::map<model::FootageId, FootageState>& footage;
  Transport transport{};
  std::string undo_name{};  ///< empty: nothing to undo
  std::string redo_name{};
  std::optional<ThingRef> just_made{};  ///< the pin the last intent made
  const std::vector<Notice>& notices;   ///< newest last
  std::vector<Job> jobs{};
  const std::vector<std::string>& recent;  ///< records opened lately, newest first
  std::uint64_t now_frame = 0;
};

}  // namespace sash::session
