#include "chem/equation.h"

#include <nlohmann/json.hpp>
#include <ostream>

#include "chem/balance.h"
#include "chem/cell.h"
#include "chem/redox.h"
#include "cli/commands/commands.h"
#include "cli/inner/equation_report.h"
#include "quantity/show.h"
#include "support/text.h"

namespace sash::cli {
namespace {

using nlohmann::ordered_json;

bool typed_coefficients(const chem::Equation& equation) {
  for (const auto& each : equation.all()) {
    if (each.coefficient) return true;
  }
  return false;
}

/// What balancing or completing came to, in one form.
struct Settled {
  chem::BalanceStatus status = chem::BalanceStatus::impossible;
  std::optional<chem::Equation> equation;  // balanced, with coefficients
  std::string why;
  std::vector<chem::Coefficients> solutions;
  std::vector<chem::Equation> halves;
  std::vector<chem::Equation> family;
};

Settled settled_by(chem::Completion completion) {
  return {completion.status,
          std::move(completion.equation),
          std::move(completion.why),
          {},
          std::move(completion.halves),
          std::move(completion.solutions)};
}

Outcome<std::optional<chem::Medium>> read_medium(const std::string& text) {
  if (text.empty()) return std::optional<chem::Medium>();
  const std::string word = to_lower(text);
  if (word == "acid" || word == "acidic") return std::optional(chem::Medium::acid);
  if (word == "base" || word == "basic" || word == "alkali") return std::optional(chem::Medium::base);
  return Fault::of(Code::wrong_use, "'" + text + "' is no medium; --in takes acid or base.", text);
}

// Two halves with a semicolon between them.
Outcome<Settled> settle_halves(const std::vector<chem::Equation>& halves, std::optional<chem::Medium> medium) {
  if (medium) {
    auto completed = chem::complete_halves(halves[0], halves[1], *medium);
    if (!completed) return completed.fault();
    return settled_by(std::move(completed).value());
  }
  auto sum = chem::combine_half_reactions(halves[0], halves[1]);
  if (!sum) {
    Fault fault = sum.fault();
    fault.sentence += " With --in acid or --in base, water, its ions and electrons are added.";
    return fault;
  }
  Settled out;
  out.status = chem::BalanceStatus::balanced;
  out.equation = std::move(sum).value();
  return out;
}

Outcome<Settled> settle_one(const chem::Equation& equation, std::optional<chem::Medium> medium) {
  if (medium) {
    auto completed = chem::complete(equation, *medium);
    if (!completed) return completed.fault();
    return settled_by(std::move(completed).value());
  }
  auto balance = chem::balance(equation);
  if (!balance) return balance.fault();
  Settled out;
  out.status = balance->status;
  out.why = balance->why;
  out.solutions = balance->solutions;
  if (out.status == chem::BalanceStatus::balanced) out.equation = equation.with(balance->coefficients);
  return out;
}

// "It would balance in acid": said when ions are there and nothing but water, acid or electrons is missing.
std::string completion_hint(const chem::Equation& equation) {
  bool charged = false;
  for (const auto& each : equation.all()) charged = charged || each.formula.charge() != 0;
  if (!charged) return {};
  const auto completed = chem::complete(equation, chem::Medium::acid);
  if (!completed || !completed->equation) return {};
  return "With --in acid it is completed to " + completed->equation->unicode() + ".";
}

ordered_json as_json(std::span<const chem::Equation> typed, const Settled& settled) {
  ordered_json out;
  out["status"] = chem::status_text(settled.status);
  const bool balanced = settled.equation.has_value();
  out["coefficients"] = ordered_json::array();
  out["balanced"] = balanced ? ordered_json(settled.equation->plain()) : ordered_json(nullptr);
  out["why"] = settled.why.empty() ? ordered_json(nullptr) : ordered_json(settled.why);
  auto& species = out["species"] = ordered_json::array();
  if (balanced) {
    for (const auto& each : settled.equation->all()) {
      species.push_back(each.formula.plain());
      out["coefficients"].push_back(static_cast<std::int64_t>(each.coefficient.value_or(1).number()));
    }
  } else {
    for (const auto& each : typed[0].all()) species.push_back(each.formula.plain());
  }
  if (!balanced && !settled.solutions.empty()) out["solutions"] = settled.solutions;
  const auto list = [&out](const char* key, const std::vector<chem::Equation>& equations) {
    if (equations.empty()) return;
    auto& to = out[key] = ordered_json::array();
    for (const auto& e : equations) to.push_back(e.plain());
  };
  list("half_reactions", settled.halves);
  list("reactions", settled.family);
  if (typed.size() == 1 && !typed[0].on_arrow().empty()) out["on_arrow"] = typed[0].on_arrow();
  return out;
}

// What drives a redox reaction; a half-reaction by itself, or one of couples the table lacks, has none.
std::optional<chem::Cell> cell_behind(const Settled& settled) {
  if (!settled.equation) return std::nullopt;
  const auto cell = chem::cell_of(*settled.equation);
  return cell ? std::optional(*cell) : std::nullopt;
}

ordered_json cell_json(const chem::Cell& cell) {
  return {{"cathode", cell.cathode->reduction.plain()},
          {"cathode_volts", cell.cathode->volts},
          {"anode", cell.anode->reduction.plain()},
          {"anode_volts", cell.anode->volts},
          {"volts", cell.volts},
          {"uncertainty", cell.spread},
          {"electrons", cell.electrons},
          {"gibbs_kj_mol", cell.gibbs()},
          {"log_k", cell.log_k()},
          {"goes", cell.volts > 0},
          {"sources", {cell.cathode->source, cell.anode->source}}};
}

void tell_cell(const chem::Cell& cell, const Console& console) {
  console.out << chem::cell_sentence(cell) << '\n';
  for (const auto* couple : {cell.cathode, cell.anode}) {
    console.out << "  " << couple->reduction.unicode() << "   E° = " << quantity::show_number(couple->volts, 5)
                << " V   (" << couple->source << ")\n";
  }
}

Outcome<std::vector<PutIn>> read_taken(const std::vector<std::string>& taken, const GasRoom& room) {
  std::vector<PutIn> out;
  for (const std::string& text : taken) {
    auto read = read_put_in(text, room);
    if (!read) return read.fault();
    out.push_back(std::move(read).value());
  }
  return out;
}

void judge_typed(const chem::Equation& equation, const Console& console) {
  if (!typed_coefficients(equation)) return;
  const auto verified = chem::verify(equation);
  if (!verified) return;
  console.out << (verified->balanced ? "Balanced as typed." : "As typed it does not balance. " + verified->why) << '\n';
}

}  // namespace

int equation(const EquationAsked& asked, const Console& console) {
  const auto medium = read_medium(asked.medium);
  if (!medium) return console.fail(medium.fault());
  std::vector<chem::Equation> typed;
  for (const std::string_view part : split(asked.text, ';')) {
    auto read = chem::read_equation(part);
    if (!read) return console.fail(read.fault());
    typed.push_back(std::move(read).value());
  }
  if (typed.size() > 2) return console.fail("Two half-reactions are added at a time; write one ';' between them.");
  auto settled = typed.size() == 2 ? settle_halves(typed, *medium) : settle_one(typed[0], *medium);
  if (!settled) return console.fail(settled.fault());
  const bool balanced = settled->equation.has_value();
  const auto put_in = read_taken(asked.taken, asked.room);
  if (!put_in) return console.fail(put_in.fault());

  std::optional<Accounts> accounts;
  if (balanced && !put_in->empty()) {
    auto made = account(*settled->equation, *put_in, asked.room);
    if (!made) return console.fail(made.fault());
    accounts = std::move(made).value();
  }
  if (asked.json) {
    ordered_json out = as_json(typed, *settled);
    if (balanced) {
      if (auto ratio = ratio_json(*settled->equation)) out["ratio"] = std::move(ratio).value();
      if (const auto cell = cell_behind(*settled)) out["cell"] = cell_json(*cell);
      if (accounts) out["amounts"] = accounts_json(*settled->equation, *put_in, *accounts, asked.room);
    }
    console.out << out.dump(2) << '\n';
    return balanced ? fine : conflicts_found;
  }
  if (typed.size() == 1 && !*medium) judge_typed(typed[0], console);
  if (!balanced) {
    console.out << chem::status_text(settled->status) << ": " << settled->why << '\n';
    if (typed.size() == 1 && !*medium && settled->status == chem::BalanceStatus::impossible) {
      if (const std::string hint = completion_hint(typed[0]); !hint.empty()) console.out << hint << '\n';
    }
    return conflicts_found;
  }
  for (const auto& half : settled->halves) console.out << "  " << half.unicode() << '\n';
  console.out << settled->equation->unicode() << '\n';
  if (const auto cell = cell_behind(*settled)) tell_cell(*cell, console);
  if (accounts) {
    console.out << accounts_text(*settled->equation, *put_in, *accounts, asked.room);
  } else if (const auto ratio = ratio_text(*settled->equation)) {
    console.out << *ratio;
  }
  return fine;
}

}  // namespace sash::cli
