#pragma once
// From untrusted text to a JSON tree: bounded in length and depth, no name twice in one object, faults with line and
// column. nlohmann's tree stays inside the .cpp files that include this.

#include <nlohmann/json.hpp>
#include <string_view>

#include "support/outcome.h"

namespace sash::store {

/// Fails: Code::malformed, with the byte in Fault::place; Code::out_of_range when longer than 128 MiB.
Outcome<nlohmann::json> parse_json(std::string_view text);

}  // namespace sash::store
