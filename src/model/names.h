#pragma once
// The words that files and commands use for the model's closed sets, both ways. Pure.

#include <optional>
#include <string_view>

#include "model/record.h"

namespace sash::model {

std::string_view name_of(Hedge v);
std::string_view name_of(Source v);
std::string_view name_of(Role v);
std::string_view name_of(Doubt::From v);
std::string_view name_of(Standing v);
std::string_view name_of(Route v);
std::string_view name_of(Level v);
std::string_view name_of(Delivery v);
std::string_view name_of(RelationType v);

/// The value with that name, e.g. from_name<Route>("inhalation"); nothing for an unknown word.
template <class E>
std::optional<E> from_name(std::string_view name);

/// All names of a set, in the order of the enum.
template <class E>
std::vector<std::string_view> all_names();

}  // namespace sash::model
