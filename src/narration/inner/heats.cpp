#include "narration/inner/heats.h"

#include <algorithm>

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

constexpr double water_capacity = 4184;  ///< J/(kg K), near room temperature; IAPWS-95, rounded
constexpr double water_density = 1000;   ///< kg/m3; only to tell what was meant, the workings know better

class Heats {
 public:
  Heats(const Ledger& told, Wirings& to) : told_(told), to_(to) {}

  void run() {
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i)) continue;
      if (told_.kind(i) == Kind::energy && !is_heat_capacity(i)) of_warming(i);
      if (told_.kind(i) == Kind::temperature_change && told_.role(i) == Role::stated_result) by_a_heat(i);
    }
  }

 private:
  /// "Take 4.18 joules": that of a gram of water by a degree.
  bool is_heat_capacity(std::size_t i) const {
    const double joules = told_.sized(i).value;
    return joules > 4.1 && joules < 4.3;
  }

  /// How much warmer: one figure, or the two temperatures.
  struct Change {
    std::vector<SpokenTerm> terms;
    Sized kelvin;
  };
  /// What is warmed: one portion, or what was put together.
  struct Content {
    std::vector<SpokenTerm> terms;
    Sized kilograms;
    bool watery = false;  ///< water, or what is mostly water
  };

  std::vector<Change> changes(std::size_t i) const {
    constexpr std::size_t reach = 8;
    std::vector<Change> found;
    for (const std::size_t k :
         told_.before(i, reach, 2, [&](std::size_t f) { return told_.kind(f) == Kind::temperature_change; }))
      found.push_back({{{"temperature_change", k, ""}}, told_.sized(k)});
    const auto t = told_.before(i, reach, 2, [&](std::size_t f) { return told_.kind(f) == Kind::temperature; });
    if (t.size() == 2 && told_[t[0]].reading.unit == told_[t[1]].reading.unit) {
      std::size_t warm = t[0];
      std::size_t cold = t[1];
      if (told_.sized(warm).value < told_.sized(cold).value) std::swap(warm, cold);
      found.push_back(
          {{{"temperature_before", cold, ""}, {"temperature_after", warm, ""}}, told_.sized(warm) - told_.sized(cold)});
    }
    return found;
  }

  std::optional<Sized> kilograms(std::size_t k) const {
    if (told_.kind(k) == Kind::mass) return told_.sized(k);
    if (told_.kind(k) == Kind::volume) return scaled(told_.sized(k), water_density);
    return std::nullopt;
  }
  bool is_watery(std::size_t k) const {
    return told_.matter(k) == "water" || told_[k].subject == "reaction mixture" ||
           told_[k].subject.ends_with(" solution");
  }
  static const char* slot_of(Kind kind) { return kind == Kind::mass ? "mass" : "volume"; }

  std::vector<Content> contents(std::size_t i) const {
    constexpr std::size_t reach = 16;
    constexpr std::size_t most = 5;
    const auto portions = told_.before(i, reach, most, [&](std::size_t k) {
      const bool portion = told_.kind(k) == Kind::mass || told_.kind(k) == Kind::volume;
      return portion && told_.role(k) != Role::other && told_[k].reading.unit != "[drp]";
    });
    std::vector<Content> found;
    for (const std::size_t k : portions)
      found.push_back({{{slot_of(told_.kind(k)), k, ""}}, *kilograms(k), is_watery(k)});
    // What was dissolved warms along.
    for (const std::size_t water : portions) {
      if (!is_watery(water)) continue;
      for (const std::size_t salt : portions) {
        if (salt == water || told_.kind(salt) != Kind::mass || told_.one_sample(salt, water)) continue;
        if (told_.sized(salt).value >= kilograms(water)->value) continue;
        found.push_back({{{slot_of(told_.kind(water)), water, ""}, {"mass", salt, ""}},
                         *kilograms(water) + told_.sized(salt),
                         true});
      }
    }
    return found;
  }

  SpokenRelation warming(std::size_t i, const Content& content, const Change& change) const {
    SpokenRelation r{
        RelationType::heat, {}, {{"content", "water"}}, told_[i].subject, "what is warmed, and by how much"};
    r.terms = content.terms;
    r.terms.insert(r.terms.end(), change.terms.begin(), change.terms.end());
    return r;
  }

  /// Mass times heat capacity times warming.
  void of_warming(std::size_t i) {
    const auto by = changes(i);
    const auto what = contents(i);
    for (const Change& change : by) {
      for (const Content& content : what) {
        const bool plain = &change == &by.front() && &content == &what.front() && content.watery &&
                           told_.sentences_between(i, change.terms.front().figure) <= 3;
        SpokenRelation r = warming(i, content, change);
        r.terms.push_back({"heat", i, ""});
        to_.offer(i, plain ? ground::fair : ground::loose, scaled(content.kilograms * change.kelvin, water_capacity),
                  std::move(r));
      }
    }
  }

  /// "Twenty kilojoules into half a litre: that makes ten degrees."
  void by_a_heat(std::size_t i) {
    constexpr std::size_t reach = 6;
    const auto heats = told_.before(i, reach, 1, [&](std::size_t k) { return told_.kind(k) == Kind::energy; });
    if (heats.empty()) return;
    for (const Content& content : contents(i)) {
      SpokenRelation r = warming(i, content, {{{"temperature_change", i, ""}}, told_.sized(i)});
      r.terms.push_back({"heat", heats.front(), ""});
      to_.offer(i, ground::loose, scaled(told_.sized(heats.front()) / content.kilograms, 1 / water_capacity),
                std::move(r));
    }
  }

  const Ledger& told_;
  Wirings& to_;
};

}  // namespace

void wire_heats(const Ledger& told, Wirings& to) { Heats(told, to).run(); }

}  // namespace sash::narration
