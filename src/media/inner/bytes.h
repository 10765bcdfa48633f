#pragma once
// Writing and reading the bytes of what media keeps for later: variable-length integers, and a checksum at the end, so
// that cut or foreign bytes are refused rather than believed. Not a file format for others. Pure.

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

namespace sash::media::inner {

/// FNV-1a, 64 bits. Source: IETF draft-eastlake-fnv, section 2.
constexpr std::uint64_t checksum(std::span<const std::uint8_t> bytes) {
  std::uint64_t h = 14695981039346656037U;
  for (const std::uint8_t b : bytes) h = (h ^ b) * 1099511628211U;
  return h;
}

class ByteWriter {
 public:
  explicit ByteWriter(std::string_view magic) { bytes_.assign(magic.begin(), magic.end()); }

  void whole(std::uint64_t v) {
    for (; v >= 0x80; v >>= 7) bytes_.push_back(static_cast<std::uint8_t>(v | 0x80));
    bytes_.push_back(static_cast<std::uint8_t>(v));
  }
  /// Small magnitudes of either sign stay short.
  void signed_whole(std::int64_t v) {
    whole((static_cast<std::uint64_t>(v) << 1) ^ static_cast<std::uint64_t>(v >> 63));
  }
  /// Adds the checksum; nothing may follow.
  std::vector<std::uint8_t> finish() && {
    const std::uint64_t sum = checksum(bytes_);
    for (int shift = 0; shift < 64; shift += 8) bytes_.push_back(static_cast<std::uint8_t>(sum >> shift));
    return std::move(bytes_);
  }

 private:
  std::vector<std::uint8_t> bytes_;
};

class ByteReader {
 public:
  /// Nothing when the magic or the checksum is not there.
  static std::optional<ByteReader> of(std::span<const std::uint8_t> bytes, std::string_view magic) {
    if (bytes.size() < magic.size() + 8) return std::nullopt;
    for (std::size_t i = 0; i < magic.size(); ++i) {
      if (bytes[i] != static_cast<std::uint8_t>(magic[i])) return std::nullopt;
    }
    const auto body = bytes.first(bytes.size() - 8);
    std::uint64_t sum = 0;
    for (std::size_t i = 0; i < 8; ++i) sum |= static_cast<std::uint64_t>(bytes[body.size() + i]) << (8 * i);
    if (sum != checksum(body)) return std::nullopt;
    return ByteReader(body.subspan(magic.size()));
  }

  /// Nothing past the end or when longer than 64 bits.
  std::optional<std::uint64_t> whole() {
    std::uint64_t v = 0;
    for (int shift = 0; shift < 64; shift += 7) {
      if (at_ == body_.size()) return std::nullopt;
      const std::uint8_t b = body_[at_++];
      v |= static_cast<std::uint64_t>(b & 0x7F) << shift;
      if (b < 0x80) return v;
    }
    return std::nullopt;
  }
  std::optional<std::int64_t> signed_whole() {
    const auto v = whole();
    if (!v) return std::nullopt;
    return static_cast<std::int64_t>(*v >> 1) ^ -static_cast<std::int64_t>(*v & 1);
  }
  std::size_t left() const { return body_.size() - at_; }

 private:
  explicit ByteReader(std::span<const std::uint8_t> body) : body_(body) {}
  std::span<const std::uint8_t> body_;
  std::size_t at_ = 0;
};

}  // namespace sash::media::inner
