#include "script/inner/html.h"

namespace sash::script::inner {

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\t') out += c;
    }
  }
  return out;
}

std::string escaped_lines(std::string_view text) {
  std::string out;
  for (const char c : escaped(text)) {
    if (c == '\n') {
      out += "<br>";
    } else {
      out += c;
    }
  }
  return out;
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    unsigned group = 0;
    for (std::size_t k = 0; k < 3; ++k)
      group = (group << 8U) | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    for (unsigned k = 0; k < 4; ++k) {
      const bool padding = i + k > bytes.size();
      out += padding ? '=' : letters[(group >> (18 - 6 * k)) & 0x3FU];
    }
  }
  return out;
}

namespace {

std::string one(const workings::Piece& piece) {
  using Kind = workings::Piece::Kind;
  switch (piece.kind) {
    case Kind::text:
      return "<span>" + escaped(piece.text) + "</span>";
    case Kind::sign:
      return "<span class=\"sign\">" + escaped(piece.text) + "</span>";
    case Kind::formula:
      return "<span class=\"formula\">" + escaped(piece.text) + "</span>";
    case Kind::fraction:
      return "<span class=\"fraction\"><span>" + typeset(piece.top) + "</span><span>" + typeset(piece.bottom) +
             "</span></span>";
    case Kind::symbol: {
      const std::size_t upright = workings::upright_start(piece.text);
      std::string out = escaped(piece.text.substr(0, upright));
      if (upright < piece.text.size()) out += "<i>" + escaped(piece.text.substr(upright)) + "</i>";
      if (!piece.below.empty()) out += "<sub>" + escaped(piece.below) + "</sub>";
      if (!piece.above.empty()) out += "<sup>" + escaped(piece.above) + "</sup>";
      return out;
    }
    case Kind::number: {
      std::string out = "<span class=\"number\">" + escaped(piece.text);
      if (!piece.unit.empty()) out += "\u2009" + escaped(piece.unit);
      if (!piece.above.empty()) out += "<sup>" + escaped(piece.above) + "</sup>";
      return out + "</span>";
    }
  }
  return {};
}

}  // namespace

std::string typeset(const workings::Line& line) {
  std::string out;
  for (const auto& piece : line) {
    if (piece.figure) {
      out += "<a href=\"#figure-" + std::to_string(piece.figure->number) + "\">" + one(piece) + "</a>";
    } else {
      out += one(piece);
    }
    out += ' ';
  }
  if (!out.empty()) out.pop_back();
  return out;
}

}  // namespace sash::script::inner
