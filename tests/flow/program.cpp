#include "flow/program.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <ostream>
#include <sstream>

namespace sash::flow {
namespace {

[[noreturn]] void give_up(const std::string& why) {
  std::fprintf(stderr, "flow test: %s\n", why.c_str());
  std::abort();
}

// A file without a name that takes in what a process prints.
class Catch {
 public:
  Catch() : file_(std::tmpfile()) {
    if (file_ == nullptr) give_up("no temporary file can be made");
  }
  ~Catch() { std::fclose(file_); }
  Catch(const Catch&) = delete;
  Catch& operator=(const Catch&) = delete;

  int descriptor() const { return ::fileno(file_); }
  std::string text() const {
    std::string out;
    char buffer[65536];
    std::rewind(file_);
    while (const std::size_t n = std::fread(buffer, 1, sizeof buffer, file_)) out.append(buffer, n);
    return out;
  }

 private:
  std::FILE* file_;
};

}  // namespace

void PrintTo(const Ran& ran, std::ostream* to) {
  *to << "exit code " << ran.code << "\n--- out\n" << ran.out << "--- err\n" << ran.err;
}

Ran ran(const std::vector<std::string>& command) {
  const Catch out;
  const Catch err;
  std::vector<char*> words;
  for (const auto& word : command) words.push_back(const_cast<char*>(word.c_str()));
  words.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_adddup2(&actions, out.descriptor(), STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&actions, err.descriptor(), STDERR_FILENO);
  pid_t process = 0;
  const int failed = posix_spawnp(&process, words[0], &actions, nullptr, words.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failed != 0) give_up("cannot start " + command[0]);
  int status = 0;
  if (waitpid(process, &status, 0) != process) give_up("lost sight of " + command[0]);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, out.text(), err.text()};
}

Ran sashline(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), SASH_PROGRAM);
  return ran(arguments);
}

std::string output_of(const std::vector<std::string>& command) {
  Ran done = ran(command);
  if (done.code != 0) give_up(command[0] + " failed: " + done.err + done.out);
  return std::move(done.out);
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) give_up("cannot read " + file.string());
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

fs::path demo_record() {
  static const fs::path made = [] {
    const fs::path record = fs::path(SASH_DEMO) / "copper-cycle.sash";
    for (const char* ending : {"", "-wal", "-shm", ".desk"}) fs::remove(record.string() + ending);
    const Ran done = sashline({"demo", SASH_DEMO});
    if (done.code != 0) give_up("the demo was not made: " + done.err);
    // The last line printed is the record's path and nothing else, for scripts.
    if (!done.out.ends_with("\n" + record.string() + "\n")) give_up("the record's path is not said: " + done.out);
    return record;
  }();
  return made;
}

}  // namespace sash::flow
