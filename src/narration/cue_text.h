#pragma once
// The markup inside a WebVTT cue: its tree of spans, its plain text, and the time tags between words.
// Not the file around it (webvtt.h). Never fails: every text has a tree. Linear; depth of nesting is bounded only by
// the text, and nothing here recurses. Pure; safe from any thread.
// Source: W3C WebVTT, "WebVTT cue text parsing rules" and "WebVTT cue text tokenizer".

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "support/moment.h"

namespace sash::narration {

struct CueNode {
  enum class Type { root, text, timestamp, class_span, italic, bold, underline, ruby, ruby_text, voice, language };
  Type type = Type::root;
  std::size_t parent = 0;             ///< index in CueTree::nodes; the root is its own parent
  std::vector<std::size_t> children;  ///< in order
  std::string text;                   ///< text: its characters; voice: the speaker; otherwise empty
  std::vector<std::string> classes;   ///< without empty ones
  std::optional<std::string> language;
  Moment time;  ///< timestamp
};

/// The tree of a cue's text. Node 0 is the root.
struct CueTree {
  std::vector<CueNode> nodes;

  std::string plain() const;  ///< all text in order, markup off, character references decoded
};

CueTree parse_cue_text(std::string_view text);

/// Collects a WebVTT timestamp from `input` at `position`, which moves behind it. Nothing when there is none, as the
/// standard's parser decides ("0:00:00.000" is one, "0:00.000" is not).
std::optional<Moment> collect_timestamp(std::string_view input, std::size_t& position);

}  // namespace sash::narration
