#pragma once
// Inbox<T>: many threads put, one takes everything at once (swap, then run). No lock is held while the values are used.

#include <mutex>
#include <utility>
#include <vector>

namespace sash {

template <class T>
class Inbox {
 public:
  /// Adds one value; safe from any thread.
  void put(T value) {
    const std::lock_guard lock(mutex_);
    values_.push_back(std::move(value));
  }

  /// Everything put so far, in order; the inbox is empty afterwards.
  std::vector<T> take() {
    std::vector<T> out;
    const std::lock_guard lock(mutex_);
    out.swap(values_);
    return out;
  }

 private:
  std::mutex mutex_;
  std::vector<T> values_;  // guarded by mutex_
};

}  // namespace sash
