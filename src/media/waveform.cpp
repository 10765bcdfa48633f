#include "media/waveform.h"

#include <algorithm>
#include <cmath>

#include "media/inner/bytes.h"
#include "media/inner/sound_reader.h"

namespace sash::media {
namespace {

constexpr std::string_view magic = "SashSound";
constexpr std::uint64_t version = 2;

/// No footage is longer than this; a time stamp beyond it is damage, not sound.
constexpr std::int64_t most_steps = 100LL * 60 * 60 * 48;

std::int16_t in_16_bits(float v) {
  return static_cast<std::int16_t>(std::lround(std::clamp(v, -1.0F, 1.0F) * 32767.0F));
}

Waveform::Extent joined(Waveform::Extent a, Waveform::Extent b) {
  return {std::min(a.low, b.low), std::max(a.high, b.high)};
}

/// Puts one block's samples into their steps, a run of samples at a time.
void add(Waveform& w, const inner::SoundBlock& block, int rate) {
  const auto count = static_cast<std::int64_t>(block.samples.size());
  for (std::int64_t i = 0; i < count;) {
    const Moment at = block.at + Moment::rational(i, 1, rate);
    const std::int64_t step = at.count() < 0 ? -1 : at.count() / Waveform::step.count();
    if (step >= most_steps) return;
    const WideInteger left = (step + 1) * Waveform::step.count() - at.count();
    const auto run = static_cast<std::int64_t>((left * rate + Moment::per_second - 1) / Moment::per_second);
    const std::int64_t end = std::min(count, i + std::max<std::int64_t>(run, 1));
    if (step >= 0) {
      const auto [low, high] = std::minmax_element(block.samples.begin() + i, block.samples.begin() + end);
      const Waveform::Extent found{in_16_bits(*low), in_16_bits(*high)};
      const auto place = static_cast<std::size_t>(step);
      const bool fresh = place >= w.steps.size();
      if (fresh) w.steps.resize(place + 1);
      w.steps[place] = fresh ? found : joined(w.steps[place], found);
    }
    i = end;
  }
}

}  // namespace

Waveform::Extent Waveform::over(Stretch s) const {
  const auto step_at = [&](Moment m) {
    return static_cast<std::size_t>(
        std::clamp<std::int64_t>(m.count() / step.count(), 0, static_cast<std::int64_t>(steps.size())));
  };
  const std::size_t from = step_at(s.from);
  const std::size_t until = step_at(s.until + step - Moment::ticks(1));
  if (from >= until) return {};
  Extent e = steps[from];
  for (std::size_t i = from + 1; i < until; ++i) e = joined(e, steps[i]);
  return e;
}

std::vector<std::uint8_t> Waveform::to_bytes() const {
  inner::ByteWriter out(magic);
  out.whole(version);
  out.whole(steps.size());
  for (const Extent& e : steps) {
    out.signed_whole(e.low);
    out.signed_whole(e.high);
  }
  return std::move(out).finish();
}

Outcome<Waveform> Waveform::from_bytes(std::span<const std::uint8_t> bytes) {
  const Fault damaged = Fault::of(Code::damaged, "The kept waveform is damaged; it will be made again.");
  auto in = inner::ByteReader::of(bytes, magic);
  if (!in) return damaged;
  const auto made_by = in->whole();
  if (!made_by) return damaged;
  if (*made_by != version) {
    return Fault::of(Code::newer_version, "The kept waveform was written by another version; it will be made again.");
  }
  const auto count = in->whole();
  if (!count || *count > in->left() / 2) return damaged;
  Waveform w;
  w.steps.resize(*count);
  for (Extent& e : w.steps) {
    const auto low = in->signed_whole();
    const auto high = in->signed_whole();
    if (!low || !high || *low < -32767 || *high > 32767 || *low > *high) return damaged;
    e = {static_cast<std::int16_t>(*low), static_cast<std::int16_t>(*high)};
  }
  if (in->left() != 0) return damaged;
  return w;
}

Outcome<Waveform> make_waveform(const std::filesystem::path& path, Progress& progress,
                                std::shared_ptr<const FrameIndex> index) {
  auto reader = inner::SoundReader::open(path, 0, 1, [&progress] { return progress.cancelled(); });
  if (!reader) return reader.fault();
  reader->use_index(std::move(index));
  const auto total = reader->container().claimed_duration();
  Waveform w;
  for (;;) {
    const auto block = reader->next();
    if (!block) return block.fault();
    if (!*block) break;
    add(w, **block, reader->rate());
    if (total) progress.at(std::min(1.0, (*block)->at.in_seconds() / total->in_seconds()));
  }
  progress.at(1);
  return w;
}

}  // namespace sash::media
