#include "desk/shown/scratch_page.h"

#include "chem/balance.h"
#include "chem/elements.h"
#include "chem/equation.h"
#include "chem/molar_mass.h"
#include "chem/names.h"
#include "desk/shown/wiring.h"
#include "desk/shown/words.h"
#include "quantity/show.h"
#include "support/text.h"

namespace sash::desk {
namespace {

bool looks_like_equation(std::string_view typed) {
  return typed.find("->") != typed.npos || typed.find("→") != typed.npos || typed.find('=') != typed.npos ||
         typed.find("⇌") != typed.npos;
}

std::vector<ScratchLine> of_equation(std::string_view typed) {
  const EquationOffer offer = offer_for(typed);
  switch (offer.state) {
    case EquationOffer::State::balanced:
      return {{"balanced", offer.text, true}};
    case EquationOffer::State::balance_offered: {
      std::vector<ScratchLine> lines{{"balanced", offer.text, true}};
      if (const auto equation = chem::read_equation(offer.text)) {
        for (const auto& species : equation->all()) {
          const auto mass = chem::molar_mass(species.formula);
          if (mass) lines.push_back({species.formula.unicode(), quantity::show_with_unit(mass->value, "g/mol"), false});
        }
      }
      return lines;
    }
    case EquationOffer::State::cannot:
      return {{"cannot be balanced", offer.text, false, true}};
    case EquationOffer::State::empty:
      break;
  }
  return {};
}

std::vector<ScratchLine> of_formula(const chem::Formula& formula) {
  std::vector<ScratchLine> lines{{"formula", formula.unicode(), true}};
  const auto mass = chem::molar_mass(formula);
  if (!mass) return {{"formula", mass.fault().sentence, false, true}};
  lines.push_back({"molar mass", quantity::show_with(mass->value, mass->spread, "g/mol")});
  if (const auto shares = chem::mass_shares(formula)) {
    for (const auto& share : *shares) {
      lines.push_back(
          {"share of " + chem::symbol_of(share.what), quantity::show_with_unit(share.fraction * 100, "%", 4)});
    }
  }
  return lines;
}

}  // namespace

std::vector<ScratchLine> scratch(std::string_view typed) {
  typed = trim(typed);
  if (typed.empty()) return {};
  if (looks_like_equation(typed)) return of_equation(typed);
  const auto formula = chem::read_formula(typed);
  if (formula) return of_formula(*formula);
  if (const auto name = chem::NameBook::standard().find(typed)) {
    std::vector<ScratchLine> lines{{"name", name->preferred}};
    if (!name->assumption.empty()) lines.push_back({"taken as", name->assumption});
    if (name->formula) {
      if (const auto of_name = chem::read_formula(*name->formula)) {
        for (auto& line : of_formula(*of_name)) lines.push_back(std::move(line));
      }
    }
    return lines;
  }
  return {{"not understood", formula.fault().sentence, false, true}};
}

}  // namespace sash::desk
