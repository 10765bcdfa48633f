#pragma once
// What the narration as a whole is about: what the procedure makes, and which material is introduced where.

#include <string_view>
#include <vector>

#include "narration/inner/scene.h"

namespace sash::narration {

/// Whether the name says too little to be what a procedure makes or what is spoken of: "pigment", "residue".
bool is_vague(std::string_view name);

/// "crude benzoin", "the theoretical yield of benzil", "you get copper metal back": said of what has come out.
bool has_come_out(const Scene& s, const Mention& m);

/// Mentions that introduce what is spoken of from there on, in order.
std::vector<const Mention*> find_introductions(const Scene& s);

}  // namespace sash::narration
