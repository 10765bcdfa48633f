#pragma once
// Bare numbers that are read off something: thermometers, strips, meters, watches; that the
// numbers around explain; that go on in a run. Private to the recognition.

#include "narration/inner/bare_meaning.h"

namespace sash::narration {

std::optional<Meaning> by_instrument(const Scene& s, std::size_t index);
std::optional<Meaning> by_acidity(const Scene& s, std::size_t index);
std::optional<Meaning> by_temperature(const Scene& s, std::size_t index);
/// "for two minutes, and then strongly for at least ten".
std::optional<Meaning> by_waiting(const Scene& s, std::size_t index);
/// "51. 53." behind a thermometer: a number that is a sentence by itself is read out like the one before.
std::optional<Meaning> by_reading_out(const Scene& s, std::size_t index);

/// "252 grams, the tray's 655, so I'm at 907 loaded": what the numbers around it make.
std::optional<Meaning> by_reckoning(const Scene& s, std::size_t index);

/// "so it's a 75 percent yield. Wait, is it? Yeah, 75.": what was just said with its unit.
std::optional<Meaning> by_said_again(const Scene& s, std::size_t index);
/// "the average of those is 11.4": of the sort of what was averaged.
std::optional<Meaning> by_mean(const Scene& s, std::size_t index);
/// "the label said six percent and we've got 4.8": beside a figure in one breath.
std::optional<Meaning> by_contrast(const Scene& s, std::size_t index);
/// "24.6 ... 24.9, no, 24.5, and the last one's 24.6": with a decimal like the volume before, where something is
/// titrated.
bool is_titre(const Scene& s, std::size_t index);
/// "sixteen four" read off a burette is 16.4: joins the two numbers.
void join_readings(Scene& s);
/// "26.55 times nought point one": the strength that was said before.
std::optional<Meaning> by_factor(const Scene& s, std::size_t index);
/// "32.5 percent bismuth, 51 indium": a part of the same mixture.
std::optional<Meaning> by_part_of_list(const Scene& s, std::size_t index);
/// "After two hours, mustard. After four?"
std::optional<Meaning> by_same_preposition(const Scene& s, std::size_t index);
/// A number said like a quantity: of the sort of the figure nearby that it is most like.
std::optional<Meaning> by_likeness(const Scene& s, std::size_t index);
/// "What I poured off is 462 grams. And the skin was 26."
std::optional<Meaning> by_parallel(const Scene& s, std::size_t index);
/// "the barometer says 755 millimetres of mercury ... the gas on its own is at 736"
std::optional<Meaning> by_pressure(const Scene& s, std::size_t index);

}  // namespace sash::narration
