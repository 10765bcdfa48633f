#pragma once
// Names as they sound, for what a recogniser wrote in other words: "acid tone" for acetone, "potassium per man ganate".
// A name is reduced to the sequence of its consonants; two that reduce alike are taken to sound alike. Pure.

#include <string>
#include <string_view>

namespace sash::narration {

/// The consonants of the words, voiced and unvoiced ones alike, doubled ones once, "A" for a vowel that opens the
/// first: "acetone" and "acid tone" both give "Astn". Linear.
std::string sounds_of(std::string_view words);

}  // namespace sash::narration
