#include "quantity/trade_unit.h"

#include <array>
#include <string>
#include <vector>

#include "quantity/inner/trade_spellings.h"
#include "support/text.h"

namespace sash::quantity {
namespace {

using inner::PercentWord;
using inner::PrefixWord;
using inner::Spelling;

/// One spelling of what many keyboards write: micro signs to u, raised digits to plain, dots and crosses to '.', one
/// blank.
std::string normalised(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 22> same = {{
      {"µ", "u"}, {"μ", "u"}, {"⁻", "-"},      {"−", "-"},      {"⁰", "0"},  {"¹", "1"},  {"²", "2"}, {"³", "3"},
      {"⁴", "4"}, {"⁵", "5"}, {"⁶", "6"},      {"⁷", "7"},      {"⁸", "8"},  {"⁹", "9"},  {"·", "."}, {"⋅", "."},
      {"º", "°"}, {"˚", "°"}, {"\u00A0", " "}, {"\u202F", " "}, {"℃", "°C"}, {"℉", "°F"},
  }};
  std::string out(trim(text));
  for (const auto& [from, to] : same) out = replace_all(std::move(out), from, to);
  while (out.find("  ") != std::string::npos) out = replace_all(std::move(out), "  ", " ");
  return out;
}

std::optional<Spelling> find_word(std::string_view lower) {
  for (const Spelling& spelling : inner::spelled_words()) {
    if (spelling.text == lower) return spelling;
  }
  return std::nullopt;
}

/// "millilitre" as a code, when it is a prefix word before a unit word.
std::optional<std::string> read_prefixed(std::string_view lower) {
  for (const PrefixWord& prefix : inner::prefix_words()) {
    if (!lower.starts_with(prefix.word)) continue;
    const std::string_view rest = lower.substr(prefix.word.size());
    for (const std::string_view base : inner::prefixable_words()) {
      if (rest == base) return std::string(prefix.code) + std::string(find_word(base)->code);
    }
  }
  return std::nullopt;
}

struct Reading {
  std::string code;
  std::optional<Kind> kind;
};

/// "%", "per cent", "% w/w", "wt%", "percent (by volume)".
std::optional<Reading> read_percent(std::string_view text) {
  std::string key = to_lower(text);
  for (const std::string_view word : {"per cent", "percent", "pct"}) key = replace_all(std::move(key), word, "%");
  const std::size_t sign = key.find('%');
  if (sign == std::string::npos) return std::nullopt;
  key.erase(sign, 1);
  std::erase_if(key, [](char c) { return c == ' ' || c == '(' || c == ')' || c == '.'; });
  if (key.empty()) return Reading{"%", std::nullopt};
  for (const PercentWord& word : inner::percent_words()) {
    if (word.text == key) return Reading{"%", word.kind};
  }
  return std::nullopt;
}

/// The word itself, then without the point of an abbreviation, then without a plural ending: on its last word
/// ("millilitres") or its first ("degrees C").
std::vector<std::string> forms_of(const std::string& lower) {
  std::vector<std::string> out{lower};
  if (lower.size() > 1 && lower.ends_with('.')) out.push_back(lower.substr(0, lower.size() - 1));
  if (lower.starts_with("deg. ")) out.push_back("deg " + lower.substr(5));
  if (const std::size_t blank = lower.find("s "); blank != std::string::npos) {
    std::string first = lower;
    first.erase(blank, 1);
    out.push_back(std::move(first));
  }
  for (const std::string_view ending : {"s", "es", "s."}) {
    if (lower.ends_with(ending) && lower.size() > ending.size() + 1) {
      out.push_back(lower.substr(0, lower.size() - ending.size()));
    }
  }
  return out;
}

/// A single unit, no operator in it.
std::optional<Reading> read_single(std::string_view text) {
  for (const Spelling& spelling : inner::spelled_symbols()) {
    if (spelling.text == text) return Reading{std::string(spelling.code), spelling.kind};
  }
  if (auto percent = read_percent(text)) return percent;
  for (const std::string& form : forms_of(replace_all(to_lower(text), "É", "é"))) {
    if (const auto word = find_word(form)) return Reading{std::string(word->code), word->kind};
    if (auto code = read_prefixed(form)) return Reading{std::move(*code), std::nullopt};
  }
  return std::nullopt;
}

bool takes_power(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == ']'; }

/// A single unit with an optional exponent written "cm3", "cm^3", "L-1", "L^-1"; as a UCUM piece.
std::optional<std::string> read_factor(std::string_view text) {
  std::size_t end = text.size();
  while (end > 0 && text[end - 1] >= '0' && text[end - 1] <= '9') --end;
  std::string exponent(text.substr(end));
  if (!exponent.empty() && end > 0 && text[end - 1] == '-') {
    exponent.insert(0, "-");
    --end;
  }
  if (!exponent.empty() && end > 0 && text[end - 1] == '^') --end;
  const std::string_view name = trim(text.substr(0, end));
  if (name.empty()) return exponent == "1" ? std::optional<std::string>("1") : std::nullopt;
  if (exponent.empty()) {
    const auto single = read_single(name);
    if (single && !single->kind) return single->code;
    if (Unit::parse(name).ok()) return std::string(name);
    return std::nullopt;
  }
  const auto single = read_single(name);
  if (!takes_power(name.back()) || (!single && !Unit::parse(name).ok())) return std::nullopt;
  const std::string code = single && !single->kind ? single->code : std::string(name);
  // A code that is itself a quotient or a power (M, cc) cannot take an exponent by juxtaposition.
  if (code.find('/') != std::string::npos || code.find('.') != std::string::npos) return std::nullopt;
  if (code.back() >= '0' && code.back() <= '9') return std::nullopt;
  return code + exponent;
}

/// A product without division, "g K" or "mol.L-1", as UCUM; `below` the line whole factors are taken too ("100 mL").
std::optional<std::string> read_product(std::string_view text, bool below) {
  if (auto whole = read_factor(text)) return whole;  // "fluid ounce" is one unit, blank and all
  std::string out;
  const std::string dotted = replace_all(std::string(text), " ", ".");
  for (const auto piece : split(dotted, '.')) {
    const auto count = below ? read_integer(piece) : std::nullopt;
    auto factor = count && *count > 0 ? std::optional<std::string>(piece) : read_factor(piece);
    if (!factor) return std::nullopt;
    out += (out.empty() ? "" : ".") + *factor;
  }
  return out;
}

/// In a product a degree is a difference, and UCUM writes that K.
std::string with_kelvin(std::string code) { return replace_all(std::move(code), "Cel", "K"); }

/// A quotient or product: "g per litre", "mol/kg", "kg·m-3", "mol L-1", "g/100 mL", "J/(g °C)".
std::optional<std::string> read_compound(std::string_view text) {
  std::string flat = replace_all(std::string(text), " per ", "/");
  flat = replace_all(std::move(flat), " / ", "/");
  std::string out;
  const auto parts = split(flat, '/');
  for (std::size_t i = 0; i < parts.size(); ++i) {
    std::string_view part = trim(parts[i]);
    if (part.size() > 2 && part.front() == '(' && part.back() == ')') part = part.substr(1, part.size() - 2);
    const auto product = read_product(part, i > 0);
    if (!product) return std::nullopt;
    const bool brackets = i > 0 && product->find_first_of("./") != std::string::npos;
    out += (i == 0 ? "" : "/") + (brackets ? "(" + *product + ")" : *product);
  }
  return out.find_first_of("./") == std::string::npos ? out : with_kelvin(std::move(out));
}

TradeUnit with_kind(Unit unit, std::optional<Kind> kind) {
  if (kind) {
    if (auto fitted = unit_for(*kind, unit.code()); fitted.ok()) unit = std::move(fitted).value();
    return {std::move(unit), kind};
  }
  const auto implied = kind_implied_by(unit);
  return {std::move(unit), implied};
}

Fault unknown(std::string_view text) {
  std::vector<std::string_view> known;
  for (const Spelling& spelling : inner::spelled_words()) known.push_back(spelling.text);
  for (const Spelling& spelling : inner::spelled_symbols()) known.push_back(spelling.text);
  std::string sentence = "There is no unit \"" + std::string(text) + "\"";
  const auto nearest = nearest_spelling(text, known);
  sentence +=
      nearest ? "; did you mean \"" + std::string(*nearest) + "\"?" : "; write for example g, mL, mol/L, °C or % w/w.";
  Fault fault = Fault::of(Code::unknown_name, std::move(sentence), std::string(text));
  if (nearest) fault.others.emplace_back(*nearest);
  return fault;
}

}  // namespace

Outcome<TradeUnit> read_trade_unit(std::string_view text) {
  const std::string tidy = normalised(text);
  if (tidy.empty()) return Fault::of(Code::malformed, "The unit is empty; write for example g, mL, mol/L or °C.");
  if (const auto single = read_single(tidy)) {
    auto unit = Unit::parse(single->code);
    if (unit) return with_kind(std::move(unit).value(), single->kind);
  }
  if (const auto compound = read_compound(tidy)) {
    auto unit = Unit::parse(*compound);
    if (unit) return with_kind(std::move(unit).value(), std::nullopt);
  }
  if (auto unit = Unit::parse(tidy)) return with_kind(std::move(unit).value(), std::nullopt);
  return unknown(trim(text));
}

}  // namespace sash::quantity
