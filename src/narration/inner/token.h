#pragma once
// The words, numbers and signs of a narration in one sequence across its lines, so that later passes can look across
// the end of a caption. Lines marked as noise give no tokens. Pure.

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "model/footage.h"

namespace sash::narration {

struct Token {
  enum class Type : std::uint8_t {
    word,     ///< letters, with digits behind them ("h2o", "p100"); also "°c" and ordinals ("12th")
    number,   ///< digits: "1,500", "0.25", ".9", "½"
    slashed,  ///< "1/2", "24/40": value is the quotient
    clock,    ///< "7:45"
    sign,     ///< one of % $ £ € ± × ^ + - – / ( ) . , ; : ! ? " and ">>"
  };
  Type type = Type::word;
  bool glued = false;       ///< nothing stands between it and the token before it
  std::uint32_t line = 0;   ///< index among the lines
  std::uint32_t begin = 0;  ///< bytes of the line's text
  std::uint32_t end = 0;
  double value = 0;       ///< number, slashed
  std::string_view text;  ///< lower case
  std::string_view raw;   ///< as written
};

/// Tokens with the storage of their lower-case text. `raw` points into the lines it was made from.
struct TokenStream {
  std::vector<Token> tokens;
  std::unique_ptr<std::string> lower;

  std::size_t size() const { return tokens.size(); }
  const Token& operator[](std::size_t i) const { return tokens[i]; }
  /// The text of token `i`, empty outside the stream.
  std::string_view text(std::size_t i) const { return i < tokens.size() ? tokens[i].text : std::string_view(); }
  bool is(std::size_t i, std::string_view word) const { return i < tokens.size() && tokens[i].text == word; }
  bool is_type(std::size_t i, Token::Type type) const { return i < tokens.size() && tokens[i].type == type; }
};

/// Words that recognisers write for others of the bench ("bureau" for burette) come as those in `text`; `raw` stays.
TokenStream tokenise(std::span<const model::NarrationLine> lines);

}  // namespace sash::narration
