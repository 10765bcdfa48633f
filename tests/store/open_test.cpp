// What opening says about files that cannot be edited or are no records, and that it leaves them alone.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>

#include "made.h"
#include "store/json_form.h"
#include "store/store.h"

namespace sash::store {
namespace {

using test::bytes_of;
using test::pin_figure;
using test::small_record;
using test::TestFolder;
using test::write_bytes;

void run_sql(const std::string& path, const std::string& sql) {
  sqlite3* db = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &db), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(db, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK) << sqlite3_errmsg(db);
  sqlite3_close(db);
}

std::string made_record(const TestFolder& folder, const model::Record& contents = small_record()) {
  const std::string path = folder.file("a.sash");
  EXPECT_TRUE(Store::create(path, contents).ok());
  return path;
}

// The sentence with which opening fails; checks that a file there keeps its bytes.
std::string refusal(const std::string& path) {
  const bool is_file = std::filesystem::is_regular_file(path);
  const std::string before = is_file ? bytes_of(path) : "";
  const auto store = Store::open(path);
  EXPECT_FALSE(store.ok());
  if (is_file) {
    EXPECT_EQ(bytes_of(path), before);
  }
  return store.ok() ? "" : store.fault().sentence;
}

const char* const damaged_rest =
    "' is damaged, so it cannot be edited; what could be read is shown: export it as JSON (sashline record RECORD --to "
    "FILE.json) and make a new record from that (sashline record NEW.sash --from FILE.json).";

TEST(StoreOpening, SaysWhatIsNoRecord) {
  const TestFolder folder;
  const std::string path = folder.file("x.sash");
  EXPECT_EQ(refusal(path), "There is no file '" + path + "'; check the name, or begin a record there.");
  EXPECT_EQ(refusal(folder.path()), "'" + folder.path() + "' is a folder, not a record; name the .sash file in it.");
  EXPECT_EQ(refusal("/dev/null"), "'/dev/null' is a device, not a file; choose a .sash file.");
  write_bytes(path, "");
  EXPECT_EQ(refusal(path),
            "The file '" + path + "' is empty, so it holds no record; choose another file or a copy of it.");
  write_bytes(path, "WEBVTT\n\n00:01.000 --> 00:02.000\nHello\n");
  EXPECT_EQ(refusal(path), "The file '" + path + "' is not a Sashline record; choose a .sash file.");
  write_bytes(path, std::string("SQLite format 3\0\x10", 17));
  EXPECT_EQ(refusal(path),
            "The file '" + path + "' is cut short after 17 bytes, so nothing of it can be read; use a copy of it.");
}

TEST(StoreOpening, LeavesADatabaseOfAnotherProgramAlone) {
  const TestFolder folder;
  const std::string path = folder.file("other.sash");
  run_sql(path, "CREATE TABLE mine (x); INSERT INTO mine VALUES (1)");
  EXPECT_EQ(refusal(path),
            "The file '" + path + "' is a database of another program, not a Sashline record; choose a .sash file.");
}

TEST(StoreOpening, SaysWhenNothingOfARecordCanBeRead) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  const std::string bytes = bytes_of(path);
  write_bytes(path, bytes.substr(0, 100) + std::string(bytes.size() - 100, '\xAA'));
  EXPECT_EQ(refusal(path),
            "The record '" + path + "' is damaged so badly that nothing of it can be read; use a copy of it.");
}

TEST(StoreOpening, TheSecondDeskReadsOnlyAndSaysWho) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  auto first = Store::open(path);
  ASSERT_TRUE(first.ok());
  ASSERT_TRUE(first->commit(pin_figure(20, "by the first")).ok());
  const std::string link = folder.file("link.sash");
  std::filesystem::create_symlink(path, link);
  for (const std::string& name : {path, link}) {
    auto second = Store::open(name);
    ASSERT_TRUE(second.ok()) << second.fault().sentence;
    ASSERT_NE(second->read_only(), nullptr);
    EXPECT_EQ(second->read_only()->code, Code::read_only);
    char host[256] = {};
    gethostname(host, sizeof host - 1);
    const std::string holder = "process " + std::to_string(getpid()) + " on " + host;
    const std::string real = std::filesystem::canonical(path).string();
    EXPECT_EQ(second->read_only()->sentence,
              "The record '" + real + "' is open for editing at another desk (" + holder +
                  "), so it is shown here as it was at opening and cannot be edited; close it there and open it again "
                  "to edit it here.");
    EXPECT_EQ(second->record(), first->record());
    EXPECT_EQ(second->commit(pin_figure(21, "by the second")).fault().sentence, second->read_only()->sentence);
    EXPECT_EQ(second->undo().fault().code, Code::read_only);
    EXPECT_EQ(second->undo_name(), std::nullopt);
    const Done copied = second->save_copy(folder.file("copy-" + std::filesystem::path(name).filename().string()));
    EXPECT_TRUE(copied.ok()) << copied.fault().sentence;
  }
  ASSERT_TRUE(first->commit(pin_figure(22, "still writing")).ok());
  { const Store closing = std::move(first).value(); }
  const auto third = Store::open(path);
  ASSERT_TRUE(third.ok());
  EXPECT_EQ(third->read_only(), nullptr);
}

TEST(StoreOpening, ADeskThatCrashedLocksNobodyOut) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  const pid_t child = fork();
  if (child == 0) {
    auto store = Store::open(path);
    if (!store || !store->commit(pin_figure(20, "before the crash"))) _exit(1);
    kill(getpid(), SIGKILL);
  }
  int status = 0;
  waitpid(child, &status, 0);
  ASSERT_TRUE(WIFSIGNALED(status));
  ASSERT_TRUE(std::filesystem::exists(path + ".desk"));
  auto store = Store::open(path);
  ASSERT_TRUE(store.ok());
  EXPECT_EQ(store->read_only(), nullptr);
  EXPECT_NE(find(store->record(), model::FigureId{20}), nullptr);
  EXPECT_EQ(store->undo_name(), "Pin before the crash");
}

TEST(StoreOpening, ClosingTidiesUp) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  {
    auto store = Store::open(path);
    ASSERT_TRUE(store->commit(pin_figure(20, "x")).ok());
  }
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) names.push_back(entry.path().string());
  EXPECT_EQ(names, std::vector<std::string>{path});
}

// Runs `check` as a user without rights; root may write everywhere.
template <class F>
void without_rights(F check) {
  const pid_t child = fork();
  if (child == 0) {
    constexpr uid_t nobody = 65534;
    if (geteuid() == 0 && setresuid(nobody, nobody, nobody) != 0) _exit(2);
    check();
    _exit(::testing::Test::HasFailure() ? 1 : 0);
  }
  int status = 0;
  waitpid(child, &status, 0);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0);
}

TEST(StoreOpening, AFileThatMayNotBeWrittenIsReadOnly) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  chmod(folder.path().c_str(), 0555);
  chmod(path.c_str(), 0444);
  without_rights([&] {
    const auto store = Store::open(path);
    ASSERT_TRUE(store.ok()) << store.fault().sentence;
    ASSERT_NE(store->read_only(), nullptr);
    EXPECT_EQ(store->read_only()->sentence,
              "The record '" + path +
                  "' can be read but not edited, because the system does not allow writing to it or "
                  "its folder; allow it or save a copy elsewhere.");
    EXPECT_EQ(store->record(), small_record());
  });
  chmod(folder.path().c_str(), 0755);
}

TEST(StoreOpening, AReadOnlyFolderDoesNotHideWhatIsStillInTheLog) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  const TestFolder elsewhere;
  const std::string copy = elsewhere.file("b.sash");
  {
    auto store = Store::open(path);
    ASSERT_TRUE(store->commit(pin_figure(20, "only in the log")).ok());
    std::filesystem::copy_file(path, copy);
    std::filesystem::copy_file(path + "-wal", copy + "-wal");
  }
  chmod(elsewhere.path().c_str(), 0555);
  without_rights([&] {
    const auto store = Store::open(copy);
    ASSERT_TRUE(store.ok());
    ASSERT_NE(store->read_only(), nullptr);
    EXPECT_NE(find(store->record(), model::FigureId{20}), nullptr);
  });
  chmod(elsewhere.path().c_str(), 0755);
}

TEST(StoreOpening, AFileThatMayNotBeReadSaysSo) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  chmod(folder.path().c_str(), 0755);
  chmod(path.c_str(), 0000);
  without_rights([&] {
    const auto store = Store::open(path);
    ASSERT_FALSE(store.ok());
    EXPECT_EQ(store.fault().sentence, "The file '" + path + "' cannot be read: Permission denied.");
  });
}

TEST(StoreOpening, ARecordOfANewerProgramIsReadOnly) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  run_sql(path,
          "ALTER TABLE figure ADD COLUMN mood TEXT; CREATE TABLE moods (x); PRAGMA user_version = 99; "
          "PRAGMA wal_checkpoint(TRUNCATE)");
  const std::string before = bytes_of(path);
  {
    const auto store = Store::open(path);
    ASSERT_TRUE(store.ok());
    ASSERT_NE(store->read_only(), nullptr);
    EXPECT_EQ(store->read_only()->code, Code::newer_version);
    EXPECT_EQ(store->read_only()->sentence,
              "The record '" + path +
                  "' was written by a newer Sashline (its version is 99, this program writes 1), so "
                  "it can be read but not edited; use the newer program to edit it.");
    EXPECT_EQ(store->record(), small_record());
  }
  EXPECT_EQ(bytes_of(path), before);
}

model::Record big_record() {
  model::Record r = small_record();
  for (std::int64_t id = 100; id < 600; ++id) {
    r.figures.push_back(std::get<model::Figure>(*pin_figure(id, "figure " + std::to_string(id)).changes[0].after));
    r.notes.push_back({{id}, {{1}, Moment::millis(id), std::nullopt}, "note " + std::string(50, 'n')});
  }
  return r;
}

TEST(StoreOpening, ATruncatedRecordShowsWhatCanBeRead) {
  const TestFolder folder;
  const std::string path = made_record(folder, big_record());
  const std::string whole = bytes_of(path);
  write_bytes(path, whole.substr(0, whole.size() * 3 / 4 + 700));
  const std::string before = bytes_of(path);
  {
    const auto store = Store::open(path);
    ASSERT_TRUE(store.ok()) << store.fault().sentence;
    ASSERT_NE(store->read_only(), nullptr);
    EXPECT_EQ(store->read_only()->code, Code::damaged);
    EXPECT_EQ(store->read_only()->sentence, "The record '" + path + damaged_rest);
    EXPECT_FALSE(store->read_only()->others.empty());
    EXPECT_GT(store->record().figures.size(), 100U);
    const auto way_out = from_json(to_json(store->record()));
    ASSERT_TRUE(way_out.ok()) << way_out.fault().sentence;
    EXPECT_EQ(*way_out, store->record());
    EXPECT_EQ(store->save_copy(folder.file("copy.sash")).fault().code, Code::damaged);
  }
  EXPECT_EQ(bytes_of(path), before);
}

TEST(StoreOpening, ABadPageCostsOnlyWhatWasOnIt) {
  const TestFolder folder;
  const std::string path = made_record(folder, big_record());
  std::string bytes = bytes_of(path);
  const std::size_t at = bytes.find("figure 300");
  ASSERT_NE(at, std::string::npos);
  const std::size_t page = at / 4096 * 4096;
  bytes.replace(page, 4096, std::string(4096, '\x00'));
  write_bytes(path, bytes);
  const auto store = Store::open(path);
  ASSERT_TRUE(store.ok());
  ASSERT_NE(store->read_only(), nullptr);
  EXPECT_EQ(store->read_only()->sentence, "The record '" + path + damaged_rest);
  EXPECT_EQ(find(store->record(), model::FigureId{300}), nullptr);
  EXPECT_NE(find(store->record(), model::FigureId{100}), nullptr);
  EXPECT_NE(find(store->record(), model::FigureId{599}), nullptr);
  EXPECT_GT(store->record().figures.size(), 400U);
  EXPECT_EQ(store->record().notes.size(), 501U);
}

TEST(StoreOpening, RowsThatMakeNoSenseAreDamage) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  run_sql(path,
          "PRAGMA foreign_keys = OFF; UPDATE figure SET kind = 'smell' WHERE id = 9; DELETE FROM footage; "
          "UPDATE hazard SET place_from = 9223372036854775807");
  const auto store = Store::open(path);
  ASSERT_TRUE(store.ok());
  ASSERT_NE(store->read_only(), nullptr);
  EXPECT_EQ(store->read_only()->code, Code::damaged);
  EXPECT_THAT(
      store->read_only()->others,
      testing::IsSupersetOf({"figure 9 is unreadable", "footage 1 is gone", "figure 7 has lost its correction",
                             "callout 5 has lost something it points at", "relation 10 has lost something it points at",
                             "the hazard 3 cannot be kept: its field place/from is a time of more than 18 days"}));
  ASSERT_EQ(store->record().footages.size(), 1U);
  EXPECT_EQ(store->record().footages[0].title, "unreadable footage");
  EXPECT_EQ(store->record().relations[0].terms.size(), 1U);
}

TEST(StoreOpening, ChangesMadeByAnotherProgramAreNotOverwritten) {
  const TestFolder folder;
  const std::string path = made_record(folder);
  auto store = Store::open(path);
  ASSERT_TRUE(store.ok());
  run_sql(path, "UPDATE bench SET title = 'from outside'");
  const Done done = store->commit(pin_figure(20, "x"));
  ASSERT_FALSE(done.ok());
  EXPECT_EQ(done.fault().sentence, "The record '" + path +
                                       "' has been changed by another program since it was opened; close it and open "
                                       "it again.");
  EXPECT_EQ(store->record(), small_record());
}

}  // namespace
}  // namespace sash::store
