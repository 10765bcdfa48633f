#pragma once
// Bare numbers that are read off something: thermometers, strips, meters, watches. Private to the recognition.

#include "narration/inner/bare_meaning.h"

namespace sash::narration {

std::optional<Meaning> by_instrument(const Scene& s, std::size_t index);
std::optional<Meaning> by_acidity(const Scene& s, std::size_t index);
std::optional<Meaning> by_temperature(const Scene& s, std::size_t index);
/// "for two minutes, and then strongly for at least ten".
std::optional<Meaning> by_waiting(const Scene& s, std::size_t index);
/// "51. 53." behind a thermometer: a number that is a sentence by itself is read out like the one before.
std::optional<Meaning> by_reading_out(const Scene& s, std::size_t index);

}  // namespace sash::narration
