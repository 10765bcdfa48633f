#include "desk/shown/scratch_page.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "chem/commercial.h"
#include "chem/elements.h"
#include "chem/equation.h"
#include "chem/molar_mass.h"
#include "chem/names.h"
#include "desk/shown/scratch_bench.h"
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

// Quantities as typed, one after the other with commas, semicolons or "and" between; nothing when one is none.
std::optional<Quantities> quantities_of(std::string_view typed) {
  Quantities all;
  std::string text(typed);
  std::ranges::replace(text, ';', ',');
  for (const std::string_view part : split(text, ',')) {
    if (trim(part).empty()) continue;
    const auto read = narration::read_quick_figure(trim(part));
    if (!read) return std::nullopt;
    const std::size_t before = all.size();
    for (narration::QuickFigure each : *read) {
      if (each.attached_to) *each.attached_to += before;
      all.push_back(std::move(each));
    }
  }
  if (all.empty()) return std::nullopt;
  return all;
}

// "4.0 g CuO, 30 mL 2 M H2SO4; CuO + H2SO4 -> CuSO4 + H2O", the equation first or last.
std::optional<std::vector<ScratchLine>> of_reaction(std::string_view typed) {
  std::string equation;
  std::string amounts;
  for (const std::string_view part : split(typed, ';')) {
    std::string& to = looks_like_equation(part) ? equation : amounts;
    to += (to.empty() ? "" : ";") + std::string(trim(part));
  }
  if (equation.empty() || amounts.empty()) return std::nullopt;
  const EquationOffer offer = offer_for(equation);
  const auto balanced = chem::read_equation(offer.text);
  if (offer.state == EquationOffer::State::cannot || !balanced) return of_equation(equation);
  const auto put_in = quantities_of(amounts);
  if (!put_in) return std::vector<ScratchLine>{{"", "'" + amounts + "' is no quantity of a substance.", false, true}};
  std::vector<ScratchLine> lines{{"reaction", balanced->unicode(), true}};
  for (auto& line : scratch_reaction(*balanced, *put_in)) lines.push_back(std::move(line));
  return lines;
}

std::optional<std::pair<std::string_view, std::string_view>> around(std::string_view typed, std::string_view word) {
  const auto at = typed.find(word);
  if (at == typed.npos) return std::nullopt;
  return std::pair(trim(typed.substr(0, at)), trim(typed.substr(at + word.size())));
}

// Two things with a word between: "250 mL 2 M HCl from 12 M", "70 °F in °C", "9.2 g of 12.56 g".
std::optional<std::vector<ScratchLine>> of_two(std::string_view typed) {
  if (const auto two = around(typed, " from ")) {
    const auto wanted = quantities_of(two->first);
    const auto stock = quantities_of(two->second);
    if (wanted && stock && stock->size() == 1) return scratch_dilution(*wanted, stock->front());
  }
  if (const auto two = around(typed, " of ")) {
    const auto part = quantities_of(two->first);
    const auto whole = quantities_of(two->second);
    if (part && whole && part->size() == 1 && whole->size() == 1) return scratch_share(part->front(), whole->front());
  }
  for (const std::string_view word : {" in ", " to ", " as "}) {
    const auto two = around(typed, word);
    if (!two) continue;
    const auto quantity = quantities_of(two->first);
    const auto unit = narration::read_quick_figure("1 " + std::string(two->second));
    if (!quantity || !unit || quantity->size() != 1) continue;
    if (auto line = scratch_conversion(quantity->front(), unit->front().reading.unit)) return {{std::move(*line)}};
  }
  return std::nullopt;
}

std::optional<std::vector<ScratchLine>> of_trade_name(std::string_view typed) {
  const auto trade = chem::commercial_solution(typed);
  if (!trade) return std::nullopt;
  const auto& s = trade->solution;
  return std::vector<ScratchLine>{
      {"molarity", quantity::show_with_unit(s.molarity, "mol/L", 3)},
      {"by mass", quantity::show_with_unit(s.w * 100, "% w/w", 3)},
      {"density", quantity::show_with_unit(s.density.value, "g/mL", 4)},
      {"taken as", trade->assumption},
      {"source", trade->source},
  };
}

}  // namespace

std::vector<ScratchLine> scratch(std::string_view typed) {
  typed = trim(typed);
  if (typed.empty()) return {};
  if (auto lines = of_reaction(typed)) return *lines;
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
  if (auto lines = of_trade_name(typed)) return *lines;
  if (auto lines = of_two(typed)) return *lines;
  if (const auto quantities = quantities_of(typed)) {
    auto lines = scratch_quantities(*quantities);
    if (!lines.empty()) return lines;
  }
  return {{"not understood", formula.fault().sentence, false, true}};
}

}  // namespace sash::desk
