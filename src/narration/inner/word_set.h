#pragma once
// A small closed set of words, spelled out where it is used.

#include <array>
#include <string_view>

namespace sash::narration {

template <std::size_t N>
struct WordSet {
  std::array<std::string_view, N> words;
  constexpr bool has(std::string_view word) const {
    for (const std::string_view w : words) {
      if (w == word) return true;
    }
    return false;
  }
};
template <class... T>
WordSet(T...) -> WordSet<sizeof...(T)>;

}  // namespace sash::narration
