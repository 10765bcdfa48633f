#include "workings/relations/given_constants.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

#include "chem/molar_mass.h"
#include "quantity/said.h"
#include "support/text.h"

namespace sash::workings {
namespace {

constexpr double water_log_k = -14;  // [H+][OH-] at 25 °C, rounded as in textbooks

bool is_water(const chem::Formula& f) { return f.charge() == 0 && f.plain() == "H2O"; }

bool has(const std::vector<chem::Formula>& list, const chem::Formula& formula) {
  return std::any_of(list.begin(), list.end(), [&](const chem::Formula& f) { return f.same_composition(formula); });
}

bool names(const GivenConstant& c, std::string_view formula) {
  return c.equation.find(*chem::read_formula(formula)).has_value();
}

bool splits_water(const GivenConstant& c) {
  const auto all = c.equation.all();
  return std::all_of(all.begin(), all.end(), [](const chem::Species& s) {
    return is_water(s.formula) || s.formula.plain() == "H^+" || s.formula.plain() == "OH^-";
  });
}

struct Logarithm {
  double value;
  double spread;
};

std::optional<Logarithm> log_k_in(std::string_view text) {
  const bool negative = text.starts_with("pK");
  const bool logarithm = negative || text.starts_with("log");
  const std::string digits(trim(text.substr(negative ? 2 : logarithm ? 3 : 0)));
  const auto number = read_number(digits);
  if (!number || (!logarithm && *number <= 0)) return std::nullopt;
  const double spread =
      quantity::reach_of(quantity::Said{*number, {}, digits, quantity::Hedge::exact, true}) / std::numbers::sqrt3;
  if (logarithm) return Logarithm{negative ? -*number : *number, spread};
  return Logarithm{std::log10(*number), spread / *number / std::numbers::ln10};
}

Outcome<GivenConstant> read_entry(std::string_view entry) {
  const auto colon = entry.rfind(':');
  const auto log_k = colon == std::string_view::npos ? std::nullopt : log_k_in(trim(entry.substr(colon + 1)));
  if (!log_k) {
    return Fault::of(Code::malformed,
                     "A constant is an equation, a colon and a number, as in “HF = H^+ + F^-: 6.4e-4”; not “" +
                         std::string(entry) + "”.",
                     std::string(entry));
  }
  auto equation = chem::read_equation(trim(entry.substr(0, colon)));
  if (!equation) return equation.fault();
  return GivenConstant{*std::move(equation), log_k->value, log_k->spread};
}

// Which of its species an equation makes: the solid, or the largest of those that nothing has made yet. The others of
// those become components.
class Building {
 public:
  explicit Building(GivenConstants& given) : g_(given) {}

  Outcome<void> take(const chem::Equation& equation) {
    std::vector<const chem::Species*> fresh;
    bool solid = false;
    for (const chem::Species& s : equation.all()) {
      solid = solid || s.state == std::optional(chem::State::solid);
      if (s.state == std::optional(chem::State::solid) || is_water(s.formula)) continue;
      if (!has(known_, s.formula)) fresh.push_back(&s);
    }
    if (fresh.empty() && !solid) {
      return Fault::of(Code::wrong_use, "“" + equation.unicode() + "” ties nothing that is not tied already.");
    }
    std::stable_sort(fresh.begin(), fresh.end(), [](const chem::Species* a, const chem::Species* b) {
      return size_of(a->formula) > size_of(b->formula);
    });
    for (std::size_t i = 0; i < fresh.size(); ++i) {
      if (i > 0 || solid) g_.components.push_back(fresh[i]->formula);
      known_.push_back(fresh[i]->formula);
    }
    return {};
  }

  void begin_with(const chem::Formula& component) {
    g_.components.push_back(component);
    known_.push_back(component);
  }

 private:
  static double size_of(const chem::Formula& formula) {
    const auto mass = chem::molar_mass(formula);
    return mass ? mass->value : 0;
  }

  GivenConstants& g_;
  std::vector<chem::Formula> known_;
};

}  // namespace

Outcome<GivenConstants> read_constants(std::string_view text) {
  GivenConstants given;
  const std::string entries = replace_all(std::string(text), ",", ";");
  for (const std::string_view entry : split(entries, ';')) {
    if (trim(entry).empty()) continue;
    auto read = read_entry(trim(entry));
    if (!read) return read.fault();
    given.constants.push_back(*std::move(read));
  }
  if (given.constants.empty()) return Fault::of(Code::malformed, "No constant is given.");
  const auto any = [&](std::string_view f) {
    return std::any_of(given.constants.begin(), given.constants.end(), [&](const auto& c) { return names(c, f); });
  };
  Building building(given);
  if (any("H^+") || any("OH^-")) {
    building.begin_with(*chem::read_formula("H^+"));
    // Water first, so that OH- follows from H+ wherever it stands.
    const auto own = std::stable_partition(given.constants.begin(), given.constants.end(), splits_water);
    if (own == given.constants.begin()) {
      given.constants.insert(own, {*chem::read_equation("H2O = H^+ + OH^-"), water_log_k, 0, false});
    }
  }
  for (const GivenConstant& c : given.constants) {
    if (const auto taken = building.take(c.equation); !taken) return taken.fault();
  }
  return given;
}

}  // namespace sash::workings
