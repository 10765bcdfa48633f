#include "workings/inner/written.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "quantity/show.h"
#include "support/text.h"

namespace sash::workings::inner {
namespace {

using Shape = Equation::Shape;
using quantity::Kind;

// factor * product of variables to their powers.
struct Monomial {
  double factor = 1;
  std::vector<std::pair<VariableIndex, double>> powers;
};

// The smallest fraction of whole numbers that equals `x`, when there is a small one.
std::optional<std::pair<int, int>> as_fraction(double x) {
  for (int bottom = 1; bottom <= 200; ++bottom) {
    const double top = x * bottom;
    if (top < 1e6 && std::round(top) >= 1 && std::fabs(top - std::round(top)) < 1e-9 * top) {
      return std::pair{static_cast<int>(std::round(top)), bottom};
    }
  }
  return std::nullopt;
}

bool is_negative(const Piece& piece) {
  return piece.kind == Piece::Kind::number && (piece.text.starts_with("\u2212") || piece.text.starts_with('-'));
}

void append(Line& to, Line from) { to.insert(to.end(), from.begin(), from.end()); }

class Writing {
 public:
  Writing(const Network& network, const std::vector<Estimate>& estimates, const FigureBook& book,
          const ConstantIndex& constants)
      : n_(network), estimates_(estimates), book_(book), constants_(constants) {}

  Workings run(const std::vector<VariableIndex>& wanted) {
    Workings workings;
    for (const Given& step : steps_to(wanted)) {
      Line line = written(step);
      if (!line.empty()) workings.lines.push_back(std::move(line));
    }
    return workings;
  }

 private:
  std::vector<Given> steps_to(const std::vector<VariableIndex>& wanted) const {
    std::vector<bool> needed(n_.quantities.size(), false);
    for (const VariableIndex v : wanted) needed[v] = true;
    std::vector<Given> steps;
    for (auto it = n_.steps.rbegin(); it != n_.steps.rend(); ++it) {
      if (!needed[it->variable]) continue;
      steps.push_back(*it);
      for (const VariableIndex v : n_.equations[it->equation].members) needed[v] = true;
    }
    std::reverse(steps.begin(), steps.end());
    return steps;
  }

  Line written(const Given& step) {
    const NetworkEquation& eq = n_.equations[step.equation];
    const bool silent = n_.quantities[step.variable]->silent;
    switch (eq.equation->shape) {
      case Shape::product: {
        const Monomial m = folded(monomial_of(eq, step.member));
        if (silent) return folds_[step.variable] = m, Line{};
        return product_line(step.variable, m);
      }
      case Shape::ratio:
        return product_line(step.variable, folded(ratio_of(eq, step.member)));
      case Shape::least: {
        const std::size_t least = n_.least_member[step.equation];
        if (step.member == 0 && least > 0) {
          folds_[step.variable] = Monomial{1 / eq.equation->weights[least], {{eq.members[least], 1}}};
          return eq.members.size() > 2 ? least_line(eq, least) : Line{};
        }
        const Monomial m = folded(Monomial{eq.equation->weights[step.member], {{eq.members[0], 1}}});
        return product_line(step.variable, m);
      }
      case Shape::sum:
        return sum_line(eq, step);
      case Shape::special: {
        std::vector<double> numbers;
        for (const VariableIndex v : eq.members) numbers.push_back(n_.followed[v].value_or(0));
        const auto taken = eq.equation->writer(step.member, numbers);
        return taken ? taken->line : Line{};
      }
    }
    return {};
  }

  static Monomial monomial_of(const NetworkEquation& eq, std::size_t wanted) {
    const auto& weights = eq.equation->weights;
    Monomial m;
    m.factor = std::pow(eq.equation->constant, -1 / weights[wanted]);
    for (std::size_t i = 0; i < weights.size(); ++i) {
      if (i != wanted) m.powers.push_back({eq.members[i], -weights[i] / weights[wanted]});
    }
    return m;
  }

  static Monomial ratio_of(const NetworkEquation& eq, std::size_t wanted) {
    const double sign = wanted == 0 ? 1 : -1;
    Monomial m{std::pow(eq.equation->constant, sign), {}};
    if (wanted != 0) m.powers.push_back({eq.members[0], 1});
    for (std::size_t i = 1; i < eq.members.size(); ++i) {
      if (i != wanted) m.powers.push_back({eq.members[i], sign});
    }
    return m;
  }

  // Puts what silent steps gave in their place.
  Monomial folded(const Monomial& m) const {
    Monomial result{m.factor, {}};
    for (const auto& [variable, power] : m.powers) {
      const auto fold = folds_.find(variable);
      if (fold == folds_.end()) {
        result.powers.push_back({variable, power});
        continue;
      }
      result.factor *= std::pow(fold->second.factor, power);
      for (const auto& [inner, inner_power] : fold->second.powers)
        result.powers.push_back({inner, inner_power * power});
    }
    return result;
  }

  Line product_line(VariableIndex target, const Monomial& m) {
    const bool plain_equality = m.factor == 1 && m.powers.size() == 1 && m.powers[0].second == 1;
    if (plain_equality && looks_like(target, m.powers[0].first)) {  // one quantity in two places: nothing to write
      folds_[target] = m;
      return {};
    }
    Line line{symbol(target), Piece::of_sign("=")};
    append(line, expression(m, false));
    line.push_back(Piece::of_sign("="));
    append(line, expression(m, true));
    const Piece outcome = result(target);
    const Piece begun = plain_equality ? number(m.powers[0].first) : Piece{};
    if (!plain_equality || outcome.unit != begun.unit) {
      line.push_back(Piece::of_sign("="));
      line.push_back(outcome);
    }
    return line;
  }

  bool looks_like(VariableIndex a, VariableIndex b) const {
    const Piece& one = n_.quantities[a]->symbol;
    const Piece& other = n_.quantities[b]->symbol;
    return one.text == other.text && one.below == other.below;
  }

  Line expression(const Monomial& m, bool in_numbers) const {
    Line top;
    Line bottom;
    const auto push = [&](Line& side, Piece piece) {
      const bool after_minus = side.size() == 1 && side.back().kind == Piece::Kind::text;
      if (in_numbers && !side.empty() && !after_minus) side.push_back(Piece::of_sign("×"));
      if (!in_numbers && !side.empty()) {
        const bool after_number = side.back().kind == Piece::Kind::number;
        if (after_number) side.push_back(Piece::words("\u00A0"));
      }
      append_after_sign(side, std::move(piece));
    };
    if (m.factor == -1) {
      top.push_back(Piece::words("−"));
    } else if (m.factor != 1) {
      if (const auto fraction = as_fraction(m.factor)) {
        if (fraction->first != 1) push(top, Piece::of_number(std::to_string(fraction->first)));
        if (fraction->second != 1) push(bottom, Piece::of_number(std::to_string(fraction->second)));
      } else {
        push(top, Piece::of_number(quantity::show_number(m.factor)));
      }
    }
    for (const auto& [variable, power] : m.powers) {
      Piece piece = in_numbers ? number(variable) : symbol(variable);
      const double magnitude = std::fabs(power);
      if (magnitude != 1) {
        const std::string exponent = quantity::show_number(magnitude);
        (in_numbers ? piece.text : piece.above) += in_numbers ? "^" + exponent : exponent;
      }
      push(power > 0 ? top : bottom, std::move(piece));
    }
    if (top.empty()) top.push_back(Piece::of_number("1"));
    if (bottom.empty()) return top;
    return {Piece::of_fraction(std::move(top), std::move(bottom))};
  }

  Line sum_line(const NetworkEquation& eq, const Given& step) const {
    Line line{symbol(step.variable), Piece::of_sign("=")};
    append(line, sum_side(eq, step.member, false));
    line.push_back(Piece::of_sign("="));
    Line numbers = sum_side(eq, step.member, true);
    const Piece outcome = result(step.variable);
    const bool said = numbers.size() == 1 && numbers[0].text == outcome.text && numbers[0].unit == outcome.unit;
    append(line, std::move(numbers));
    if (said) return line;
    line.push_back(Piece::of_sign("="));
    line.push_back(outcome);
    return line;
  }

  // 20 °C + (−5 °C)
  static void append_after_sign(Line& side, Piece piece) {
    const bool in_brackets = !side.empty() && is_negative(piece);
    if (in_brackets) side.push_back(Piece::words("("));
    side.push_back(std::move(piece));
    if (in_brackets) side.push_back(Piece::words(")"));
  }

  Line sum_side(const NetworkEquation& eq, std::size_t wanted, bool in_numbers) const {
    Line side;
    const auto& weights = eq.equation->weights;
    // What is added comes first: 5 g − 2 g, not −2 g + 5 g.
    for (const bool positive : {true, false}) {
      for (std::size_t i = 0; i < weights.size(); ++i) {
        if (i == wanted) continue;
        const double coefficient = -weights[i] / weights[wanted];
        if ((coefficient > 0) != positive) continue;
        if (!side.empty() || !positive) side.push_back(Piece::of_sign(positive ? "+" : "−"));
        const VariableIndex v = eq.members[i];
        if (in_numbers && n_.quantities[v]->kind == Kind::temperature && std::fabs(coefficient) == 1) {
          append_after_sign(side, shown_celsius(v));
        } else {
          Line term = expression(folded({std::fabs(coefficient), {{v, 1}}}), in_numbers);
          if (term.size() == 1) {
            append_after_sign(side, std::move(term.front()));
          } else {
            append(side, std::move(term));
          }
        }
      }
    }
    if (eq.equation->constant != 0) {
      const double c = -eq.equation->constant / weights[wanted];
      side.push_back(Piece::of_sign(c > 0 ? "+" : "−"));
      side.push_back(Piece::of_number(quantity::show_number(std::fabs(c))));
    }
    return side;
  }

  // n(Cu)/3 = 0.0166 mol, n(HNO₃)/8 = 0.0150 mol: HNO₃ runs out first.
  Line least_line(const NetworkEquation& eq, std::size_t least) const {
    Line line;
    for (std::size_t i = 1; i < eq.members.size(); ++i) {
      if (!n_.followed[eq.members[i]]) continue;
      if (!line.empty()) line.push_back(Piece::words(",  "));
      const Monomial share = {1 / eq.equation->weights[i], {{eq.members[i], 1}}};
      append(line, expression(share, false));
      line.push_back(Piece::of_sign("="));
      const double value = *n_.followed[eq.members[i]] / eq.equation->weights[i];
      const quantity::Unit unit = quantity::readable_unit(Kind::amount, value);
      line.push_back(Piece::of_number(quantity::show_significant(unit.from_si(value), 4), unit.symbol()));
    }
    const std::string& name = n_.quantities[eq.members[least]]->symbol.below;
    line.push_back(Piece::words(":  "));
    line.push_back(Piece::of_formula(name));
    line.push_back(Piece::words(" runs out first"));
    return line;
  }

  Piece symbol(VariableIndex v) const { return marked(n_.quantities[v]->symbol, v); }

  Piece marked(Piece piece, VariableIndex v) const {
    const Quantity& q = *n_.quantities[v];
    if (q.from == Quantity::From::figure) piece.figure = q.figure;
    if (q.from == Quantity::From::constant) {
      const auto it = constants_.find(q.key);
      if (it != constants_.end()) piece.constant = it->second;
    }
    return piece;
  }

  const FigureValue* stated_figure(VariableIndex v) const {
    const Quantity& q = *n_.quantities[v];
    if (q.from != Quantity::From::figure) return nullptr;
    const FigureValue* value = book_.find(q.figure);
    return value != nullptr && value->stated ? value : nullptr;
  }

  // In a sum with a difference of temperatures.
  Piece shown_celsius(VariableIndex v) const {
    const quantity::Unit celsius = quantity::Unit::known("Cel");
    const FigureValue* value = stated_figure(v);
    const bool as_given = value != nullptr && value->unit.code() == celsius.code() && !value->said.digits.empty() &&
                          value->said.hedge == quantity::Hedge::exact;
    const std::string text =
        as_given ? digits_as_given(*value) : quantity::show_number(celsius.from_si(n_.followed[v].value_or(0)), 5);
    return marked(Piece::of_number(text, celsius.symbol()), v);
  }

  // A number on the way: as it was said, or with a digit to spare.
  Piece number(VariableIndex v) const {
    const Quantity& q = *n_.quantities[v];
    if (q.kind == Kind::temperature) {  // in a product only an absolute temperature has a meaning
      return marked(Piece::of_number(quantity::show_number(n_.followed[v].value_or(0), 5), "K"), v);
    }
    const bool known = n_.system.variables()[v].status != Variable::Status::unmeasured;
    if (known) {
      if (const FigureValue* value = stated_figure(v)) {
        const bool as_given = value->said.hedge == quantity::Hedge::exact && !value->said.digits.empty();
        const std::string text = as_given ? digits_as_given(*value) : quantity::show_number(value->from_si(value->si));
        return marked(Piece::of_number(text, value->unit.symbol()), v);
      }
      if (q.from == Quantity::From::constant) {
        return marked(Piece::of_number(constant_text(q), q.unit.symbol()), v);
      }
    }
    return shown(v, 0);
  }

  // As far as it is known: to the second digit of its standard uncertainty.
  static std::string constant_text(const Quantity& q) {
    if (!q.digits.empty()) return replace_all(q.digits, "-", "\u2212");
    constexpr int most = 6, least = 3;
    const double number = q.unit.from_si(q.value);
    const double spread = q.spread / std::max(q.unit.slope_at(number), 1e-300);
    if (!(spread > 0) || number == 0) return quantity::show_number(number);
    const int leading = static_cast<int>(std::floor(std::log10(std::fabs(number))));
    return quantity::show_number(number, std::clamp(leading - quantity::place_for(spread) + 1, least, most));
  }

  Piece result(VariableIndex v) const { return shown(v, n_.quantities[v]->from == Quantity::From::hidden ? 0 : 1); }

  // Rounded where the expanded uncertainty has its second digit, or `coarser` places further left.
  Piece shown(VariableIndex v, int coarser) const {
    const Quantity& q = *n_.quantities[v];
    const double si = n_.followed[v].value_or(0);
    const FigureValue* value = stated_figure(v);
    const bool readable = value == nullptr && q.kind != Kind::other && si > 0;
    const quantity::Unit unit = value != nullptr ? value->unit
                                : readable       ? quantity::readable_unit(q.kind, si)
                                                 : q.unit;
    const double number = unit.from_si(si);
    const double spread = estimates_[v].spread / std::max(unit.slope_at(number), 1e-300);
    std::string text = quantity::show_number(number, 6);
    if (spread > 0 && number != 0) {
      const int place = quantity::place_for(2 * spread) + coarser;
      const int digits = static_cast<int>(std::floor(std::log10(std::fabs(number)))) - place + 1;
      text = quantity::show_significant(number, std::clamp(digits, 2, 8));
    }
    return marked(Piece::of_number(text, unit.symbol()), v);
  }

  const Network& n_;
  const std::vector<Estimate>& estimates_;
  const FigureBook& book_;
  const ConstantIndex& constants_;
  std::map<VariableIndex, Monomial> folds_;
};

}  // namespace

Workings written_out(const Network& network, const std::vector<Estimate>& estimates, const FigureBook& book,
                     const std::vector<VariableIndex>& wanted, const ConstantIndex& constants) {
  return Writing(network, estimates, book, constants).run(wanted);
}

}  // namespace sash::workings::inner
