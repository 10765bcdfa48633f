#pragma once
// TextEdit: a text while it is written: cursor, selection, and its own steps back. It knows nothing of rows, fonts or
// keys; the field that shows it does. Offsets are bytes and always lie between code points. Pure values.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace sash::desk {

class TextEdit {
 public:
  /// The cursor stands behind the text.
  explicit TextEdit(std::string text);

  const std::string& text() const { return now_.text; }
  std::size_t cursor() const { return now_.cursor; }
  std::size_t begin() const;  ///< of the selection; the cursor where there is none
  std::size_t end() const;
  std::string_view selected() const;

  /// Puts `utf8` in place of the selection. Control characters but the line feed are left out; "\r\n" is one line feed.
  void insert(std::string_view utf8);
  void erase_back(bool word);  ///< the selection, or what stands before the cursor
  void erase_on(bool word);    ///< the selection, or what stands behind the cursor

  /// Moves the cursor; `select` leaves the other end of the selection where it was.
  void move_to(std::size_t at, bool select);
  void step_back(bool word, bool select);  ///< without `select`, from a selection to its beginning
  void step_on(bool word, bool select);    ///< without `select`, from a selection to its end
  void select_all();
  void select_word(std::size_t at);

  void undo();
  void redo();

 private:
  struct State {
    std::string text;
    std::size_t cursor = 0;
    std::size_t anchor = 0;
  };
  enum class Change { typing, other };

  void replace(std::size_t from, std::size_t until, std::string_view with, Change change);
  std::size_t before(std::size_t at, bool word) const;
  std::size_t after(std::size_t at, bool word) const;

  State now_;
  std::vector<State> past_;
  std::vector<State> future_;
  Change last_ = Change::other;
};

}  // namespace sash::desk
