#include "session/footage_work.h"

#include <algorithm>
#include <filesystem>
#include <variant>

#include "media/index_builder.h"
#include "media/stills.h"
#include "store/cache.h"

namespace sash::session {
namespace {

constexpr media::Size still_box{192, 192};

// A still every two seconds, wider apart in long footage, so that a three-hour film costs no more than a few hundred.
constexpr double still_every_seconds = 2.0;
constexpr double most_stills = 600;

struct FactsFound {
  media::FootageFacts facts;
};
struct NotOpened {
  Fault fault;
};
struct IndexFound {
  std::shared_ptr<const media::FrameIndex> index;
};
struct WaveformFound {
  std::shared_ptr<const media::Waveform> waveform;
};
struct StillFound {
  media::Still still;
};

// What has been made from this content before, or what `make` makes now.
template <class T, class Make>
Outcome<T> kept_or_made(const std::string& cache_file, std::string_view kind, const std::string& fingerprint,
                        Make make) {
  std::optional<store::ContentCache> cache;
  if (!cache_file.empty()) cache = store::ContentCache::open(cache_file);
  if (cache) {
    if (const auto bytes = cache->get(kind, fingerprint)) {
      if (auto kept = T::from_bytes(*bytes)) return kept;
    }
  }
  Outcome<T> made = make();
  if (made && cache) cache->put(kind, fingerprint, made->to_bytes());
  return made;
}

std::string file_name(const std::string& path) { return std::filesystem::path(path).filename().string(); }

}  // namespace

struct FootageWork::Arrival {
  model::FootageId footage;
  std::uint64_t turn = 0;
  std::variant<FactsFound, NotOpened, IndexFound, WaveformFound, StillFound> what;
};

FootageWork::FootageWork(std::string cache_file, std::function<void()> wake)
    : cache_file_(std::move(cache_file)), wake_(std::move(wake)), inbox_(std::make_shared<Inbox<Arrival>>()) {}

FootageWork::~FootageWork() { forget_all(); }

void FootageWork::begin(model::FootageId footage, const std::string& path) {
  forget(footage);
  turns_[footage] = next_turn_++;
  paths_[footage] = path;
  states_[footage] = {};
  std::error_code error;
  if (!std::filesystem::exists(path, error)) states_[footage].missing = true;
  start("Opening " + file_name(path), footage, [this, footage, path, turn = turns_[footage]](Progress& progress) {
    auto facts = media::probe(path, progress);
    if (facts) {
      inbox_->put({footage, turn, FactsFound{std::move(*facts)}});
    } else {
      inbox_->put({footage, turn, NotOpened{facts.fault()}});
    }
  });
}

void FootageWork::forget(model::FootageId footage) {
  for (Task& task : tasks_) {
    if (task.footage == footage) task.progress->cancel();
  }
  states_.erase(footage);
  paths_.erase(footage);
  turns_.erase(footage);
}

void FootageWork::forget_all() {
  for (Task& task : tasks_) task.progress->cancel();
  states_.clear();
  paths_.clear();
  turns_.clear();
}

void FootageWork::start(const std::string& what, model::FootageId footage, Work work) {
  auto progress = std::make_shared<Progress>();
  auto over = std::make_shared<std::atomic<bool>>(false);
  tasks_.push_back({what, footage, progress, over});
  pool_.run([work = std::move(work), progress, over, wake = wake_] {
    if (!progress->cancelled()) work(*progress);
    over->store(true);
    if (wake) wake();
  });
}

std::vector<model::FootageId> FootageWork::poll() {
  std::vector<model::FootageId> news;
  for (auto& arrival : inbox_->take()) {
    const auto turn = turns_.find(arrival.footage);
    if (turn == turns_.end() || turn->second != arrival.turn) continue;
    news.push_back(arrival.footage);
    take(std::move(arrival));
  }
  std::erase_if(tasks_, [](const Task& task) { return task.over->load(); });
  std::sort(news.begin(), news.end());
  news.erase(std::unique(news.begin(), news.end()), news.end());
  return news;
}

void FootageWork::take(Arrival arrival) {
  FootageState& state = states_[arrival.footage];
  const std::string path = paths_[arrival.footage];
  std::visit(
      [&]<class T>(T& found) {
        if constexpr (std::is_same_v<T, FactsFound>) {
          state.facts = std::move(found.facts);
          after_facts(arrival.footage, path, *state.facts);
        } else if constexpr (std::is_same_v<T, NotOpened>) {
          state.missing = found.fault.code == Code::not_found;
          state.fault = std::move(found.fault);
          begin_waveform(arrival.footage, path);
        } else if constexpr (std::is_same_v<T, IndexFound>) {
          state.index = std::move(found.index);
          begin_stills(arrival.footage, path);
          begin_waveform(arrival.footage, path);
        } else if constexpr (std::is_same_v<T, WaveformFound>) {
          state.waveform = std::move(found.waveform);
        } else {
          auto& image = found.still.image;
          Still still{found.still.at, image.size.width, image.size.height,
                      std::make_shared<const std::vector<std::uint8_t>>(std::move(image.pixels)), next_still_++};
          const auto place = std::lower_bound(state.stills.begin(), state.stills.end(), still.at,
                                              [](const Still& a, Moment at) { return a.at < at; });
          if (place == state.stills.end() || place->at != still.at) state.stills.insert(place, std::move(still));
        }
      },
      arrival.what);
}

void FootageWork::after_facts(model::FootageId footage, const std::string& path, const media::FootageFacts& facts) {
  const auto turn = turns_[footage];
  if (facts.video) {
    start("Indexing " + file_name(path), footage,
          [this, footage, path, turn, mark = facts.fingerprint](Progress& progress) {
            auto index = kept_or_made<media::FrameIndex>(cache_file_, "frame index 1", mark,
                                                         [&] { return media::build_frame_index(path, progress); });
            if (!index) {
              if (index.fault().code != Code::cancelled) inbox_->put({footage, turn, NotOpened{index.fault()}});
              return;
            }
            inbox_->put({footage, turn, IndexFound{std::make_shared<const media::FrameIndex>(std::move(*index))}});
          });
  }
  if (!facts.video) begin_waveform(footage, path);
}

// The index knows where recordings were put end to end: the sound is drawn by it.
void FootageWork::begin_waveform(model::FootageId footage, const std::string& path) {
  const FootageState& state = states_[footage];
  if (!state.facts || !state.facts->audio) return;
  start("Drawing the sound of " + file_name(path), footage,
        [this, footage, path, turn = turns_[footage], index = state.index,
         mark = state.facts->fingerprint](Progress& progress) {
          auto waveform = kept_or_made<media::Waveform>(cache_file_, "waveform 1", mark,
                                                        [&] { return media::make_waveform(path, progress, index); });
          if (waveform)
            inbox_->put({footage, turn, WaveformFound{std::make_shared<const media::Waveform>(std::move(*waveform))}});
        });
}

void FootageWork::begin_stills(model::FootageId footage, const std::string& path) {
  const auto turn = turns_[footage];
  const auto index = states_[footage].index;
  if (!index || index->empty()) return;
  start("Stills of " + file_name(path), footage, [this, footage, path, turn, index](Progress& progress) {
    const Stretch extent = index->extent();
    const double every = std::max(still_every_seconds, extent.length().in_seconds() / most_stills);
    std::vector<Moment> moments;
    for (double s = 0; s < extent.length().in_seconds(); s += every)
      moments.push_back(extent.from + Moment::seconds(s));
    // What cannot be decoded simply has no still; the footage pane says why.
    static_cast<void>(media::make_stills(path, moments, Moment::seconds(every / 2), still_box, index.get(), progress,
                                         [&](std::size_t, media::Still still) {
                                           inbox_->put({footage, turn, StillFound{std::move(still)}});
                                           if (wake_) wake_();
                                         }));
  });
}

std::vector<Job> FootageWork::jobs() const {
  std::vector<Job> out;
  for (const Task& task : tasks_) {
    if (!task.over->load() && !task.progress->cancelled()) out.push_back({task.what, task.progress->share()});
  }
  return out;
}

}  // namespace sash::session
