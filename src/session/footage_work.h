#pragma once
// FootageWork: what has to be found out about each footage in the background: facts, frame index, waveform, stills.
// Indexes and waveforms are kept per content, so that reopening is instant. Main thread only; work runs on the pool.

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "session/pool.h"
#include "session/view.h"
#include "support/inbox.h"
#include "support/progress.h"

namespace sash::session {

class FootageWork {
 public:
  /// `cache_file` may be empty: nothing is kept.
  FootageWork(std::string cache_file, std::function<void()> wake);
  ~FootageWork();
  FootageWork(const FootageWork&) = delete;
  FootageWork& operator=(const FootageWork&) = delete;

  /// Finds out about the file at `path`; what was known of `footage` is forgotten.
  void begin(model::FootageId footage, const std::string& path);
  void forget(model::FootageId footage);
  void forget_all();

  /// Takes in what has been found. Returns the footages about which something new is known.
  std::vector<model::FootageId> poll();
  const std::map<model::FootageId, FootageState>& states() const { return states_; }
  std::vector<Job> jobs() const;

 private:
  struct Arrival;
  struct Task {
    std::string what;
    model::FootageId footage;
    std::shared_ptr<Progress> progress;
    std::shared_ptr<std::atomic<bool>> over;
  };
  using Work = std::function<void(Progress&)>;

  void start(const std::string& what, model::FootageId footage, Work work);
  void take(Arrival arrival);
  void after_facts(model::FootageId footage, const std::string& path, const media::FootageFacts& facts);
  void begin_stills(model::FootageId footage, const std::string& path);
  void begin_waveform(model::FootageId footage, const std::string& path);

  std::string cache_file_;
  std::function<void()> wake_;
  std::map<model::FootageId, FootageState> states_;
  std::map<model::FootageId, std::string> paths_;
  std::map<model::FootageId, std::uint64_t> turns_;  // which begin() of a footage an arrival belongs to
  std::uint64_t next_turn_ = 1;
  std::uint64_t next_still_ = 1;
  std::vector<Task> tasks_;
  std::shared_ptr<Inbox<Arrival>> inbox_;
  Pool pool_{2};  // last: joined before what its work uses goes
};

}  // namespace sash::session
