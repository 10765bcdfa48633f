#include "desk/shell/file_chooser.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <cstdlib>
#include <filesystem>
#include <mutex>
#include <thread>
#include <utility>

#include "support/text.h"

namespace sash::desk {
namespace {

std::string start_place(const FileWish& wish) {
  std::string place = wish.folder;
  if (!place.empty() && place.back() != '/') place += '/';
  return place + wish.name;
}

std::string patterns(const FileWish& wish, bool upper_too) {
  std::string out;
  for (const std::string& ending : wish.endings) {
    out += (out.empty() ? "*." : " *.") + ending;
    if (!upper_too) continue;
    std::string upper = ending;
    for (char& c : upper) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    out += " *." + upper;
  }
  return out;
}

std::vector<std::string> zenity(const FileWish& wish) {
  std::vector<std::string> a = {"--file-selection", "--title=" + wish.title};
  if (wish.what == FileWish::What::open_several) {
    a.emplace_back("--multiple");
    a.emplace_back("--separator=\n");
  }
  if (wish.what == FileWish::What::save) {
    a.emplace_back("--save");
    a.emplace_back("--confirm-overwrite");
  }
  if (wish.what == FileWish::What::folder) a.emplace_back("--directory");
  if (const std::string place = start_place(wish); !place.empty()) a.push_back("--filename=" + place);
  if (!wish.endings.empty()) {
    a.push_back("--file-filter=" + wish.kind + " | " + patterns(wish, true));
    a.emplace_back("--file-filter=All files | *");
  }
  return a;
}

std::vector<std::string> kdialog(const FileWish& wish) {
  std::vector<std::string> a = {"--title", wish.title};
  const std::string place = start_place(wish).empty() ? "." : start_place(wish);
  switch (wish.what) {
    case FileWish::What::folder:
      a.insert(a.end(), {"--getexistingdirectory", place});
      return a;
    case FileWish::What::save:
      a.insert(a.end(), {"--getsavefilename", place});
      break;
    default:
      if (wish.what == FileWish::What::open_several) a.insert(a.end(), {"--multiple", "--separate-output"});
      a.insert(a.end(), {"--getopenfilename", place});
  }
  if (!wish.endings.empty()) a.push_back(wish.kind + " (" + patterns(wish, true) + ")");
  return a;
}

std::optional<std::string> on_path(std::string_view program) {
  const char* path = std::getenv("PATH");
  for (const std::string_view folder : split(path == nullptr ? "" : path, ':')) {
    if (folder.empty()) continue;
    const std::string file = std::string(folder) + "/" + std::string(program);
    std::error_code ignored;
    if (!std::filesystem::is_directory(file, ignored) && access(file.c_str(), X_OK) == 0) return file;
  }
  return std::nullopt;
}

}  // namespace

struct FileChooser::State {
  std::function<void()> wake;
  mutable std::mutex mutex;
  std::optional<std::vector<std::string>> answer;  // guarded by mutex
  pid_t child = 0;                                 // guarded by mutex; 0: ended
  std::atomic<bool> open = false;
  std::jthread thread;

  /// Reads what the dialog prints until it ends.
  void follow(int from, pid_t pid) {
    std::string said;
    char buffer[4096];
    for (;;) {
      const ssize_t n = read(from, buffer, sizeof buffer);
      if (n <= 0) break;
      said.append(buffer, static_cast<std::size_t>(n));
    }
    close(from);
    // Known to have ended before its number is given back, so that nobody is ended in its place.
    siginfo_t ended{};
    waitid(P_PID, static_cast<id_t>(pid), &ended, WEXITED | WNOWAIT);
    {
      const std::lock_guard lock(mutex);
      child = 0;
    }
    int status = 0;
    waitpid(pid, &status, 0);
    std::vector<std::string> paths;
    if (WIFEXITED(status) && WEXITSTATUS(status) == 0) {
      for (const std::string_view line : split_lines(said)) {
        if (line.starts_with('/')) paths.emplace_back(line);
      }
    }
    {
      const std::lock_guard lock(mutex);
      answer = std::move(paths);
    }
    open = false;
    if (wake) wake();
  }
};

FileChooser::FileChooser(std::function<void()> wake) : state_(std::make_unique<State>()) {
  state_->wake = std::move(wake);
}

FileChooser::~FileChooser() {
  const std::lock_guard lock(state_->mutex);
  if (state_->child > 0) kill(state_->child, SIGTERM);
}

std::optional<std::string> FileChooser::installed() {
  for (const std::string_view program : {"zenity", "kdialog"}) {
    if (auto found = on_path(program)) return found;
  }
  return std::nullopt;
}

std::vector<std::string> FileChooser::arguments(const std::string& program, const FileWish& wish) {
  return std::filesystem::path(program).filename() == "kdialog" ? kdialog(wish) : zenity(wish);
}

bool FileChooser::ask(const FileWish& wish) {
  const auto program = installed();
  if (!program || state_->open) return false;
  std::vector<std::string> words = arguments(*program, wish);
  words.insert(words.begin(), *program);
  std::vector<char*> argv;
  for (std::string& w : words) argv.push_back(w.data());
  argv.push_back(nullptr);

  int pipe_ends[2];
  if (pipe2(pipe_ends, O_CLOEXEC) != 0) return false;
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, pipe_ends[1], STDOUT_FILENO);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t pid = 0;
  const int failed = posix_spawn(&pid, program->c_str(), &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  close(pipe_ends[1]);
  if (failed != 0) {
    close(pipe_ends[0]);
    return false;
  }
  state_->open = true;
  {
    const std::lock_guard lock(state_->mutex);
    state_->child = pid;
  }
  state_->thread = std::jthread([state = state_.get(), from = pipe_ends[0], pid] { state->follow(from, pid); });
  return true;
}

bool FileChooser::open() const { return state_->open; }

std::optional<std::vector<std::string>> FileChooser::answer() {
  const std::lock_guard lock(state_->mutex);
  return std::exchange(state_->answer, std::nullopt);
}

}  // namespace sash::desk
