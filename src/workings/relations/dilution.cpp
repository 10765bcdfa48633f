// Dilution: the solute stays, the solution grows.
#include "workings/relations/contraction.h"
#include "workings/relations/strength.h"
#include "workings/relations/usual_strength.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

const std::vector<Kind> strengths{Kind::molar_concentration, Kind::mass_concentration, Kind::mass_percent,
                                  Kind::volume_percent, Kind::mass_volume_percent};

class Dilution final : public RelationKind {
 public:
  std::string_view label() const override { return "dilution"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"strength_before", "strength before", strengths},
        {"strength_after", "strength after", strengths},
        {"volume_before", "volume before", {Kind::volume}},
        {"volume_after", "volume after", {Kind::volume}},
        {"mass_before", "mass before", {Kind::mass}},
        {"mass_after", "mass after", {Kind::mass}},
        {"solvent_added", "solvent added", {Kind::volume, Kind::mass}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    auto before = d.figure("strength_before", {}, "1");
    const auto after = d.figure("strength_after", {}, "2");
    SolutionSide first = side(d, "before", "1");
    SolutionSide second = side(d, "after", "2");
    if (after) d.aim(after->quantity);
    for (const auto& q : {second.volume, second.mass}) {
      if (q) d.aim(*q);
    }
    const auto added = d.figure("solvent_added", {dimension::volume, dimension::mass}, "added");
    if (added) d.aim(added->quantity);
    if (!before) before = usual_strength(d, "1");
    if (!before) d.missing("the strength before");
    if (!after) d.missing("the strength after");
    if (before && after) keep_solute(d, first, *before, second, *after);
    if (added) add_solvent(d, before, first, second, *added);
  }

 private:
  static SolutionSide side(Drafting& d, const std::string& when, const std::string& below) {
    SolutionSide s{"solution " + when, below, {}, {}, "density_" + when};
    if (const auto v = d.figure("volume_" + when, {dimension::volume}, below)) s.volume = v->quantity;
    if (const auto m = d.figure("mass_" + when, {dimension::mass}, below)) s.mass = m->quantity;
    return s;
  }

  static void keep_solute(Drafting& d, SolutionSide& first, const Filled& before, SolutionSide& second,
                          const Filled& after) {
    const auto one = meaning_of(d, before);
    const auto two = meaning_of(d, after);
    if (!one || !two) return;
    if (one->solute == two->solute) {
      d.product("the solute before and after", {{after.quantity, -1},
                                                {base_of(d, second, *two, &after), -1},
                                                {before.quantity, 1},
                                                {base_of(d, first, *one, &before), 1}});
      return;
    }
    const auto a = solute_of(d, first, before, SoluteIn::amount);
    const auto b = solute_of(d, second, after, SoluteIn::amount);
    if (a && b) d.equal("the solute before and after", *b, *a);
  }

  static void add_solvent(Drafting& d, const std::optional<Filled>& strength, SolutionSide& first, SolutionSide& second,
                          const Filled& added) {
    const bool by_mass = added.value->unit.dimension() == dimension::mass;
    const StrengthMeaning base{SoluteIn::mass, by_mass};
    std::vector<Weighted> members{{base_of(d, second, base), -1}, {base_of(d, first, base), 1}, {added.quantity, 1}};
    if (!by_mass) {
      if (const auto lost = lost_with(d, strength, added)) members.push_back({*lost, -1});
    }
    d.sum("the solution and the solvent added", members);
  }

  // What the volumes lose together, from whichever two of the three are stated.
  static std::optional<std::size_t> lost_with(Drafting& d, const std::optional<Filled>& strength, const Filled& added) {
    const auto stated = [](const std::optional<Filled>& f) { return f && f->value->stated; };
    const auto before = d.figure("volume_before", {dimension::volume}, "1");
    const auto after = d.figure("volume_after", {dimension::volume}, "2");
    if (!stated(before) || !strength) return volume_lost(d, {});
    const VolumePart solution{before->value->si, &*strength};
    if (added.value->stated) return volume_lost(d, {solution, {added.value->si, nullptr}});
    if (stated(after)) return volume_lost_filling_up(d, solution, after->value->si);
    return volume_lost(d, {});
  }
};

}  // namespace

const RelationKind& dilution() {
  static const Dilution kind;
  return kind;
}

}  // namespace sash::workings
