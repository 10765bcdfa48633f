#include "quantity/inner/unit_reader.h"

#include <charconv>
#include <cmath>
#include <utility>
#include <vector>

#include "quantity/inner/superscript.h"
#include "support/text.h"

namespace sash::quantity {
namespace {

constexpr std::size_t longest_code = 120;
constexpr int largest_power = 12;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string quoted(std::string_view s) { return "\"" + std::string(s) + "\""; }

/// A token cut into what it names and its exponent: "cm3" is cm and 3, "10*-6" is 10* and -6, "100" is nothing and 100.
struct Power {
  std::string_view name;
  std::string_view exponent;
};

Power cut_exponent(std::string_view token) {
  std::size_t start = token.size();
  while (start > 0 && is_digit(token[start - 1])) --start;
  if (start == token.size()) return {token, {}};
  if (start > 0 && (token[start - 1] == '-' || token[start - 1] == '+')) --start;
  return {token.substr(0, start), token.substr(start)};
}

struct Found {
  const inner::Atom* atom = nullptr;
  const inner::Prefix* prefix = nullptr;
};

/// The atom of that exact code, else a prefix before an atom that takes one.
std::optional<Found> find_unit(std::string_view name) {
  for (const inner::Atom& atom : inner::atoms()) {
    if (atom.code == name) return Found{&atom, nullptr};
  }
  for (const inner::Prefix& prefix : inner::prefixes()) {
    if (!name.starts_with(prefix.code)) continue;
    for (const inner::Atom& atom : inner::atoms()) {
      if (atom.takes_prefix && atom.code == name.substr(prefix.code.size())) return Found{&atom, &prefix};
    }
  }
  return std::nullopt;
}

/// The letters alone: what is left of "mm[Hg]" when somebody types "mmHg".
std::string letters_of(std::string_view name) {
  std::string out = to_lower(name);
  std::erase_if(out, [](char c) { return c == '[' || c == ']' || c == '_'; });
  return out;
}

std::optional<std::string> nearest_code(std::string_view name) {
  std::vector<std::string> codes;
  for (const inner::Atom& atom : inner::atoms()) {
    codes.emplace_back(atom.code);
    if (!atom.takes_prefix) continue;
    for (const std::string_view common : {"k", "d", "c", "m", "u", "n"}) {
      codes.push_back(std::string(common).append(atom.code));
    }
  }
  const std::string letters = letters_of(name);
  for (const std::string& code : codes) {
    if (letters_of(code) == letters) return code;
  }
  const std::vector<std::string_view> views(codes.begin(), codes.end());
  const auto nearest = nearest_spelling(name, views);
  return nearest ? std::optional<std::string>(*nearest) : std::nullopt;
}

}  // namespace

Fault UnitReader::malformed(std::string why, std::size_t at) const {
  Fault fault = Fault::of(Code::malformed, "The unit " + quoted(text_) + " cannot be read: " + std::move(why) + ".",
                          std::string(text_));
  fault.place = at;
  return fault;
}

Outcome<Unit> UnitReader::read() {
  if (text_.empty()) return Fault::of(Code::malformed, "The unit is empty; write 1 for a plain number.");
  if (text_.size() > longest_code) return malformed("it is longer than 120 characters", longest_code);
  Outcome<Term> whole = term();
  if (!whole) return whole.fault();
  if (!at_end()) return malformed("a bracket is closed that was never opened", at_);
  const double factor = whole->scale.factor();
  if (!std::isnormal(factor)) {
    return Fault::of(Code::out_of_range, "The unit " + quoted(text_) + " is too large or too small to compute with.",
                     std::string(text_));
  }
  Unit out;
  out.code_ = std::string(text_);
  out.symbol_ = whole->symbol.empty() ? words_ : std::move(whole->symbol);
  out.dimension_ = whole->dimension;
  out.scale_ = whole->scale;
  if (const inner::Atom* lone = whole->lone; lone != nullptr) {
    out.zero_ = lone->zero;
    out.law_ = lone->law;
    if (lone->dimension == dimension::temperature) out.stance_ = Stance::point;
  }
  return out;
}

// term := ['/'] component { ('.' | '/') component }, left to right.
Outcome<UnitReader::Term> UnitReader::term() {
  Term out;
  bool first = true;
  bool divide = peek() == '/';
  if (divide) ++at_;
  for (;;) {
    Outcome<Term> next = component();
    if (!next) return next.fault();
    const bool more = peek() == '.' || peek() == '/';
    const Term* lone = next->lone != nullptr ? &*next : out.lone != nullptr ? &out : nullptr;
    if (lone != nullptr && (!first || divide || more)) {
      const bool temperature = lone->lone->dimension == dimension::temperature;
      return malformed(std::string(lone->lone->symbol) + " cannot stand in a product" +
                           (temperature ? "; write K for a temperature difference" : ""),
                       lone->lone_at);
    }
    if (divide) {
      out.scale = out.scale.divided_by(next->scale);
      out.dimension = out.dimension / next->dimension;
      if (!next->symbol.empty()) out.symbol += (out.symbol.empty() ? "1/" : "/") + next->symbol;
    } else {
      out.scale = out.scale.times(next->scale);
      out.dimension = out.dimension * next->dimension;
      if (!next->symbol.empty()) out.symbol += (out.symbol.empty() ? "" : "·") + next->symbol;
      out.lone = next->lone;
      out.lone_at = next->lone_at;
    }
    if (!more) return out;
    first = false;
    divide = peek() == '/';
    ++at_;
  }
}

Outcome<UnitReader::Term> UnitReader::component() {
  Outcome<Term> out = peek() == '(' ? bracketed() : peek() == '{' ? annotated_one() : atom_to_a_power();
  if (!out) return out;
  if (peek() == '{') {
    if (const auto skipped = skip_annotation(); !skipped) return skipped.fault();
  }
  if (!at_end() && peek() != '.' && peek() != '/' && peek() != ')') {
    return malformed("there is no . or / between two units", at_);
  }
  return out;
}

Outcome<UnitReader::Term> UnitReader::bracketed() {
  const std::size_t open = at_++;
  Outcome<Term> inside = term();
  if (!inside) return inside;
  if (peek() != ')') return malformed("a bracket is not closed", open);
  ++at_;
  const bool product = inside->symbol.find("·") != std::string::npos || inside->symbol.find('/') != std::string::npos;
  if (product) inside->symbol = "(" + inside->symbol + ")";
  return inside;
}

Outcome<UnitReader::Term> UnitReader::annotated_one() {
  if (const auto skipped = skip_annotation(); !skipped) return skipped.fault();
  return Term{};
}

Outcome<void> UnitReader::skip_annotation() {
  const std::size_t close = text_.find('}', at_);
  if (close == std::string_view::npos) return malformed("a curly bracket is not closed", at_);
  const std::string_view words = text_.substr(at_ + 1, close - at_ - 1);
  if (words.find('{') != std::string_view::npos) return malformed("curly brackets do not nest", at_);
  if (words_.empty()) words_ = std::string(words);
  at_ = close + 1;
  return {};
}

/// Up to the next operator; square brackets belong to the name whatever they hold.
std::string_view UnitReader::next_token() {
  const std::size_t start = at_;
  bool inside = false;
  for (; !at_end(); ++at_) {
    const char c = peek();
    if (c == '[') inside = true;
    if (c == ']') inside = false;
    if (!inside && (c == '.' || c == '/' || c == '(' || c == ')' || c == '{' || c == '}')) break;
  }
  return text_.substr(start, at_ - start);
}

Outcome<UnitReader::Term> UnitReader::atom_to_a_power() {
  const std::size_t start = at_;
  const std::string_view token = next_token();
  if (token.empty()) return malformed("a unit is missing", start);
  const auto [name, exponent] = cut_exponent(token);
  std::int64_t power = 1;
  if (!exponent.empty()) {
    const auto read = read_integer(exponent.front() == '+' ? exponent.substr(1) : exponent);
    if (!read || exponent.size() > 12) return malformed("a number is too long", start + name.size());
    power = *read;
  }
  if (name.empty()) {  // a whole factor, as in 100.mL
    if (power <= 0) return malformed("a factor must be a whole number above zero", start);
    Term factor;
    factor.scale = Scale(static_cast<double>(power));
    if (power != 1) factor.symbol = std::to_string(power);
    return factor;
  }
  const auto found = find_unit(name);
  if (!found) return unknown(name, start);
  if (power < -largest_power || power > largest_power || power == 0) {
    return malformed("an exponent must lie between -12 and 12 and not be 0", start + name.size());
  }
  return from_atom(*found->atom, found->prefix, static_cast<int>(power), start);
}

Outcome<UnitReader::Term> UnitReader::from_atom(const inner::Atom& atom, const inner::Prefix* prefix, int power,
                                                std::size_t at) const {
  if (atom.alone && power != 1) return malformed(std::string(atom.symbol) + " takes no exponent", at);
  Term out;
  out.scale = (prefix != nullptr ? prefix->scale.times(atom.scale) : atom.scale).to_the(power);
  out.dimension = atom.dimension.to_the(power);
  out.symbol = (prefix != nullptr ? std::string(prefix->symbol) : std::string()) + std::string(atom.symbol);
  if (power != 1) out.symbol += inner::superscript(power);
  if (atom.alone) {
    out.lone = &atom;
    out.lone_at = at;
  }
  return out;
}

Outcome<UnitReader::Term> UnitReader::unknown(std::string_view name, std::size_t at) const {
  const auto nearest = nearest_code(name);
  std::string sentence = "There is no unit " + quoted(name);
  if (name.size() != text_.size()) sentence += " (in " + quoted(text_) + ")";
  sentence += nearest ? "; did you mean " + quoted(*nearest) + "?" : "; write a UCUM code such as g, mL, mol/L or Cel.";
  Fault fault = Fault::of(Code::unknown_name, std::move(sentence), std::string(text_));
  fault.place = at;
  if (nearest) fault.others.push_back(*nearest);
  return fault;
}

}  // namespace sash::quantity
