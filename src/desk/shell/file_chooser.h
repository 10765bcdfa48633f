#pragma once
// FileChooser: the desktop's own dialog for choosing files, where one is installed (zenity or kdialog), run as a
// program of its own beside the window. Never blocks: the answer is fetched. Where none is installed the desk's plain
// path field serves. Main thread only; `wake` is called from a thread of its own.

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace sash::desk {

struct FileWish {
  enum class What { open_one, open_several, save, folder };
  What what = What::open_one;
  std::string title = {};
  std::string folder = {};                ///< to begin in; may be empty
  std::string name = {};                  ///< proposed, for save
  std::string kind = {};                  ///< what the pattern is called: "Footage"
  std::vector<std::string> endings = {};  ///< "mp4", "mov"; empty: all files
};

class FileChooser {
 public:
  explicit FileChooser(std::function<void()> wake);
  ~FileChooser();  ///< ends the dialog if it is still open
  FileChooser(const FileChooser&) = delete;
  FileChooser& operator=(const FileChooser&) = delete;

  /// The program that will be used, found on PATH now; nothing when none is.
  static std::optional<std::string> installed();

  /// Opens the dialog; false when one is open already or cannot be started.
  bool ask(const FileWish& wish);
  bool open() const;
  /// The answer, once: full paths, none when the person thought better of it. Nothing while it is open.
  std::optional<std::vector<std::string>> answer();

  /// What the program is called with, without its name. For tests.
  static std::vector<std::string> arguments(const std::string& program, const FileWish& wish);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace sash::desk
