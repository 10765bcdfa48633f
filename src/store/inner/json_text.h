#pragma once
// Single things as one line of JSON, in the same form as within a whole record: what the journal keeps. Pure.

#include <string>
#include <string_view>

#include "model/edit.h"
#include "support/outcome.h"

namespace sash::store {

std::string json_text(const model::Thing& thing);
std::string json_text(const model::Bench& bench);

/// The word for the thing's type: "figure".
std::string_view type_word(const model::Thing& thing);

/// The thing of the type that `type_word` names. Fails: Code::malformed, unknown_name.
Outcome<model::Thing> thing_from_json(std::string_view type_word, std::string_view text);
Outcome<model::Bench> bench_from_json(std::string_view text);

}  // namespace sash::store
