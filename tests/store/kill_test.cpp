// A desk killed at any moment loses nothing it has acknowledged.

#include <gtest/gtest.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <future>
#include <set>
#include <thread>

#include "made.h"
#include "store/store.h"
#include "support/text.h"

namespace sash::store {
namespace {

using Ids = std::set<std::int64_t>;

// Lets the editor run on the record for that long after its first edit, kills it, and gives what it acknowledged.
std::string run_and_kill(const std::string& path, std::uint64_t seed, std::chrono::microseconds how_long) {
  std::array<int, 2> pipe_ends{};
  EXPECT_EQ(pipe(pipe_ends.data()), 0);
  const pid_t child = fork();
  if (child == 0) {
    dup2(pipe_ends[1], STDOUT_FILENO);
    close(pipe_ends[0]);
    close(pipe_ends[1]);
    execl(SASH_EDITOR, SASH_EDITOR, path.c_str(), std::to_string(seed).c_str(), nullptr);
    _exit(127);
  }
  close(pipe_ends[1]);
  std::string said;
  std::promise<void> first_edit;
  std::jthread reader([&] {  // so that a full pipe never holds the editor up
    std::array<char, 4096> bytes{};
    for (ssize_t n = 0; (n = read(pipe_ends[0], bytes.data(), bytes.size())) > 0;) {
      if (said.empty()) first_edit.set_value();
      said.append(bytes.data(), static_cast<std::size_t>(n));
    }
  });
  EXPECT_EQ(first_edit.get_future().wait_for(std::chrono::seconds(60)), std::future_status::ready);
  std::this_thread::sleep_for(how_long);
  EXPECT_EQ(kill(child, SIGKILL), 0);
  int status = 0;
  waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status)) << "the editor ended by itself with " << WEXITSTATUS(status);
  reader.join();
  close(pipe_ends[0]);
  return said;
}

void replay(const std::string& said, Ids& ids) {
  for (const auto line : split_lines(said)) {
    const auto id = read_integer(line.substr(1));
    ASSERT_TRUE(id.has_value()) << line;
    if (line[0] == '+') {
      EXPECT_TRUE(ids.insert(*id).second) << "id " << *id << " was given twice";
    } else {
      EXPECT_EQ(ids.erase(*id), 1U);
    }
  }
}

std::string integrity(const std::string& path) {
  sqlite3* db = nullptr;
  sqlite3_stmt* check = nullptr;
  EXPECT_EQ(sqlite3_open(path.c_str(), &db), SQLITE_OK);
  EXPECT_EQ(sqlite3_prepare_v2(db, "PRAGMA integrity_check", -1, &check, nullptr), SQLITE_OK);
  EXPECT_EQ(sqlite3_step(check), SQLITE_ROW);
  const std::string answer = reinterpret_cast<const char*>(sqlite3_column_text(check, 0));
  sqlite3_finalize(check);
  sqlite3_close(db);
  return answer;
}

TEST(StoreKilled, LosesNothingItHasAcknowledged) {
  const test::TestFolder folder;
  const std::string path = folder.file("a.sash");
  model::Record start;
  start.footages.push_back({{1}, "a.mp4", "", "", Moment::seconds(10), 0});
  ASSERT_TRUE(Store::create(path, start).ok());

  std::mt19937_64 random(50);
  Ids acknowledged;
  std::size_t edits = 0;
  for (int round = 0; round < 50; ++round) {
    const std::string said = run_and_kill(path, random(), std::chrono::microseconds(random() % 80'000));
    edits += static_cast<std::size_t>(std::count(said.begin(), said.end(), '\n'));
    replay(said, acknowledged);
    ASSERT_EQ(integrity(path), "ok");

    auto store = Store::open(path);
    ASSERT_TRUE(store.ok()) << store.fault().sentence;
    ASSERT_EQ(store->read_only(), nullptr) << store->read_only()->sentence;
    Ids there;
    for (const auto& figure : store->record().figures) there.insert(figure.id.number);
    // Only the one edit under way at the kill may differ: done but not yet acknowledged.
    Ids differing;
    std::set_symmetric_difference(acknowledged.begin(), acknowledged.end(), there.begin(), there.end(),
                                  std::inserter(differing, differing.end()));
    ASSERT_LE(differing.size(), 1U) << "round " << round;
    acknowledged = there;

    const model::Record before = store->record();
    if (store->undo_name()) {
      ASSERT_TRUE(store->undo().ok());
      ASSERT_NE(store->record(), before);
      ASSERT_TRUE(store->redo().ok());
      ASSERT_EQ(store->record(), before);
    }
  }
  EXPECT_GT(edits, 200U) << "too few edits to prove anything";
  RecordProperty("edits", static_cast<int>(edits));
}

}  // namespace
}  // namespace sash::store
