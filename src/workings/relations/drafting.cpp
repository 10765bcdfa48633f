#include "workings/relations/drafting.h"

#include <algorithm>

#include "chem/commercial.h"
#include "chem/molar_mass.h"
#include "chem/names.h"
#include "quantity/said.h"
#include "quantity/show.h"
#include "quantity/trade_unit.h"
#include "quantity/value.h"
#include "support/text.h"

namespace sash::workings {
namespace {

using quantity::Kind;

// "3/8" as a number; nothing for any other text.
std::optional<double> read_ratio(std::string_view text) {
  const auto parts = split(text, '/');
  if (parts.size() != 2) return std::nullopt;
  const auto top = read_number(trim(parts[0]));
  const auto bottom = read_number(trim(parts[1]));
  if (!top || !bottom || *bottom == 0) return std::nullopt;
  return *top / *bottom;
}

}  // namespace

std::string with_article(std::string noun) {
  const bool vowel = !noun.empty() && std::string_view("aeiou").find(noun[0]) != std::string_view::npos;
  return (vowel ? "an " : "a ") + std::move(noun);
}

std::string letter_of(Kind kind) {
  switch (kind) {
    case Kind::mass:
      return "m";
    case Kind::volume:
    case Kind::gas_volume:
      return "V";
    case Kind::amount:
      return "n";
    case Kind::molar_concentration:
      return "c";
    case Kind::mass_concentration:
    case Kind::mass_volume_percent:
      return "γ";
    case Kind::molality:
      return "b";
    case Kind::mass_percent:
      return "w";
    case Kind::volume_percent:
      return "φ";
    case Kind::density:
      return "ρ";
    case Kind::temperature:
      return "T";
    case Kind::temperature_change:
      return "ΔT";
    case Kind::duration:
      return "t";
    case Kind::pressure:
      return "p";
    case Kind::percent_yield:
      return "Y";
    case Kind::count:
      return "N";
    case Kind::length:
      return "l";
    case Kind::voltage:
      return "U";
    case Kind::current:
      return "I";
    case Kind::charge:
    case Kind::energy:
      return "Q";
    case Kind::power:
      return "P";
    case Kind::molar_mass:
      return "M";
    case Kind::equivalents:
      return "eq";
    case Kind::pH:
      return "pH";
    case Kind::fraction:
    case Kind::percent_other:
    case Kind::other:
      break;
  }
  return "x";
}

std::vector<Filled> Drafting::figures(std::string_view slot, const std::vector<quantity::Dimension>& dimensions,
                                      const std::string& below) {
  std::vector<Filled> result;
  for (const model::Term& term : relation_.terms) {
    if (term.slot != slot) continue;
    const inner::FigureValue* value = book_.find(term.figure);
    if (value == nullptr) continue;  // said once, for the whole relation
    if (!value->trouble.empty()) {
      missing("a value of " + value->name + " that can be computed with (" + value->trouble + ")");
      continue;
    }
    const quantity::Dimension& has = value->unit.dimension();
    const bool open = !value->stated && value->figure->kind == Kind::other;  // takes the unit the slot gives it
    if (!open && !dimensions.empty() && std::find(dimensions.begin(), dimensions.end(), has) == dimensions.end()) {
      missing("another figure than " + value->name + " as " + replace_all(std::string(slot), "_", " ") + ": it is " +
              with_article(quantity::name_of(has)) + ", not " + with_article(quantity::name_of(dimensions.front())));
      continue;
    }
    const auto placed = placed_.find(value->figure->id);
    if (placed != placed_.end()) {
      result.push_back({placed->second, value, term.about});
      continue;
    }
    Quantity q;
    q.from = Quantity::From::figure;
    q.figure = value->figure->id;
    q.name = value->name;
    q.kind = value->figure->kind;
    q.unit = value->unit;
    q.symbol = Piece::of_symbol(letter_of(q.kind), !below.empty() ? below : term.about);
    q.symbol.figure = q.figure;
    const std::size_t index = add(std::move(q));
    placed_.emplace(value->figure->id, index);
    result.push_back({index, value, term.about});
  }
  return result;
}

std::optional<Filled> Drafting::figure(std::string_view slot, const std::vector<quantity::Dimension>& dimensions,
                                       const std::string& below) {
  auto filled = figures(slot, dimensions, below);
  if (filled.empty()) return std::nullopt;
  return std::move(filled.front());
}

std::optional<std::string> Drafting::given(std::string_view key) const {
  const auto it = relation_.given.find(std::string(key));
  if (it == relation_.given.end()) return std::nullopt;
  const std::string_view text = trim(it->second);
  if (text.empty()) return std::nullopt;
  return std::string(text);
}

std::optional<std::size_t> Drafting::given_quantity(std::string_view key, Kind kind, Piece symbol, std::string name) {
  const auto text = given(key);
  if (!text) return std::nullopt;
  const auto refuse = [&](const std::string& why) {
    missing("a readable " + std::string(key) + " (“" + *text + "”: " + why + ")");
    return std::nullopt;
  };
  std::size_t end = 0;
  while (end < text->size() && std::string_view("0123456789.,-+eE").find((*text)[end]) != std::string_view::npos) ++end;
  std::string digits = text->substr(0, end);
  auto number = read_number(digits);
  std::string_view unit_text = trim(std::string_view(*text).substr(end));
  if (const auto ratio = read_ratio(*text)) {
    number = ratio;
    digits.clear();
    unit_text = {};
  }
  if (!number) return refuse("it does not begin with a number");
  quantity::Unit unit;
  if (!unit_text.empty()) {
    auto read = quantity::unit_for(kind, unit_text);
    if (!read) {
      const auto trade = quantity::read_trade_unit(unit_text);
      if (!trade) return refuse(trade.fault().sentence);
      read = quantity::unit_for(kind, trade->unit.code());
    }
    if (!read) return refuse(read.fault().sentence);
    unit = std::move(*read);
  } else if (const auto dimension = quantity::dimension_of(kind); dimension && !dimension->is_plain()) {
    return refuse("it has no unit");
  }
  double best = *number;
  double spread = 0;
  if (!digits.empty()) {
    const auto estimate =
        quantity::estimate_of({*number, {}, digits, quantity::Hedge::exact, false}, kind, unit.symbol());
    best = estimate.best;
    spread = estimate.spread.standard;
  }
  const auto value = quantity::Value::of(best, spread, unit);
  if (!value) return refuse(value.fault().sentence);
  if (value->si() <= 0 && !can_be_negative(kind)) return refuse("it must be above zero");
  const std::size_t given_constant =
      constant("given " + std::to_string(relation_.id.number) + " " + std::string(key), std::move(name),
               std::move(symbol), kind, unit, value->si(), value->si_spread(), "given with the relation");
  if (digits.find_first_of("eE,") == std::string::npos) at(given_constant).digits = digits;
  return given_constant;
}

std::size_t Drafting::constant(std::string key, std::string name, Piece symbol, Kind kind, const quantity::Unit& unit,
                               double si, double si_spread, std::string source) {
  const auto known = constants_.find(key);
  if (known != constants_.end()) return known->second;
  Quantity q;
  q.from = Quantity::From::constant;
  q.key = key;
  q.name = std::move(name);
  q.symbol = std::move(symbol);
  q.kind = kind;
  q.unit = unit;
  q.value = si;
  q.spread = si_spread;
  q.source = std::move(source);
  const std::size_t index = add(std::move(q));
  constants_.emplace(std::move(key), index);
  return index;
}

std::size_t Drafting::hidden(std::string name, Piece symbol, Kind kind, bool askable) {
  Quantity q;
  q.name = std::move(name);
  q.symbol = std::move(symbol);
  q.kind = kind;
  q.unit = quantity::default_unit(kind);
  q.askable = askable;
  return add(std::move(q));
}

std::size_t Drafting::asked(std::string name, Piece symbol, Kind kind, std::string given_as) {
  const std::size_t quantity = hidden(std::move(name), std::move(symbol), kind, true);
  at(quantity).given_as = std::move(given_as);
  return quantity;
}

std::optional<std::size_t> Drafting::molar_mass(const chem::Formula& formula) {
  const auto mass = chem::molar_mass(formula);
  if (!mass) {
    missing("a molar mass of " + formula.unicode() + " (" + mass.fault().sentence + ")");
    return std::nullopt;
  }
  if (const std::string taken = chem::reading_taken(formula); !taken.empty()) note(taken);
  const quantity::Unit unit = quantity::default_unit(Kind::molar_mass);
  const double si = unit.to_si(mass->value);
  return constant("M " + formula.hill(), "molar mass of " + formula.unicode(), Piece::of_symbol("M", formula.unicode()),
                  Kind::molar_mass, unit, si, unit.slope_at(mass->value) * mass->spread,
                  std::string(chem::weights_table_name()));
}

void Drafting::product(std::string name, const std::vector<Weighted>& members, double factor) {
  Equation e;
  e.name = std::move(name);
  e.shape = Equation::Shape::product;
  e.constant = factor;
  std::map<std::size_t, double> weights;  // a figure may fill two slots: its weights add up
  for (const auto& [member, weight] : members) weights[member] += weight;
  for (const auto& [member, unused] : members) {
    const auto it = weights.find(member);
    if (it == weights.end()) continue;
    if (it->second != 0) {
      e.members.push_back(member);
      e.weights.push_back(it->second);
    }
    weights.erase(it);
  }
  draft_.equations.push_back(std::move(e));
}

void Drafting::sum(std::string name, const std::vector<Weighted>& members, double constant) {
  product(std::move(name), members, constant);
  draft_.equations.back().shape = Equation::Shape::sum;
}

void Drafting::ratio(std::string name, std::size_t target, const std::vector<std::size_t>& of, double factor) {
  std::vector<Weighted> members{{target, -1}};
  for (const std::size_t member : of) members.push_back({member, 1});
  product(std::move(name), members, factor);
  draft_.equations.back().shape = Equation::Shape::ratio;
}

void Drafting::least(std::string name, std::size_t least, const std::vector<Weighted>& of) {
  std::vector<Weighted> members{{least, 1}};
  members.insert(members.end(), of.begin(), of.end());
  product(std::move(name), members);
  draft_.equations.back().shape = Equation::Shape::least;
}

void Drafting::special(std::string name, std::vector<std::size_t> members, LawPtr law, Writer writer) {
  Equation e;
  e.name = std::move(name);
  e.shape = Equation::Shape::special;
  e.members = std::move(members);
  e.law = std::move(law);
  e.writer = std::move(writer);
  draft_.equations.push_back(std::move(e));
}

void Drafting::equal(std::string name, std::size_t a, std::size_t b) {
  const Kind kind = at(a).kind;
  if (can_be_negative(kind) || kind == Kind::temperature) {
    sum(std::move(name), {{a, 1}, {b, -1}});
  } else {
    product(std::move(name), {{a, 1}, {b, -1}});
  }
}

std::optional<std::size_t> Drafting::one_of(const std::vector<Filled>& filled) {
  if (filled.empty()) return std::nullopt;
  for (std::size_t i = 1; i < filled.size(); ++i) {
    equal("two statements of one quantity", filled[i].quantity, filled.front().quantity);
  }
  return filled.front().quantity;
}

std::string Drafting::substance() const {
  if (const auto text = given("substance")) return *text;
  for (const model::Term& term : relation_.terms) {
    const inner::FigureValue* value = book_.find(term.figure);
    if (value == nullptr) continue;
    if (!value->figure->subject.empty()) return value->figure->subject;
    const model::Portion* portion =
        value->figure->portion ? model::find(book_.record(), *value->figure->portion) : nullptr;
    if (portion != nullptr && !portion->subject.empty()) return portion->subject;
  }
  return {};
}

std::string Drafting::solute() const {
  std::string text = substance();
  if (text.empty() || chem::formula_of(text)) return text;
  const auto trade = chem::commercial_solution(text);
  return trade ? trade->solution.solute : text;
}

Filled Drafting::as_if_stated(std::size_t constant) {
  const Quantity& q = at(constant);
  auto& [figure, value] = stand_ins_.emplace_back();
  figure.kind = q.kind;
  value.figure = &figure;
  value.unit = q.unit;
  value.stated = true;
  value.si = q.value;
  value.si_spread = q.spread;
  value.name = q.name;
  return {constant, &value, {}};
}

std::optional<chem::Formula> Drafting::formula() const {
  const std::string text = solute();
  if (text.empty()) return std::nullopt;
  const auto formula = chem::formula_of(text);
  if (!formula) return std::nullopt;
  return *formula;
}

std::optional<double> Drafting::stated(std::size_t quantity) const {
  const Quantity& q = draft_.quantities[quantity];
  const inner::FigureValue* value = q.from == Quantity::From::figure ? book_.find(q.figure) : nullptr;
  return value != nullptr && value->stated ? std::optional(value->si) : std::nullopt;
}

std::size_t Drafting::add(Quantity quantity) {
  draft_.quantities.push_back(std::move(quantity));
  return draft_.quantities.size() - 1;
}

}  // namespace sash::workings
