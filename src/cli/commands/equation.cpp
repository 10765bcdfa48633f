#include "chem/equation.h"

#include <nlohmann/json.hpp>
#include <ostream>

#include "chem/balance.h"
#include "cli/commands/commands.h"

namespace sash::cli {
namespace {

using nlohmann::ordered_json;

ordered_json as_json(const chem::Equation& equation, const chem::Balance& balance) {
  ordered_json out;
  out["status"] = chem::status_text(balance.status);
  out["coefficients"] = balance.coefficients;
  out["balanced"] = balance.balanced.empty() ? ordered_json(nullptr) : ordered_json(balance.balanced);
  out["why"] = balance.why.empty() ? ordered_json(nullptr) : ordered_json(balance.why);
  auto& species = out["species"] = ordered_json::array();
  for (const auto& each : equation.all()) species.push_back(each.formula.plain());
  if (!balance.solutions.empty() && balance.status != chem::BalanceStatus::balanced)
    out["solutions"] = balance.solutions;
  return out;
}

bool typed_coefficients(const chem::Equation& equation) {
  for (const auto& each : equation.all()) {
    if (each.coefficient) return true;
  }
  return false;
}

}  // namespace

int equation(const std::string& text, bool json, const Console& console) {
  const auto read = chem::read_equation(text);
  if (!read) return console.fail(read.fault());
  const auto balance = chem::balance(*read);
  if (!balance) return console.fail(balance.fault());
  const bool balanced = balance->status == chem::BalanceStatus::balanced;

  if (json) {
    console.out << as_json(*read, *balance).dump(2) << '\n';
    return balanced ? fine : conflicts_found;
  }
  if (typed_coefficients(*read)) {
    const auto verified = chem::verify(*read);
    if (verified && !verified->balanced) console.out << "As typed it does not balance. " << verified->why << '\n';
    if (verified && verified->balanced) console.out << "Balanced as typed.\n";
  }
  if (balanced) {
    console.out << read->with(balance->coefficients).unicode() << '\n';
    return fine;
  }
  console.out << chem::status_text(balance->status) << ": " << balance->why << '\n';
  return conflicts_found;
}

}  // namespace sash::cli
