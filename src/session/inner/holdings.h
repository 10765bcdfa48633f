#pragma once
// Holdings: everything a session holds (the open record, its media, the work under way, what the person was told) and
// what keeps these in step: an edit is followed by a check, a footage that was looked at by its picture. One instance
// per Session, which puts intents to it. Main thread only.

#include <deque>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "session/checking.h"
#include "session/editing.h"
#include "session/footage_work.h"
#include "session/playing.h"
#include "session/reading.h"
#include "session/recent.h"
#include "session/session.h"
#include "session/sole_job.h"
#include "store/store.h"

namespace sash::session::inner {

Fault no_record();  ///< what is said to somebody who wants to change a record while none is open

struct Holdings {
  explicit Holdings(Setup s);
  ~Holdings() = default;
  Holdings(const Holdings&) = delete;
  Holdings& operator=(const Holdings&) = delete;

  const model::Record& record() const { return store ? store->record() : empty; }
  NewNumber ids();

  // --- what is said, and edits
  enum class News { passing, fault, result };
  void say(std::string sentence, News news = News::passing);
  void edited();
  Done carry_out(const Planned& planned);
  Done carry_out(const Outcome<Planned>& planned);

  // --- the record (holdings.cpp)
  Done open(const std::string& path);
  Done begin(const BeginRecord& what);
  void close();
  Done begin_demo();  ///< drawing it takes a minute, so it is a job; take_demo() opens the record when it is there
  void take_demo();
  void take_script();  ///< tells what came of writing the script
  void export_script(const std::string& folder);
  Done stop_work(const std::string& what);

  // --- what comes into it (adding.cpp)
  Done add_files(const std::vector<std::string>& paths);
  Done find_again(const FindFootageAgain& what);

  // --- narration (narrations.cpp)
  Done add_text(const std::string& text);
  Done read_again();    ///< the lines there are, for what they propose
  void take_reading();  ///< takes in a long narration that was read

  // --- media (holdings.cpp)
  void turn_to(model::FootageId id, Moment at);
  void turn_to_next();  ///< the film goes on with the next footage
  Done seek(const Seek& to);
  model::Place here() const { return {playing.footage(), playing.at(), std::nullopt}; }
  void footage_news(model::FootageId id);

  Setup setup;
  Recent recent;
  std::optional<store::Store> store;
  model::Record empty;
  Checking checking;
  FootageWork work;
  Playing playing;
  SoleJob<std::string> script_job;  // gives the folder
  SoleJob<std::string> demo_job;    // gives the record's path
  SoleJob<NarrationPlan> reading_job;
  std::uint64_t revision = 0;
  std::vector<Notice> notices;
  std::uint64_t notices_given = 0;
  std::optional<ThingRef> just_made;
  bool changed = true;

 private:
  Done take(store::Store opened);
  Done begin_beside(const std::string& path);  ///< an empty record at `path`, or at a free name like it
  Done add_footage_file(const std::string& path);
  Done add_narration_file(const std::string& path);
  Done take_narration(NarrationFrom from);
  Done carry_out(const NarrationPlan& plan);
  void begin_reading();
  void stop_reading();
  std::optional<model::FootageId> missing_clip(const std::string& fingerprint) const;
  void begin_work(const model::Footage& footage);
  void missing_no_more(std::optional<model::FootageId> footage);

  std::optional<std::pair<model::FootageId, Moment>> waiting_;  // shown as soon as the file has been looked at
  std::deque<NarrationFrom> to_read_;                           // the first is being read
  std::uint64_t read_at_ = 0;                                   // the revision it is read upon
};

}  // namespace sash::session::inner
