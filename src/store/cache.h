#pragma once
// ContentCache: what was worked out from media and can be worked out again (frame indexes, waveforms, stills), kept by
// the fingerprint of the content in an SQLite file of its own, away from the records. It may be lost at any time: a
// damaged or foreign file is replaced, and where no file can be had the cache lives in memory. So nothing here fails.
// Single thread. Several desks may share one file.

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sash::store {

class ContentCache {
 public:
  /// The cache in the file `path`, made when missing, with its folders. Keeps at most about `limit` bytes: what was not
  /// used for longest goes first.
  static ContentCache open(const std::string& path, std::uint64_t limit = std::uint64_t{1} << 30U);

  ContentCache(ContentCache&&) noexcept;
  ContentCache& operator=(ContentCache&&) noexcept;
  ~ContentCache();

  /// Keeps the bytes, replacing what was there. `kind` names what they are and the version of their form
  /// ("frame index 1"); `content` is the fingerprint, with whatever else tells them apart ("f00d at 120").
  void put(std::string_view kind, std::string_view content, std::span<const std::uint8_t> bytes);
  std::optional<std::vector<std::uint8_t>> get(std::string_view kind, std::string_view content);
  void forget(std::string_view kind, std::string_view content);

  std::uint64_t size() const;  ///< bytes kept

 private:
  struct Shelf;
  explicit ContentCache(std::unique_ptr<Shelf> shelf);
  std::unique_ptr<Shelf> shelf_;
};

}  // namespace sash::store
