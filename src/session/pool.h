#pragma once
// Pool: a few threads for background work, first come first served. Work must watch its own Progress for cancelling;
// the pool only waits. Owner: one thread; `run` is safe from any thread.

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace sash::session {

class Pool {
 public:
  explicit Pool(int threads);
  ~Pool();  ///< drops what has not begun, waits for what has
  Pool(const Pool&) = delete;
  Pool& operator=(const Pool&) = delete;

  void run(std::function<void()> work);

 private:
  void serve(const std::stop_token& stop);

  std::mutex mutex_;
  std::condition_variable_any ready_;
  std::deque<std::function<void()>> waiting_;  // guarded by mutex_
  std::vector<std::jthread> threads_;
};

}  // namespace sash::session
