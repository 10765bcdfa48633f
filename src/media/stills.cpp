#include "media/stills.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <vector>

#include "media/inner/exact.h"

namespace sash::media {
namespace {

using inner::VideoReader;

/// The readers here share the caller's index without owning it.
std::shared_ptr<const FrameIndex> borrow(const FrameIndex* index) { return {std::shared_ptr<void>(), index}; }

Outcome<VideoReader> open(const std::filesystem::path& path, const FrameIndex* index, Progress& progress) {
  auto reader =
      VideoReader::open(path, {.threads = 1, .deinterlace = true}, [&progress] { return progress.cancelled(); });
  if (reader && index != nullptr && !index->empty()) reader->use_index(borrow(index));
  return reader;
}

/// The key that may stand in for the frame at `at`, when it is near enough and quickly had.
std::optional<std::size_t> near_key(const FrameIndex* index, Moment at, Moment slack) {
  if (index == nullptr || slack <= Moment() || index->field_pictures()) return std::nullopt;
  const auto key = index->key_for(at);
  if (!key || at - index->keys()[*key].at > slack) return std::nullopt;
  // A key trimmed away by an edit list is no frame of the footage.
  const auto frame = index->frame_at(index->keys()[*key].at);
  if (!frame || index->frame(*frame).at != index->keys()[*key].at) return std::nullopt;
  return key;
}

}  // namespace

Outcome<Still> still_at(const std::filesystem::path& path, Moment at, Size box, Quality quality,
                        const FrameIndex* index, Progress& progress) {
  auto reader = open(path, index, progress);
  if (!reader) return reader.fault();
  const auto picture = inner::find_picture(*reader, at, Moment(), {});
  if (!picture) return picture.fault();
  return Still{(*picture)->at, to_rgba(**picture, box, quality)};
}

Done make_stills(const std::filesystem::path& path, std::span<const Moment> moments, Moment slack, Size box,
                 const FrameIndex* index, Progress& progress, const std::function<void(std::size_t, Still)>& each) {
  auto reader = open(path, index, progress);
  if (!reader) return reader.fault();
  // In rising order each key is decoded once and neighbours are reached by reading on.
  std::vector<std::size_t> order(moments.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return moments[a] < moments[b]; });

  RgbaMaker maker;
  std::optional<Fault> first_fault;
  std::optional<Still> last;
  std::optional<std::size_t> last_key;
  std::size_t made = 0;
  for (std::size_t n = 0; n < order.size(); ++n) {
    if (progress.cancelled()) return reader->container().cancelled();
    const Moment at = moments[order[n]];
    const auto key = near_key(index, at, slack);
    if (!key || key != last_key) {
      PicturePtr picture = key ? reader->key_picture_of(*key) : nullptr;
      if (picture == nullptr) {
        const auto found = inner::find_picture(*reader, at, Moment(), {});
        if (found) {
          picture = *found;
        } else if (!first_fault) {
          first_fault = found.fault();
        }
      }
      last_key = key;
      last = picture != nullptr ? std::optional(Still{picture->at, maker.make(*picture, box, Quality::fast)})
                                : std::nullopt;
    }
    if (last) {
      each(order[n], *last);
      ++made;
    }
    progress.at(static_cast<double>(n + 1) / static_cast<double>(order.size()));
  }
  if (progress.cancelled()) return reader->container().cancelled();
  if (made == 0 && first_fault) return *first_fault;
  return {};
}

}  // namespace sash::media
