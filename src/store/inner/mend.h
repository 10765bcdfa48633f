#pragma once
// What a damaged file leaves behind may point at things that are gone. Pure.

#include <string>
#include <vector>

#include "model/record.h"

namespace sash::store {

/// Makes the record whole again: a footage that is gone gets a stand-in of its id, other lost references are dropped.
/// Returns a phrase for each; none for a whole record, which is left as it is.
std::vector<std::string> mend_references(model::Record& record);

}  // namespace sash::store
