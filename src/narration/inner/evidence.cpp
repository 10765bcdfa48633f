#include "narration/inner/evidence.h"

#include <array>
#include <charconv>
#include <utility>

#include "embedded/narration_weights.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

constexpr std::uint64_t fnv_basis = 14695981039346656037u;  // FNV-1a, 64 bit
constexpr std::uint64_t fnv_prime = 1099511628211u;

}  // namespace

Weights::Weights(std::string_view table) {
  bool header = true;
  for (const std::string_view line : split_lines(table)) {
    if (std::exchange(header, false) || line.empty()) continue;
    const auto cells = split(line, '\t');
    promise(cells.size() == 2, "a row of the narration weights has two cells");
    double weight = 0;
    const auto read = std::from_chars(cells[1].data(), cells[1].data() + cells[1].size(), weight);
    promise(read.ec == std::errc(), "a weight is a number");
    set(cells[0], weight);
  }
}

std::uint64_t Weights::key_of(std::initializer_list<std::string_view> parts) {
  std::uint64_t key = fnv_basis;
  const auto mix = [&](char c) { key = (key ^ static_cast<unsigned char>(c)) * fnv_prime; };
  bool first = true;
  for (const std::string_view part : parts) {
    if (!std::exchange(first, false)) mix('/');
    for (const char c : part) mix(c);
  }
  return key;
}

const Weights& own_weights() {
  static const Weights own{embedded::narration_weights};
  return own;
}

void Scale::add(std::initializer_list<std::string_view> parts) {
  sum_ += weights_->of(parts);
  if (cues_ == nullptr) return;
  std::string cue;
  for (const std::string_view part : parts) cue.append(cue.empty() ? "" : "/").append(part);
  cues_->push_back(std::move(cue));
}

std::string_view step_of(std::size_t tokens) {
  constexpr std::array<std::pair<std::size_t, std::string_view>, 9> steps{{{1, "0"},
                                                                           {3, "2"},
                                                                           {6, "4"},
                                                                           {10, "7"},
                                                                           {16, "11"},
                                                                           {25, "17"},
                                                                           {40, "26"},
                                                                           {70, "41"},
                                                                           {110, "71"}}};
  for (const auto& [most, name] : steps) {
    if (tokens <= most) return name;
  }
  return "far";
}

std::string_view few(std::size_t count) {
  constexpr std::array<std::string_view, 4> names{"0", "1", "2", "3"};
  return count < names.size() ? names[count] : "more";
}

}  // namespace sash::narration
