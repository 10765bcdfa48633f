#pragma once
// One way to the words that files use for closed sets, whichever part the set belongs to. Pure.

#include <optional>
#include <string_view>
#include <vector>

#include "model/names.h"
#include "quantity/kind.h"

namespace sash::store {

inline std::string_view word_of(quantity::Kind kind) { return quantity::kind_name(kind); }
template <class E>
std::string_view word_of(E value) {
  return model::name_of(value);
}

template <class E>
std::optional<E> meaning_of(std::string_view word) {
  if constexpr (std::is_same_v<E, quantity::Kind>) {
    return quantity::kind_from_name(word);
  } else {
    return model::from_name<E>(word);
  }
}

template <class E>
std::vector<std::string_view> all_words() {
  if constexpr (std::is_same_v<E, quantity::Kind>) {
    std::vector<std::string_view> out;
    for (int i = 0; i <= static_cast<int>(E::other); ++i) out.push_back(word_of(static_cast<E>(i)));
    return out;
  } else {
    return model::all_names<E>();
  }
}

}  // namespace sash::store
