#include "desk/shown/text_edit.h"

#include <algorithm>

#include "support/text.h"

namespace sash::desk {
namespace {

constexpr std::size_t most_steps = 500;

bool is_space(char c) { return c == ' ' || c == '\n' || c == '\t'; }

// Letters, digits and everything beyond ASCII make words; other marks stand for themselves.
bool in_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         static_cast<unsigned char>(c) >= 0x80;
}

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

std::string printable(std::string_view utf8) {
  std::string out;
  for (std::size_t i = 0; i < utf8.size(); ++i) {
    const char c = utf8[i];
    if (c == '\r') {
      if (i + 1 == utf8.size() || utf8[i + 1] != '\n') out += '\n';
    } else if (c == '\t') {
      out += ' ';
    } else if (c == '\n' || (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F)) {
      out += c;
    }
  }
  return out;
}

}  // namespace

TextEdit::TextEdit(std::string text) {
  now_.text = std::move(text);
  now_.cursor = now_.anchor = now_.text.size();
}

std::size_t TextEdit::begin() const { return std::min(now_.cursor, now_.anchor); }
std::size_t TextEdit::end() const { return std::max(now_.cursor, now_.anchor); }
std::string_view TextEdit::selected() const { return std::string_view(now_.text).substr(begin(), end() - begin()); }

void TextEdit::insert(std::string_view utf8) {
  const std::string clean = printable(utf8);
  if (clean.empty()) return;
  const bool letter = clean.size() == code_point_at(clean, 0).length && !is_space(clean.front()) && begin() == end();
  replace(begin(), end(), clean, letter ? Change::typing : Change::other);
}

void TextEdit::erase_back(bool word) {
  const std::size_t from = begin() != end() ? begin() : before(now_.cursor, word);
  replace(from, end(), {}, Change::other);
}

void TextEdit::erase_on(bool word) {
  const std::size_t until = begin() != end() ? end() : after(now_.cursor, word);
  replace(begin(), until, {}, Change::other);
}

void TextEdit::move_to(std::size_t at, bool select) {
  at = std::min(at, now_.text.size());
  while (at > 0 && at < now_.text.size() && continues(now_.text[at])) --at;
  now_.cursor = at;
  if (!select) now_.anchor = at;
  last_ = Change::other;
}

void TextEdit::step_back(bool word, bool select) {
  move_to(!select && !word && begin() != end() ? begin() : before(now_.cursor, word), select);
}

void TextEdit::step_on(bool word, bool select) {
  move_to(!select && !word && begin() != end() ? end() : after(now_.cursor, word), select);
}

void TextEdit::select_all() {
  now_.anchor = 0;
  now_.cursor = now_.text.size();
  last_ = Change::other;
}

void TextEdit::select_word(std::size_t at) {
  move_to(at, false);
  std::size_t from = now_.cursor;
  std::size_t until = now_.cursor;
  while (from > 0 && in_word(now_.text[from - 1])) --from;
  while (until < now_.text.size() && in_word(now_.text[until])) ++until;
  now_.anchor = from;
  now_.cursor = until;
}

void TextEdit::undo() {
  if (past_.empty()) return;
  future_.push_back(std::move(now_));
  now_ = std::move(past_.back());
  past_.pop_back();
  last_ = Change::other;
}

void TextEdit::redo() {
  if (future_.empty()) return;
  past_.push_back(std::move(now_));
  now_ = std::move(future_.back());
  future_.pop_back();
  last_ = Change::other;
}

void TextEdit::replace(std::size_t from, std::size_t until, std::string_view with, Change change) {
  if (from == until && with.empty()) return;
  const bool goes_on = change == Change::typing && last_ == Change::typing;  // a word that is typed is one step
  if (!goes_on) past_.push_back(now_);
  if (past_.size() > most_steps) past_.erase(past_.begin());
  future_.clear();
  now_.text.replace(from, until - from, with);
  now_.cursor = now_.anchor = from + with.size();
  last_ = change;
}

std::size_t TextEdit::before(std::size_t at, bool word) const {
  const std::string& text = now_.text;
  if (at == 0) return 0;
  if (!word) {
    do --at;
    while (at > 0 && continues(text[at]));
    return at;
  }
  while (at > 0 && is_space(text[at - 1])) --at;
  if (at == 0) return 0;
  const bool letters = in_word(text[at - 1]);
  while (at > 0 && !is_space(text[at - 1]) && in_word(text[at - 1]) == letters) --at;
  return at;
}

std::size_t TextEdit::after(std::size_t at, bool word) const {
  const std::string& text = now_.text;
  if (at >= text.size()) return text.size();
  if (!word) {
    do ++at;
    while (at < text.size() && continues(text[at]));
    return at;
  }
  const bool letters = in_word(text[at]);
  while (at < text.size() && !is_space(text[at]) && in_word(text[at]) == letters) ++at;
  while (at < text.size() && is_space(text[at])) ++at;
  return at;
}

}  // namespace sash::desk
