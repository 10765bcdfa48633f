// Element balance: what goes in of one element comes out again, wherever it went.
#include "chem/names.h"
#include "workings/relations/kinds.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

class ElementBalance final : public RelationKind {
 public:
  std::string_view label() const override { return "element balance"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Kind> amounts{Kind::mass, Kind::amount};
    static const std::vector<Slot> slots{
        {"in", "goes in", amounts, true, true},
        {"out", "comes out", amounts, true, true},
        {"unaccounted", "unaccounted for", amounts},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto symbol = d.given("element");
    const chem::Element* element = symbol ? chem::find_element(*symbol) : nullptr;
    if (element == nullptr) return d.missing("the symbol of the element");
    std::vector<Weighted> members;
    for (const auto& [slot, sign] : {std::pair{"out", -1.0}, std::pair{"in", 1.0}}) {
      for (const Filled& f : d.figures(slot, {dimension::mass, dimension::amount})) {
        if (sign < 0) d.aim(f.quantity);
        const auto n = element_in(d, f, *element);
        if (!n) return;
        members.push_back({*n, sign});
      }
    }
    if (const auto lost = d.figure("unaccounted", {dimension::mass, dimension::amount})) {
      d.aim(lost->quantity);
      const auto n = element_in(d, *lost, *element, ", unaccounted");
      if (n) members.push_back({*n, -1});
    }
    if (members.size() < 2) return d.missing("what goes in and what comes out");
    d.sum("the " + std::string(element->name) + " that goes in and comes out", members);
  }

 private:
  // The amount of the element in a figure's substance.
  static std::optional<std::size_t> element_in(Drafting& d, const Filled& f, const chem::Element& element,
                                               const std::string& which = {}) {
    std::string text = !f.about.empty() ? f.about : f.value->figure->subject;
    if (text.empty()) text = element.symbol;
    const auto formula = chem::formula_of(text);
    if (!formula) {
      d.missing("a substance that is known (" + formula.fault().sentence + ")");
      return std::nullopt;
    }
    const double count = formula->count_of({element.number, std::nullopt}).number();
    if (count == 0) {
      d.missing("a substance with " + std::string(element.name) + " in it: " + formula->unicode() + " has none");
      return std::nullopt;
    }
    const std::string name = formula->unicode() + which;
    d.at(f.quantity).symbol.below = name;
    const std::size_t n = d.hidden(std::string(element.name) + " in " + name,
                                   Piece::of_symbol("n", std::string(element.symbol) + " in " + name), Kind::amount);
    if (f.value->unit.dimension() == dimension::amount) {
      d.product("the " + std::string(element.name) + " in " + name, {{n, -1}, {f.quantity, 1}}, count);
      return n;
    }
    const auto molar_mass = d.molar_mass(*formula);
    if (!molar_mass) return std::nullopt;
    d.product("the " + std::string(element.name) + " in " + name, {{n, -1}, {f.quantity, 1}, {*molar_mass, -1}}, count);
    return n;
  }
};

}  // namespace

const RelationKind& element_balance() {
  static const ElementBalance kind;
  return kind;
}

}  // namespace sash::workings
