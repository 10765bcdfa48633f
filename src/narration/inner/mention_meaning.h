#pragma once
// What mentions stand for once all are known: expressly not meant, said to be another, a class for one of its kind,
// with the oxidation state or the water of crystallisation said elsewhere, under a nickname. Private to finding
// mentions.

#include <vector>

#include "narration/inner/mention.h"

namespace sash::narration {

void settle_mentions(const TokenStream& s, std::vector<Mention>& mentions);

}  // namespace sash::narration
