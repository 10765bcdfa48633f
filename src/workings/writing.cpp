#include "workings/writing.h"

#include <algorithm>
#include <string_view>
#include <utility>

namespace sash::workings {
namespace {

std::string plain(const Piece& piece) {
  switch (piece.kind) {
    case Piece::Kind::symbol: {
      std::string text = piece.text;
      if (!piece.below.empty()) text += "(" + piece.below + ")";
      return text + piece.above;
    }
    case Piece::Kind::number:
      return piece.unit.empty() ? piece.text : piece.text + (piece.unit == "%" ? "\u202F" : " ") + piece.unit;
    case Piece::Kind::sign:
      return " " + piece.text + " ";
    case Piece::Kind::fraction: {
      const auto side = [](const Line& line) {
        return line.size() == 1 ? plain_text(line) : "(" + plain_text(line) + ")";
      };
      return side(piece.top) + " / " + side(piece.bottom);
    }
    case Piece::Kind::text:
    case Piece::Kind::formula:
      break;
  }
  return piece.text;
}

Piece made(Piece::Kind kind, std::string text) {
  Piece piece;
  piece.kind = kind;
  piece.text = std::move(text);
  return piece;
}

}  // namespace

Piece Piece::words(std::string text) { return made(Kind::text, std::move(text)); }

Piece Piece::of_symbol(std::string letter, std::string below) {
  Piece piece = made(Kind::symbol, std::move(letter));
  piece.below = std::move(below);
  return piece;
}

Piece Piece::of_number(std::string text, std::string unit) {
  Piece piece = made(Kind::number, std::move(text));
  piece.unit = std::move(unit);
  return piece;
}

Piece Piece::of_formula(std::string text) { return made(Kind::formula, std::move(text)); }
Piece Piece::of_sign(std::string text) { return made(Kind::sign, std::move(text)); }

Piece Piece::of_fraction(std::vector<Piece> top, std::vector<Piece> bottom) {
  Piece piece = made(Kind::fraction, {});
  piece.top = std::move(top);
  piece.bottom = std::move(bottom);
  return piece;
}

std::size_t upright_start(std::string_view symbol) {
  for (const std::string_view whole : {"pH", "eq"}) {
    if (symbol == whole) return symbol.size();
  }
  for (const std::string_view before : {"Δ", "lg "}) {
    if (symbol.starts_with(before)) return before.size();
  }
  return 0;
}

std::string plain_text(const Line& line) {
  std::string text;
  const Piece* before = nullptr;
  for (const Piece& piece : line) {
    const bool two_symbols =
        before != nullptr && before->kind == Piece::Kind::symbol && piece.kind == Piece::Kind::symbol;
    if (two_symbols) text += ' ';
    text += plain(piece);
    before = &piece;
  }
  return text;
}

std::string plain_text(const Workings& workings) {
  std::string text;
  for (const Line& line : workings.lines) {
    if (!text.empty()) text += '\n';
    text += plain_text(line);
  }
  return text;
}

std::string to_begin_with(std::string text) {
  const auto small = [](char c) { return c >= 'a' && c <= 'z'; };
  const auto large = [](char c) { return c >= 'A' && c <= 'Z'; };
  if (text.empty() || !small(text[0])) return text;
  const std::string_view word = std::string_view(text).substr(0, text.find(' '));
  const bool meant = std::any_of(word.begin(), word.end(), large);
  if (!meant) text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace sash::workings
