#include "session/pool.h"

namespace sash::session {

Pool::Pool(int threads) {
  for (int i = 0; i < threads; ++i) {
    threads_.emplace_back([this](const std::stop_token& stop) { serve(stop); });
  }
}

Pool::~Pool() {
  for (auto& thread : threads_) thread.request_stop();
  ready_.notify_all();
}

void Pool::run(std::function<void()> work) {
  {
    const std::lock_guard lock(mutex_);
    waiting_.push_back(std::move(work));
  }
  ready_.notify_one();
}

void Pool::serve(const std::stop_token& stop) {
  for (;;) {
    std::function<void()> work;
    {
      std::unique_lock lock(mutex_);
      if (!ready_.wait(lock, stop, [this] { return !waiting_.empty(); }) || stop.stop_requested()) return;
      work = std::move(waiting_.front());
      waiting_.pop_front();
    }
    work();
  }
}

}  // namespace sash::session
