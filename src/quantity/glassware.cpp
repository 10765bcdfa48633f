#include "quantity/glassware.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "embedded/glassware.h"
#include "quantity/inner/decimal.h"
#include "quantity/show.h"
#include "quantity/trade_unit.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::quantity {
namespace {

// Other words for the types of the table.
struct Synonym {
  std::string_view word;
  std::string_view type;
};
constexpr Synonym synonyms[] = {
    {"graduated cylinder", "cylinder"},
    {"measuring cylinder", "cylinder"},
    {"volumetric flask", "flask"},
    {"one-mark flask", "flask"},
    {"one-mark pipette", "pipette"},
    {"volumetric pipette", "pipette"},
    {"bulb pipette", "pipette"},
    {"transfer pipette", "pipette"},
    {"measuring pipette", "graduated pipette"},
    {"serological pipette", "graduated pipette"},
    {"micropipette", "piston pipette"},
    {"digital burette", "piston burette"},
    {"erlenmeyer flask", "conical flask"},
    {"erlenmeyer", "conical flask"},
    {"syringe", "plastic syringe"},
    {"scale", "balance"},
    {"buret", "burette"},
    {"pipet", "pipette"},
    {"thermometer probe", "digital thermometer"},
    {"pt100", "resistance thermometer"},
    {"rtd", "resistance thermometer"},
};

Standing read_standing(std::string_view text) {
  if (text == "published") return Standing::published;
  if (text == "second-hand") return Standing::second_hand;
  if (text == "common practice") return Standing::common_practice;
  promise(text == "from memory", "a standing in glassware.tsv is one of four");
  return Standing::from_memory;
}

std::vector<Instrument> read_table() {
  std::vector<Instrument> out;
  bool header = true;
  for (const auto line : split_lines(embedded::glassware)) {
    if (line.empty() || line.starts_with('#')) continue;
    if (std::exchange(header, false)) continue;
    const auto cell = split(line, '\t');
    promise(cell.size() == 10, "ten columns in glassware.tsv");
    const auto limit = read_number(cell[5]);
    const auto share = read_number(cell[6]);
    promise(limit && share, "limits in glassware.tsv are numbers");
    Instrument one;
    one.type = std::string(cell[0]);
    one.standard = std::string(cell[1]);
    one.capacity = read_number(cell[2]);
    one.unit = Unit::known(cell[3]);
    one.grade = std::string(cell[4]);
    one.limit = *limit;
    one.share = *share;
    one.shape = cell[7] == "triangular" ? Shape::triangular : Shape::rectangular;
    one.standing = read_standing(cell[8]);
    one.source = std::string(cell[9]);
    out.push_back(std::move(one));
  }
  return out;
}

bool is_thermometer(const Instrument& instrument) { return instrument.unit.dimension() == dimension::temperature; }

/// What a person typed, taken apart.
struct Wanted {
  std::string type;
  std::string standard;
  std::string grade;
  std::optional<double> size;
  std::optional<Unit> unit;
};

/// Takes `word` out of `text` when it stands there as whole words.
bool take_words(std::string& text, std::string_view word) {
  const std::string padded = " " + std::string(word) + " ";
  const auto at = text.find(padded);
  if (at == std::string::npos) return false;
  text.replace(at, padded.size(), " ");
  return true;
}

std::optional<std::string> take_type(std::string& text) {
  std::vector<Synonym> names(std::begin(synonyms), std::end(synonyms));
  for (const Instrument& one : instruments()) names.push_back({one.type, one.type});
  // Longest first, so that "graduated pipette" is not read as a pipette.
  std::stable_sort(names.begin(), names.end(),
                   [](const Synonym& a, const Synonym& b) { return a.word.size() > b.word.size(); });
  for (const Synonym& name : names) {
    if (take_words(text, name.word)) return std::string(name.type);
  }
  return std::nullopt;
}

std::string take_standard(std::string& text) {
  for (const Instrument& one : instruments()) {
    if (!one.standard.empty() && take_words(text, to_lower(one.standard))) return one.standard;
  }
  return {};
}

/// A number with its unit anywhere in the words left: "25 ml" or "25ml".
void take_size(std::string& text, Wanted& wanted) {
  std::vector<std::string> words;
  for (const auto word : split(text, ' ')) {
    if (!word.empty()) words.emplace_back(word);
  }
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto digits = std::min(words[i].find_first_not_of("0123456789."), words[i].size());
    const auto number = read_number(std::string_view(words[i]).substr(0, digits));
    if (!number) continue;
    const bool joined = digits < words[i].size();
    if (!joined && i + 1 == words.size()) continue;
    const auto unit = read_trade_unit(joined ? words[i].substr(digits) : words[i + 1]);
    if (!unit) continue;
    wanted.size = number;
    wanted.unit = unit->unit;
    words.erase(words.begin() + static_cast<std::ptrdiff_t>(i),
                words.begin() + static_cast<std::ptrdiff_t>(i + (joined ? 1 : 2)));
    break;
  }
  text = " " + join(words, " ") + " ";
}

/// "class A" anywhere, or the letter as the last word; a leading "a" is an article.
std::string read_grade(std::string_view text) {
  for (const std::string_view grade : {"a", "b", "1", "2", "maker"}) {
    std::string word(grade);
    if (text.find(" class " + word + " ") != std::string_view::npos || text.ends_with(" " + word + " ")) return word;
  }
  // Class AS is class A with a stated waiting time.
  return text.find(" class as ") != std::string_view::npos || text.ends_with(" as ") ? "a" : "";
}

bool same_size(const Instrument& one, const Wanted& wanted) {
  if (!one.capacity) return true;
  if (!wanted.size || !wanted.unit || wanted.unit->dimension() != one.unit.dimension()) return false;
  const double have = one.unit.slope_at(0) * *one.capacity;
  const double want = wanted.unit->slope_at(0) * *wanted.size;
  return std::abs(have - want) <= 1e-9 * std::abs(have);
}

Fault unknown_type(std::string_view name) {
  Fault fault = Fault::of(Code::unknown_name,
                          "\"" + std::string(name) +
                              "\" names no known instrument; write for example \"25 mL cylinder class A\" or "
                              "\"balance 0.01 g\".",
                          std::string(name));
  for (const Instrument& one : instruments()) {
    if (std::find(fault.others.begin(), fault.others.end(), one.type) == fault.others.end())
      fault.others.push_back(one.type);
  }
  return fault;
}

Fault unknown_size(std::string_view name, const Wanted& wanted) {
  Fault fault = Fault::of(Code::not_found, "", std::string(name));
  for (const Instrument& one : instruments()) {
    if (one.type == wanted.type && (wanted.standard.empty() || one.standard == wanted.standard))
      fault.others.push_back(one.name());
  }
  fault.sentence = "The tables hold no \"" + std::string(name) + "\"";
  if (!fault.others.empty()) fault.sentence += "; they hold for example \"" + fault.others.front() + "\"";
  fault.sentence += ". State the plus-minus instead.";
  return fault;
}

std::string_view standing_remark(Standing standing) {
  switch (standing) {
    case Standing::second_hand:
      return "; limit quoted second-hand";
    case Standing::from_memory:
      return "; limit from memory, check it against the standard";
    case Standing::common_practice:
      return "; common practice, no standard";
    case Standing::published:
      break;
  }
  return "";
}

}  // namespace

std::string Instrument::name() const {
  std::string out = standard;
  out += (out.empty() ? "" : " ") + type;
  if (capacity) out += " " + inner::Decimal::of(*capacity).plain() + " " + unit.symbol();
  if (!grade.empty()) out += " " + grade;
  return out;
}

double Instrument::limit_at(double reading) const {
  const double base = is_thermometer(*this) ? reading : capacity.value_or(reading);
  return limit + share * std::abs(base);
}

std::span<const Instrument> instruments() {
  static const std::vector<Instrument> table = read_table();
  return table;
}

Outcome<Instrument> find_instrument(std::string_view name) {
  std::string text = " " + to_lower(trim(name)) + " ";
  for (const std::string_view mark : {",", ";", "(", ")"}) text = replace_all(std::move(text), mark, " ");
  while (text.find("  ") != std::string::npos) text = replace_all(std::move(text), "  ", " ");
  if (trim(text).empty()) return Fault::of(Code::malformed, "The name of the instrument is empty.");
  Wanted wanted;
  wanted.grade = read_grade(text);
  auto type = take_type(text);
  if (!type) return unknown_type(name);
  wanted.type = std::move(*type);
  wanted.standard = take_standard(text);
  take_size(text, wanted);
  const Instrument* widest = nullptr;
  for (const Instrument& one : instruments()) {
    if (one.type != wanted.type || !same_size(one, wanted)) continue;
    if (!wanted.standard.empty() && one.standard != wanted.standard) continue;
    if (!wanted.grade.empty() && to_lower(one.grade) != wanted.grade) continue;
    if (widest == nullptr || one.limit > widest->limit) widest = &one;
  }
  if (widest == nullptr) return unknown_size(name, wanted);
  Instrument out = *widest;
  if (!out.capacity && !is_thermometer(out) && wanted.unit && wanted.unit->dimension() == out.unit.dimension()) {
    out.capacity = wanted.size;  // a vessel of any capacity becomes one of this capacity
    out.unit = *wanted.unit;
  }
  return out;
}

std::optional<Instrument> instrument_for(std::string_view type, double volume, const Unit& unit,
                                         std::string_view grade) {
  const Instrument* best = nullptr;
  for (const Instrument& one : instruments()) {
    if (one.type != type || !one.capacity || one.unit.dimension() != unit.dimension()) continue;
    if (!grade.empty() && one.grade != grade) continue;
    const double capacity = one.unit.to_si(*one.capacity);
    if (capacity < unit.to_si(volume) * (1 - 1e-9)) continue;
    const double smallest = best != nullptr ? best->unit.to_si(*best->capacity) : capacity;
    if (best == nullptr || capacity < smallest || (capacity == smallest && one.limit > best->limit)) best = &one;
  }
  return best != nullptr ? std::optional(*best) : std::nullopt;
}

Outcome<Spread> spread_of(const Instrument& instrument, double reading, const Unit& unit) {
  if (unit.dimension() != instrument.unit.dimension()) {
    return wrong_dimension(unit.dimension(), unit.stance(), instrument.unit);
  }
  // A temperature change is the difference of two readings, whatever they were.
  const bool difference = unit.stance() == Stance::difference;
  const double there = difference ? 0 : instrument.unit.from_si(unit.to_si(reading));
  const double limit = instrument.limit_at(there);
  Spread out;
  out.shape = instrument.shape;
  out.half_width = limit;
  out.standard = limit / (instrument.shape == Shape::triangular ? std::sqrt(6.0) : std::numbers::sqrt3);
  out.reason = "Read on " + instrument.name() + ": ±" + show_with_unit(limit, instrument.unit.symbol()) + ", " +
               (instrument.shape == Shape::triangular ? "triangular" : "rectangular") + " (" + instrument.source + ")" +
               std::string(standing_remark(instrument.standing)) + ".";
  if (difference) {
    out.standard *= std::numbers::sqrt2;
    out.shape = Shape::triangular;  // the difference of two rectangular readings
    out.half_width *= 2;
    out.reason += " Two readings, one subtracted from the other.";
  }
  return out.scaled(instrument.unit.as_difference().slope_at(0) / unit.slope_at(reading));
}

}  // namespace sash::quantity
