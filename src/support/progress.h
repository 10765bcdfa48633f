#pragma once
// Progress: how long work tells how far it is and learns that it should stop. The engine never prints.
// One instance may be shared by the worker and the window: all members are safe from any thread.

#include <atomic>

namespace sash {

class Progress {
 public:
  /// 0 to 1; set by the worker.
  void at(double share) noexcept { share_.store(share, std::memory_order_relaxed); }
  double share() const noexcept { return share_.load(std::memory_order_relaxed); }
  void cancel() noexcept { cancelled_.store(true, std::memory_order_relaxed); }
  bool cancelled() const noexcept { return cancelled_.load(std::memory_order_relaxed); }

 private:
  std::atomic<double> share_{0};
  std::atomic<bool> cancelled_{false};
};

}  // namespace sash
