// Mixing: several portions into one; what they hold adds up.
#include <algorithm>
#include <map>

#include "chem/names.h"
#include "workings/relations/contraction.h"
#include "workings/relations/strength.h"
#include "workings/relations/usual_strength.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

class Mixing final : public RelationKind {
 public:
  std::string_view label() const override { return "mixing"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Kind> strengths{Kind::molar_concentration, Kind::mass_concentration, Kind::mass_percent,
                                             Kind::volume_percent, Kind::mass_volume_percent};
    static const std::vector<Slot> slots{
        {"part", "part", {Kind::volume, Kind::mass}, true, true},
        {"part_strength", "strength of a part", strengths, true, true},
        {"whole", "mixture", {Kind::volume, Kind::mass}},
        {"whole_strength", "strength of the mixture", strengths},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto strength = d.figure("whole_strength", {}, "mixture");
    const auto whole = d.figure("whole", {dimension::volume, dimension::mass}, "mixture");
    if (strength) d.aim(strength->quantity);
    if (whole) d.aim(whole->quantity);
    std::map<std::string, Filled> parts;
    for (const Filled& f : d.figures("part", {dimension::volume, dimension::mass})) parts.emplace(f.about, f);
    std::map<std::string, Filled> strengths;
    for (const Filled& f : d.figures("part_strength")) strengths.emplace(f.about, f);
    for (const auto& [name, part] : parts) {
      const bool by_volume = strength && strength->value->figure->kind == Kind::volume_percent;
      const Kind percent = by_volume ? Kind::volume_percent : Kind::mass_percent;
      if (!strengths.contains(name) && is_solute(d, name)) strengths.emplace(name, pure_strength(d, name, percent));
    }
    if (parts.size() < 2) return d.missing("at least two parts, each with a name of its own");
    const bool by_mass = parts.begin()->second.value->unit.dimension() == dimension::mass;
    for (const auto& [name, part] : parts) {
      if ((part.value->unit.dimension() == dimension::mass) != by_mass)
        return d.missing("parts all by mass or all by volume");
    }
    const std::size_t sum = total(d, parts, strengths, whole, by_mass);
    if (!strength) {
      if (says_strength(d)) d.missing("the strength of the mixture");
      return;
    }
    add_up(d, parts, strengths, *strength, sum, by_mass);
  }

 private:
  // A part called by the name of the solute is nothing else: ethanol in water.
  static bool is_solute(const Drafting& d, const std::string& part) {
    const auto own = chem::formula_of(part);
    const auto solute = d.formula();
    return own && solute && own->same_composition(*solute);
  }

  static std::size_t total(Drafting& d, const std::map<std::string, Filled>& parts,
                           const std::map<std::string, Filled>& strengths, const std::optional<Filled>& whole,
                           bool by_mass) {
    const std::size_t sum =
        whole ? whole->quantity
              : d.hidden(by_mass ? "mass of the mixture" : "volume of the mixture",
                         Piece::of_symbol(by_mass ? "m" : "V", "mixture"), by_mass ? Kind::mass : Kind::volume);
    std::vector<Weighted> members{{sum, -1}};
    for (const auto& [name, part] : parts) members.push_back({part.quantity, 1});
    if (!by_mass) {
      if (const auto lost = volume_lost(d, volumes_of(parts, strengths))) members.push_back({*lost, -1});
    }
    d.sum("the parts and the mixture", members);
    return sum;
  }

  // Empty where not all are stated.
  static std::vector<VolumePart> volumes_of(const std::map<std::string, Filled>& parts,
                                            const std::map<std::string, Filled>& strengths) {
    std::vector<VolumePart> volumes;
    for (const auto& [name, part] : parts) {
      if (!part.value->stated) return {};
      const auto own = strengths.find(name);
      volumes.push_back({part.value->si, own != strengths.end() ? &own->second : nullptr});
    }
    return volumes;
  }

  static bool says_strength(const Drafting& d) {
    const auto& terms = d.relation().terms;
    return std::any_of(terms.begin(), terms.end(), [](const model::Term& t) { return t.slot == "part_strength"; });
  }

  static void add_up(Drafting& d, const std::map<std::string, Filled>& parts,
                     const std::map<std::string, Filled>& strengths, const Filled& strength, std::size_t sum,
                     bool by_mass) {
    const auto meaning = meaning_of(d, strength);
    if (!meaning) return;
    std::vector<Weighted> solutes{{sum, -1}};  // the first is the solute of the mixture, known at the end
    for (const auto& [name, part] : parts) {
      const auto own = strengths.find(name);
      if (own == strengths.end()) continue;  // holds none of it
      SolutionSide side{name, name, {}, {}, "density:" + name};
      (by_mass ? side.mass : side.volume) = part.quantity;
      const auto solute = solute_of(d, side, own->second, meaning->solute);
      if (!solute) return;
      solutes.push_back({*solute, 1});
    }
    for (const auto& [name, own] : strengths) {
      if (!parts.contains(name)) d.missing("the part “" + name + "” whose strength is given");
    }
    if (solutes.size() == 1) return d.missing("the strength of a part");
    SolutionSide mixture{"mixture", "mixture", {}, {}, "density"};
    (by_mass ? mixture.mass : mixture.volume) = sum;
    const auto all = solute_of(d, mixture, strength, meaning->solute);
    if (!all) return;
    solutes.front().first = *all;
    d.sum("the solute of the parts and of the mixture", solutes);
  }
};

}  // namespace

const RelationKind& mixing() {
  static const Mixing kind;
  return kind;
}

}  // namespace sash::workings
