#pragma once
// Mangler: spoils texts and files the way damage and malice do, for tests that read what nobody meant well.

#include <algorithm>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace sash::test {

/// A few changes of the kinds that damage and malice make; always the same ones for a seed.
class Mangler {
 public:
  explicit Mangler(std::uint64_t seed) : random_(seed) {}

  /// `pieces` are put in over what was there.
  std::string mangle(std::string bytes, const std::vector<std::string>& pieces) {
    for (std::uint64_t n = 1 + below(4); n > 0 && !bytes.empty(); --n) {
      const std::size_t at = below(bytes.size());
      const std::size_t length = std::min(bytes.size() - at, std::size_t{1} << below(10));
      switch (below(6)) {
        case 0:
          bytes[at] = static_cast<char>(random_());
          break;
        case 1:
          bytes[at] = static_cast<char>(bytes[at] ^ (1 << below(8)));
          break;
        case 2:
          bytes.erase(at, length);
          break;
        case 3:
          bytes.insert(below(bytes.size()), bytes.substr(at, length));
          break;
        case 4:
          bytes.replace(at, length, pieces[below(pieces.size())]);
          break;
        default:
          bytes.resize(at);
          break;
      }
    }
    return bytes;
  }

  /// Changes that keep the length, so that pages stay where they are.
  std::string mangle_pages(std::string bytes, std::size_t page) {
    for (std::uint64_t n = 1 + below(6); n > 0; --n) {
      const std::size_t at = below(bytes.size());
      const std::size_t start = at / page * page;
      switch (below(5)) {
        case 0:
          bytes[at] = static_cast<char>(random_());
          break;
        case 1:
          bytes[start + below(std::min<std::size_t>(100, bytes.size() - start))] = '\xff';
          break;
        case 2:
          bytes.replace(start, page, std::string(std::min(page, bytes.size() - start), '\0'));
          break;
        case 3: {
          const std::size_t other = below(bytes.size()) / page * page;
          const std::string content = bytes.substr(other, page);
          bytes.replace(start, content.size(), content);
          break;
        }
        default:
          bytes.resize(start + below(page));
          return bytes;
      }
    }
    return bytes;
  }

  std::uint64_t below(std::uint64_t n) { return random_() % n; }

 private:
  std::mt19937_64 random_;
};

}  // namespace sash::test
