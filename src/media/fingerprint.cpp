#include "media/fingerprint.h"

#include <fmt/format.h>

#include <array>
#include <cstdint>
#include <fstream>
#include <memory>
#include <vector>

#include "media/inner/file_look.h"

extern "C" {
#include <libavutil/mem.h>
#include <libavutil/sha.h>
}

namespace sash::media {
namespace {

constexpr std::int64_t end_bytes = 64 * 1024;
constexpr std::int64_t sample_bytes = 4 * 1024;
constexpr std::int64_t samples = 16;

struct Span {
  std::int64_t from;
  std::int64_t length;
};

/// All of a small file; both ends and evenly spread samples of a large one.
std::vector<Span> read_plan(std::int64_t size) {
  constexpr std::int64_t sampled = 2 * end_bytes + samples * sample_bytes;
  if (size <= sampled) return {{0, size}};
  std::vector<Span> plan{{0, end_bytes}};
  const std::int64_t middle = size - 2 * end_bytes - sample_bytes;
  for (std::int64_t i = 0; i < samples; ++i) plan.push_back({end_bytes + middle / (samples - 1) * i, sample_bytes});
  plan.push_back({size - end_bytes, end_bytes});
  return plan;
}

struct FreeSha {
  void operator()(AVSHA* s) const noexcept { av_free(s); }
};

}  // namespace

Outcome<std::string> fingerprint(const std::filesystem::path& path) {
  const auto looked = inner::look_at_file(path);
  if (!looked) return looked.fault();
  const std::int64_t size = *looked;
  std::ifstream in(path, std::ios::binary);
  const std::unique_ptr<AVSHA, FreeSha> sha(av_sha_alloc());
  av_sha_init(sha.get(), 256);
  const std::string size_words = std::to_string(size);
  av_sha_update(sha.get(), reinterpret_cast<const std::uint8_t*>(size_words.data()), size_words.size());
  std::vector<char> buffer;
  for (const auto& [from, length] : read_plan(size)) {
    buffer.resize(static_cast<std::size_t>(length));
    in.seekg(from);
    in.read(buffer.data(), length);
    if (in.gcount() != length) {
      return Fault::of(
          Code::unreadable,
          fmt::format("The file {} could not be read to its end; check the disk it is on.", inner::quoted(path)),
          path.string());
    }
    av_sha_update(sha.get(), reinterpret_cast<const std::uint8_t*>(buffer.data()), buffer.size());
  }
  std::array<std::uint8_t, 32> digest{};
  av_sha_final(sha.get(), digest.data());
  std::string text = size_words + "-";
  for (const std::uint8_t b : digest) text += fmt::format("{:02x}", b);
  return text;
}

}  // namespace sash::media
