#include "narration/inner/evidence.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstring>
#include <utility>

#include "embedded/narration_weights.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::narration {

namespace {

constexpr std::uint64_t golden = 0x9E3779B97F4A7C15u;  // 2^64 over the golden ratio: spreads the bits

std::uint64_t mixed(std::uint64_t key, std::uint64_t with) {
  key = (key ^ with) * golden;
  return key ^ key >> 32;
}

/// A number for a cue, made part by part, eight bytes at a time: a million are asked for in an hour of narration.
class Key {
 public:
  void add(std::string_view part) {
    key_ = mixed(key_, part.size());
    while (part.size() >= 8) {
      key_ = mixed(key_, word<std::uint64_t>(part, 0));
      part.remove_prefix(8);
    }
    if (part.size() >= 4) {
      const std::uint64_t low = word<std::uint32_t>(part, 0);
      const std::uint64_t high = word<std::uint32_t>(part, part.size() - 4);
      key_ = mixed(key_, low | high << 32);
    } else if (!part.empty()) {
      const auto letter = [&](std::size_t at) { return std::uint64_t{static_cast<unsigned char>(part[at])}; };
      key_ = mixed(key_, letter(0) | letter(part.size() / 2) << 8 | letter(part.size() - 1) << 16);
    }
  }
  std::uint64_t value() const { return key_ == 0 ? 1 : key_; }

 private:
  template <class Word>
  static Word word(std::string_view bytes, std::size_t at) {
    Word word;
    std::memcpy(&word, bytes.data() + at, sizeof word);
    return word;
  }
  std::uint64_t key_ = 1;
};

std::uint64_t key_of(std::string_view cue) {
  Key key;
  for (const std::string_view part : split(cue, '/')) key.add(part);
  return key.value();
}

}  // namespace

Weights::Weights() : slots_(64) {}

Weights::Weights(std::string_view table) : Weights() {
  bool header = true;
  for (const std::string_view line : split_lines(table)) {
    if (std::exchange(header, false) || line.empty()) continue;
    const auto cells = split(line, '\t');
    promise(cells.size() == 3, "a row of the narration weights has three cells");
    double weight = 0;
    const auto read = std::from_chars(cells[1].data(), cells[1].data() + cells[1].size(), weight);
    promise(read.ec == std::errc(), "a weight is a number");
    set(cells[0], weight);
  }
}

void Weights::set(std::string_view cue, double weight) {
  if (2 * (used_ + 1) > slots_.size()) grow();
  put(key_of(cue), static_cast<float>(weight));
}

void Weights::put(std::uint64_t key, float weight) {
  std::size_t at = key & (slots_.size() - 1);
  while (slots_[at].key != 0 && slots_[at].key != key) at = (at + 1) & (slots_.size() - 1);
  used_ += slots_[at].key == 0 ? 1 : 0;
  slots_[at] = {key, weight};
}

void Weights::grow() {
  const std::vector<Slot> before = std::exchange(slots_, std::vector<Slot>(slots_.size() * 2));
  used_ = 0;
  for (const Slot& slot : before) {
    if (slot.key != 0) put(slot.key, slot.weight);
  }
}

double Weights::of(std::initializer_list<std::string_view> parts) const {
  Key key;
  for (const std::string_view part : parts) key.add(part);
  std::size_t at = key.value() & (slots_.size() - 1);
  while (slots_[at].key != 0) {
    if (slots_[at].key == key.value()) return static_cast<double>(slots_[at].weight);
    at = (at + 1) & (slots_.size() - 1);
  }
  return 0;
}

const Weights& own_weights() {
  static const Weights own{embedded::narration_weights};
  return own;
}

void Scale::add(std::initializer_list<std::string_view> parts) {
  sum_ += weights_->of(parts);
  if (cues_ == nullptr) return;
  std::string cue;
  for (const std::string_view part : parts) {
    if (part.find('/') != std::string_view::npos) return;  // could not be told from two parts
  }
  for (const std::string_view part : parts) cue.append(cue.empty() ? "" : "/").append(part);
  cues_->push_back(std::move(cue));
}

void Certainty::add(double sum) {
  if (all_ == 0) {
    most_ = sum;
    all_ = 1;
  } else if (sum > most_) {
    all_ = all_ * std::exp(most_ - sum) + 1;
    most_ = sum;
  } else {
    all_ += std::exp(sum - most_);
  }
}

std::string_view step_of(std::size_t tokens) {
  constexpr std::array<std::pair<std::size_t, std::string_view>, 9> steps{
      {{1, "0"}, {3, "2"}, {6, "4"}, {10, "7"}, {16, "11"}, {25, "17"}, {40, "26"}, {70, "41"}, {110, "71"}}};
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
