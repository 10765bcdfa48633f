#pragma once
// Waveform: the lowest and highest sample of each 10 ms of a footage's sound, channels averaged. For drawing; not for
// measuring loudness. The maker reads the whole file; safe from any thread.

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <vector>

#include "media/frame_index.h"
#include "support/moment.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::media {

struct Waveform {
  static constexpr Moment step = Moment::millis(10);
  struct Extent {
    std::int16_t low = 0;  ///< in 1/32767 of full scale
    std::int16_t high = 0;
    bool operator==(const Extent&) const = default;
  };
  std::vector<Extent>
      steps;  ///< step i covers [i*10 ms, (i+1)*10 ms) from the container's start; silence where nothing is

  Extent over(Stretch s) const;  ///< lowest and highest over a stretch; zeros outside

  std::vector<std::uint8_t> to_bytes() const;
  static Outcome<Waveform> from_bytes(std::span<const std::uint8_t> bytes);  ///< Fails: newer_version, damaged.
  bool operator==(const Waveform&) const = default;
};

/// The index, where there is one, places the sound of recordings put end to end.
/// Fails: as probe(); unsupported (no sound); cancelled.
Outcome<Waveform> make_waveform(const std::filesystem::path& path, Progress& progress,
                                std::shared_ptr<const FrameIndex> index = nullptr);

}  // namespace sash::media
