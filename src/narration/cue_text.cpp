#include "narration/cue_text.h"

#include <algorithm>
#include <utility>

#include "narration/inner/character_references.h"
#include "support/text.h"

namespace sash::narration {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
/// What ends a tag's name. A carriage return does not: a file's are gone by now.
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\f'; }

struct Token {
  enum class Type { text, start, end, timestamp };
  Type type = Type::text;
  std::string value;  ///< text, tag name or the inside of a timestamp tag
  std::vector<std::string> classes;
  std::string annotation;
};

/// Spaces off both ends, runs of them made one.
std::string squeezed(std::string_view s) {
  std::string out;
  bool gap = false;
  for (const char c : s) {
    if (is_space(c) || c == '\r') {
      gap = !out.empty();
      continue;
    }
    if (gap) out += ' ';
    gap = false;
    out += c;
  }
  return out;
}

/// The tokenizer of the standard, one member function for each group of its states.
class Tokenizer {
 public:
  explicit Tokenizer(std::string_view input) : input_(input) {}
  bool at_end() const { return at_ >= input_.size(); }

  Token next() {
    if (input_[at_] == '<') {
      ++at_;
      return tag();
    }
    Token token;
    while (!at_end() && input_[at_] != '<') {
      const char c = input_[at_++];
      if (c == '&') {
        reference('\0', token.value);
      } else {
        token.value += c;
      }
    }
    return token;
  }

 private:
  void reference(char stop, std::string& to) {
    const std::size_t used = consume_reference(input_, at_, stop, to);
    if (used == 0) to += '&';
    at_ += used;
  }

  Token tag() {
    Token token;
    token.type = Token::Type::start;
    if (at_end()) return token;
    const char c = input_[at_];
    if (c == '/') {
      ++at_;
      token.type = Token::Type::end;
      token.value = up_to_close();
      return token;
    }
    if (is_digit(c)) {
      token.type = Token::Type::timestamp;
      token.value = up_to_close();
      return token;
    }
    start_tag(token);
    return token;
  }

  std::string up_to_close() {
    std::string inside;
    while (!at_end() && input_[at_] != '>') inside += input_[at_++];
    if (!at_end()) ++at_;
    return inside;
  }

  void start_tag(Token& token) {
    while (!at_end()) {
      const char c = input_[at_];
      if (c == '>') {
        ++at_;
        return;
      }
      ++at_;
      if (c == '.') return class_names(token);
      if (is_space(c)) return annotation(token);
      token.value += c;
    }
  }

  void class_names(Token& token) {
    std::string name;
    const auto keep = [&] {
      if (!name.empty()) token.classes.push_back(std::exchange(name, {}));
    };
    while (!at_end()) {
      const char c = input_[at_++];
      if (c == '>') break;
      if (is_space(c)) {
        keep();
        return annotation(token);
      }
      if (c == '.') {
        keep();
      } else {
        name += c;
      }
    }
    keep();
  }

  void annotation(Token& token) {
    std::string inside;
    while (!at_end()) {
      const char c = input_[at_++];
      if (c == '>') break;
      if (c == '&') {
        reference('>', inside);
      } else {
        inside += c;
      }
    }
    token.annotation = squeezed(inside);
  }

  std::string_view input_;
  std::size_t at_ = 0;
};

using Type = CueNode::Type;

std::optional<Type> span_type(std::string_view tag) {
  if (tag == "c") return Type::class_span;
  if (tag == "i") return Type::italic;
  if (tag == "b") return Type::bold;
  if (tag == "u") return Type::underline;
  if (tag == "ruby") return Type::ruby;
  if (tag == "rt") return Type::ruby_text;
  if (tag == "v") return Type::voice;
  if (tag == "lang") return Type::language;
  return std::nullopt;
}

class TreeBuilder {
 public:
  TreeBuilder() { tree_.nodes.emplace_back(); }

  void take(Token token) {
    switch (token.type) {
      case Token::Type::text:
        tree_.nodes[append(Type::text)].text = std::move(token.value);
        break;
      case Token::Type::start:
        open(std::move(token));
        break;
      case Token::Type::end:
        close(token.value);
        break;
      case Token::Type::timestamp: {
        std::size_t at = 0;
        const auto time = collect_timestamp(token.value, at);
        if (time && at == token.value.size()) tree_.nodes[append(Type::timestamp)].time = *time;
        break;
      }
    }
  }

  CueTree finish() { return std::move(tree_); }

 private:
  std::size_t append(Type type) {
    const std::size_t made = tree_.nodes.size();
    CueNode node;
    node.type = type;
    node.parent = current_;
    tree_.nodes.push_back(std::move(node));
    tree_.nodes[current_].children.push_back(made);
    return made;
  }

  void open(Token token) {
    const auto type = span_type(token.value);
    if (!type || (*type == Type::ruby_text && tree_.nodes[current_].type != Type::ruby)) return;
    if (*type == Type::language) languages_.push_back(token.annotation);
    const std::size_t made = append(*type);
    CueNode& node = tree_.nodes[made];
    node.classes = std::move(token.classes);
    if (!languages_.empty()) node.language = languages_.back();
    if (*type == Type::voice) node.text = std::move(token.annotation);
    current_ = made;
  }

  void close(std::string_view tag) {
    const auto type = span_type(tag);
    if (!type) return;
    const CueNode& node = tree_.nodes[current_];
    if (node.type == *type) {
      if (*type == Type::language) languages_.pop_back();
      current_ = node.parent;
    } else if (*type == Type::ruby && node.type == Type::ruby_text) {
      current_ = tree_.nodes[node.parent].parent;
    }
  }

  CueTree tree_;
  std::size_t current_ = 0;
  std::vector<std::string> languages_;
};

}  // namespace

CueTree parse_cue_text(std::string_view text) {
  Tokenizer tokens(text);
  TreeBuilder builder;
  while (!tokens.at_end()) builder.take(tokens.next());
  return builder.finish();
}

std::string CueTree::plain() const {
  // Nodes stand in the order of the text, so no walk is needed.
  std::string out;
  for (const CueNode& node : nodes) {
    if (node.type == Type::text) out += node.text;
  }
  return out;
}

std::optional<Moment> collect_timestamp(std::string_view input, std::size_t& position) {
  const auto digits = [&] {
    const std::size_t first = position;
    while (position < input.size() && is_digit(input[position])) ++position;
    return input.substr(first, position - first);
  };
  const auto take = [&](char c) {
    if (position >= input.size() || input[position] != c) return false;
    ++position;
    return true;
  };
  constexpr std::int64_t most_hours = 400'000;  // 45 years; keeps sums of times in range
  const auto number = [most_hours](std::string_view s) {
    std::int64_t n = 0;
    for (const char c : s) n = std::min<std::int64_t>(n * 10 + (c - '0'), most_hours);
    return n;
  };

  std::string_view string = digits();
  if (string.empty()) return std::nullopt;
  std::int64_t first = number(string);
  const bool hours = string.size() != 2 || first > 59;
  if (!take(':')) return std::nullopt;
  string = digits();
  if (string.size() != 2) return std::nullopt;
  std::int64_t second = number(string);
  std::int64_t third = second;
  if (hours || (position < input.size() && input[position] == ':')) {
    if (!take(':')) return std::nullopt;
    string = digits();
    if (string.size() != 2) return std::nullopt;
    third = number(string);
  } else {
    second = first;
    first = 0;
  }
  if (!take('.')) return std::nullopt;
  string = digits();
  if (string.size() != 3 || second > 59 || third > 59) return std::nullopt;
  return Moment::millis(((first * 60 + second) * 60 + third) * 1000 + number(string));
}

}  // namespace sash::narration
