#pragma once
// The demo's record: what is said, shown and done in the film, pinned and tied. Pure.

#include <string>

#include "model/record.h"

namespace sash::demo {

/// The record for the film kept beside it as `film_name`.
model::Record make_record(const std::string& film_name);

}  // namespace sash::demo
