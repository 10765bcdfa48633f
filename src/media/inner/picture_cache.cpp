#include "media/inner/picture_cache.h"

#include <iterator>

namespace sash::media::inner {

void PictureCache::add(const PicturePtr& picture, Moment playhead) {
  Entry& entry = entries_[picture->at];
  if (entry.picture != nullptr) held_ -= entry.picture->weight;
  entry.picture = picture;
  held_ += picture->weight;
  while (held_ > room_ && entries_.size() > 1) {
    const auto first = entries_.begin();
    const auto last = std::prev(entries_.end());
    const bool first_is_farther = playhead - first->first > last->first - playhead;
    const auto out = first_is_farther ? first : last;
    held_ -= out->second.picture->weight;
    entries_.erase(out);
  }
}

void PictureCache::follows(Moment earlier, Moment later) {
  if (const auto found = entries_.find(earlier); found != entries_.end()) found->second.next = later;
}

PicturePtr PictureCache::at(Moment exact) const {
  const auto found = entries_.find(exact);
  return found == entries_.end() ? nullptr : found->second.picture;
}

PicturePtr PictureCache::on_screen(Moment m) const {
  auto after = entries_.upper_bound(m);
  if (after == entries_.begin()) return nullptr;
  const Entry& entry = std::prev(after)->second;
  return entry.next && m < *entry.next ? entry.picture : nullptr;
}

PicturePtr PictureCache::nearest(Moment m, Moment within) const {
  PicturePtr best;
  Moment distance = within;
  const auto consider = [&](const PicturePtr& p) {
    const Moment apart = p->at > m ? p->at - m : m - p->at;
    if (apart > distance) return;
    best = p;
    distance = apart;
  };
  const auto after = entries_.lower_bound(m);
  if (after != entries_.end()) consider(after->second.picture);
  if (after != entries_.begin()) consider(std::prev(after)->second.picture);
  return best;
}

std::optional<Moment> PictureCache::after(Moment exact) const {
  const auto found = entries_.find(exact);
  return found == entries_.end() ? std::nullopt : found->second.next;
}

}  // namespace sash::media::inner
