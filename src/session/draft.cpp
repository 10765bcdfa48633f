#include "session/draft.h"

#include <utility>

namespace sash::session {
namespace {

template <class T>
std::optional<model::Thing> stored(const model::Record& record, std::int64_t number) {
  const T* found = model::find(record, decltype(T::id){number});
  return found != nullptr ? std::optional<model::Thing>(*found) : std::nullopt;
}

template <std::size_t... I>
std::optional<model::Thing> stored(const model::Record& record, std::size_t type, std::int64_t number,
                                   std::index_sequence<I...>) {
  std::optional<model::Thing> out;
  ((I == type ? void(out = stored<std::variant_alternative_t<I, model::Thing>>(record, number)) : void()), ...);
  return out;
}

}  // namespace

model::Edit Draft::done(std::string name) const {
  model::Edit edit;
  edit.name = std::move(name);
  for (const auto& [key, after] : fresh_) {
    auto before = stored(record_, key.first, key.second, std::make_index_sequence<std::variant_size_v<model::Thing>>());
    if (before != after) edit.changes.push_back({std::move(before), after});
  }
  if (bench_ && !(*bench_ == record_.bench)) edit.bench = model::BenchChange{record_.bench, *bench_};
  return edit;
}

}  // namespace sash::session
