#include "narration/inner/gases.h"

#include <algorithm>
#include <cmath>

namespace sash::narration {

namespace {

using model::RelationType;
using quantity::Kind;

class Gases {
 public:
  Gases(const Ledger& told, Wirings& to) : told_(told), to_(to) {}

  void run() {
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i) || told_.kind(i) != Kind::amount) continue;
      for (const std::size_t g : told_.around(i, Kind::gas_volume)) from_gas(i, g);
    }
  }

 private:
  /// A gas may be taken at the conditions of the room or at those of a handbook: whichever gives what was said.
  void from_gas(std::size_t n, std::size_t g) {
    struct Conditions {
      const char* temperature;
      const char* pressure;
      double litres;  ///< a mole takes
    };
    // Ideal gas law; IUPAC Gold Book, "standard conditions for gases" (0 °C: 100 kPa, formerly 101.325 kPa).
    constexpr Conditions all[] = {{"", "", 24.06},
                                  {"25 Cel", "101.325 kPa", 24.47},
                                  {"20 Cel", "101.325 kPa", 24.06},
                                  {"0 Cel", "101.325 kPa", 22.41},
                                  {"0 Cel", "100 kPa", 22.71},
                                  {"25 Cel", "100 kPa", 24.79}};
    if (!told_.one_sample(n, g) && !told_.may_be_same_matter(n, g)) return;
    double tie = follows(n, g) ? ground::fair : ground_of_pair(told_, n, g);
    if (is_one_mole(n)) tie = std::min(tie, ground::weak);
    const std::size_t later = std::max(n, g);
    const std::string substance = substance_of(told_[g].subject.empty() ? told_[n].subject : told_[g].subject);
    for (const Conditions& c : all) {
      const bool room = *c.temperature == '\0';
      // Rooms differ: a degree or two, and the weather.
      const Sized molar_volume{c.litres / 1000, c.litres / 1000 * (room ? 0.012 : 0.002)};
      SpokenRelation r{RelationType::gas_given_off,
                       {{"amount", n, ""}, {"volume", g, ""}},
                       {{"substance", substance}},
                       told_[g].subject,
                       "moles and volume of a gas"};
      if (!room) {
        r.given["temperature"] = c.temperature;
        r.given["pressure"] = c.pressure;
      } else {
        add_room(r);
      }
      const Sized gives = later == g ? told_.sized(n) * molar_volume : told_.sized(g) / molar_volume;
      to_.offer(later, room ? tie : tie * 0.9, gives, std::move(r));
    }
  }

  /// "A mole", "one millimole": what a conversion goes by, rather than a portion.
  bool is_one_mole(std::size_t n) const { return told_[n].reading.value == 1; }

  /// A volume that was worked out right after moles of the same gas that were worked out: "0.49 moles, so 11.8 litres".
  bool follows(std::size_t n, std::size_t g) const {
    constexpr std::size_t reach = 4;
    const bool both = told_.role(n) == model::Role::stated_result && told_.role(g) == model::Role::stated_result;
    return n < g && g - n <= reach && both && told_.same_matter(n, g) && !is_one_mole(n) && !told_.one_sample(n, g) &&
           !told_[g].same_sample_as;
  }

  /// Near one atmosphere, as rooms are.
  bool is_ambient(std::size_t i) const {
    const double pascal = told_.sized(i).value;
    return told_.kind(i) == Kind::pressure && pascal > 6e4 && pascal < 1.4e5;
  }

  /// The temperature and pressure of the room, where they were said.
  void add_room(SpokenRelation& r) const {
    std::optional<std::size_t> warmth;
    std::optional<std::size_t> pressure;
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i)) continue;
      if (is_ambient(i) && (!pressure || i <= r.terms.front().figure + 3)) pressure = i;
      constexpr double ice_point = 273.15;
      const bool room = std::abs(told_.sized(i).value - ice_point) > 2;  // nobody's room is at 0 °C: those are standard
      if (told_.kind(i) == Kind::temperature && room && i + 1 < told_.size() && told_.kind(i + 1) == Kind::pressure)
        warmth = i;
    }
    if (pressure) r.terms.push_back({"pressure", *pressure, ""});
    if (warmth) r.terms.push_back({"temperature", *warmth, ""});
  }

  const Ledger& told_;
  Wirings& to_;
};

}  // namespace

void wire_gases(const Ledger& told, Wirings& to) { Gases(told, to).run(); }

}  // namespace sash::narration
