#include <algorithm>

#include "chem/formula.h"
#include "chem/inner/glyphs.h"

namespace sash::chem {
namespace {

using Kind = FormulaPiece::Kind;

std::string charge_text(int charge) {
  const int size = charge < 0 ? -charge : charge;
  return (size == 1 ? "" : std::to_string(size)) + (charge < 0 ? "-" : "+");
}

}  // namespace

std::string Formula::plain() const {
  std::string out;
  for (const FormulaPiece& p : pieces_) {
    switch (p.kind) {
      case Kind::atom:
        out += p.mass_number ? "[" + std::to_string(*p.mass_number) + p.text + "]" : p.text;
        break;
      case Kind::dot:
        out += '*';
        break;
      case Kind::charge:
        out += '^' + p.text;
        break;
      default:
        out += p.text;
    }
  }
  return out;
}

std::string Formula::unicode() const {
  std::string out;
  for (const FormulaPiece& p : pieces_) {
    switch (p.kind) {
      case Kind::atom:
        if (p.mass_number) out += inner::raised(std::to_string(*p.mass_number));
        out += p.text;
        break;
      case Kind::count:
        out += inner::lowered(p.text);
        break;
      case Kind::dot:
        out += "·";
        break;
      case Kind::bond:
        out += p.text == "#" ? "≡" : (p.text == "-" ? "–" : p.text);
        break;
      case Kind::charge:
        out += inner::raised(p.text);
        break;
      default:
        out += p.text;
    }
  }
  return out;
}

std::string Formula::hill() const { return is_electron() ? "e^-" : hill_text(composition_, charge_); }

std::string hill_text(Composition order, int charge) {
  const bool organic = std::ranges::any_of(order, [](const AtomCount& a) { return a.what.number == 6; });
  const auto rank = [organic](const AtomCount& a) {
    const int first = organic && a.what.number == 6 ? 0 : (organic && a.what.number == 1 ? 1 : 2);
    return std::pair(std::pair(first, std::string(element(a.what.number).symbol)), a.what.mass_number);
  };
  std::ranges::sort(order, {}, rank);
  std::string out;
  for (const AtomCount& a : order) {
    out += symbol_of(a.what);
    if (a.count != Fraction(1)) out += a.count.decimal_text();
  }
  if (charge != 0) out += "^" + charge_text(charge);
  return out;
}

}  // namespace sash::chem
