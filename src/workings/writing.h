#pragma once
// Written-out workings as typeset pieces, so that desk and script draw the same thing, and as plain text. Holds words
// and numbers that are ready to show: no computing, no layout. Pure values. Source: SI Brochure, 9th ed., 5.4 (quantity
// symbols italic, units and formulas upright); ISO 80000-1.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/place.h"

namespace sash::workings {

/// One typeset piece. Text is UTF-8.
struct Piece {
  enum class Kind {
    text,     ///< words, upright
    symbol,   ///< a quantity symbol, italic; `below` and `above` upright
    number,   ///< a number and, after a thin space, its `unit`, both upright; an exponent stands in `above` of the unit
              ///< text
    formula,  ///< a chemical formula with its subscripts and charges as Unicode, upright
    sign,     ///< =, ×, +, −, ≈, ≤, →: with a space to either side
    fraction,  ///< `top` over `bottom`
  };
  Kind kind = Kind::text;
  std::string text;                       ///< empty for a fraction
  std::string below;                      ///< of a symbol
  std::string above;                      ///< of a symbol
  std::string unit;                       ///< of a number, as on the screen; may be empty
  std::vector<Piece> top;                 ///< of a fraction
  std::vector<Piece> bottom;              ///< of a fraction
  std::optional<model::FigureId> figure;  ///< the figure this piece stands for: one click away
  std::optional<std::size_t> constant;    ///< index in Report::constants: its source on hover
  bool operator==(const Piece&) const = default;

  static Piece words(std::string text);
  static Piece of_symbol(std::string letter, std::string below = {});
  static Piece of_number(std::string text, std::string unit = {});
  static Piece of_formula(std::string text);
  static Piece of_sign(std::string text);
  static Piece of_fraction(std::vector<Piece> top, std::vector<Piece> bottom);
};

/// How many bytes at the start of a symbol's text are set upright: an operator or a name (Δ of ΔT, lg of lg K, pH), as
/// against the quantity itself, which is italic. Source: ISO 80000-1:2022, 7.1.
std::size_t upright_start(std::string_view symbol);

using Line = std::vector<Piece>;

/// One line for each step, in the order one would compute.
struct Workings {
  std::vector<Line> lines;
  bool operator==(const Workings&) const = default;
  bool empty() const { return lines.empty(); }
};

/// "m = ρ V = 1.42 g/mL × 20.0 mL = 28.4 g"; a subscript as m(Cu), a fraction as (m) / (M).
std::string plain_text(const Line& line);
std::string plain_text(const Workings& workings);  ///< lines end with \n, but the last

/// With a capital to begin a sentence, but for words whose case carries a meaning: "pH", "pKa", "kPa".
std::string to_begin_with(std::string text);

}  // namespace sash::workings
