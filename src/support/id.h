#pragma once
// Id<Thing>: a row's number that cannot be mistaken for another thing's. 0 means "not stored yet".

#include <compare>
#include <cstdint>
#include <functional>

namespace sash {

template <class Thing>
struct Id {
  std::int64_t number = 0;
  constexpr bool known() const { return number != 0; }
  constexpr auto operator<=>(const Id&) const = default;
};

}  // namespace sash

template <class Thing>
struct std::hash<sash::Id<Thing>> {
  std::size_t operator()(sash::Id<Thing> id) const noexcept { return std::hash<std::int64_t>()(id.number); }
};
