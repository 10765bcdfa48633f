// Texts and files that nobody meant well: starts from seeds, changes bytes at random (always the same way) and checks
// that what comes in is either refused with a sentence or a whole record, and that files are left alone.

#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <vector>

#include "fuzz/mangler.h"
#include "made.h"
#include "store/json_form.h"
#include "store/store.h"
#include "tools/table.h"

namespace sash::store {
namespace {

namespace fs = std::filesystem;
using sash::test::Mangler;

void check_text(const std::string& text) {
  const auto record = from_json(text);
  if (!record) {
    ASSERT_TRUE(record.fault().sentence.ends_with('.') || record.fault().sentence.ends_with('?')) << text;
    return;
  }
  const auto again = from_json(to_json(*record));
  ASSERT_TRUE(again.ok()) << again.fault().sentence;
  ASSERT_EQ(*again, *record);
}

TEST(StoreFuzz, MangledJsonIsRefusedOrWhole) {
  std::vector<std::string> seeds{to_json(test::small_record())};
  for (const auto& entry : fs::directory_iterator(std::string(SASH_TESTS_DIR) + "/fuzz/store/seeds")) {
    seeds.push_back(test::bytes_of(entry.path().string()));
  }
  ASSERT_GE(seeds.size(), 5U);
  const std::vector<std::string> pieces{"{",
                                        "}",
                                        "[",
                                        "]",
                                        ",",
                                        ":",
                                        "\"",
                                        "null",
                                        "true",
                                        "-1",
                                        "1e308",
                                        "1e-400",
                                        "9007199254740992",
                                        "0.5",
                                        "\\u0000",
                                        "\\ud800",
                                        "\"id\": 1",
                                        "\"ticks\": 1",
                                        "\"seconds\": 1e9",
                                        "{}",
                                        "[]",
                                        "\xff",
                                        "\xed\xa0\x80",
                                        "\xf4\x90\x80\x80"};
  for (const std::string& seed : seeds) check_text(seed);
  Mangler mangler(11);
  for (int i = 0; i < 2500; ++i) check_text(mangler.mangle(seeds[mangler.below(seeds.size())], pieces));
}

// Opens the file and uses it as a desk would; counts those that open.
void check_file(const std::string& path, int& opened) {
  const std::string before = test::bytes_of(path);
  bool may_change = false;
  {
    auto store = Store::open(path);
    if (!store) {
      ASSERT_TRUE(store.fault().sentence.ends_with('.'));
    } else {
      ++opened;
      check_text(to_json(store->record()));
      may_change = store->read_only() == nullptr;
      if (may_change) {
        static_cast<void>(store->undo().ok());
        static_cast<void>(store->redo().ok());
        static_cast<void>(store->commit(test::pin_figure(store->next_id<model::Figure>().number, "x")).ok());
        check_text(to_json(store->record()));
      }
    }
  }
  if (!may_change) {
    ASSERT_TRUE(test::bytes_of(path) == before) << "a file that cannot be edited was changed";
  }
}

TEST(StoreFuzz, MangledFilesAreRefusedOrReadAsFarAsTheyGo) {
  const test::TestFolder folder;
  const std::string whole = folder.file("whole.sash");
  {
    auto store = Store::create(whole, test::small_record());
    ASSERT_TRUE(store.ok());
    for (std::int64_t id = 100; id < 160; ++id) ASSERT_TRUE(store->commit(test::pin_figure(id, "seed")).ok());
    ASSERT_TRUE(store->undo().ok());
  }
  const std::string bytes = test::bytes_of(whole);
  Mangler mangler(12);
  int opened = 0;
  for (int i = 0; i < 120; ++i) {
    const test::TestFolder inner;
    const std::string path = inner.file("a.sash");
    test::write_bytes(path, mangler.mangle_pages(bytes, 4096));
    check_file(path, opened);
    ASSERT_FALSE(HasFatalFailure()) << "at file " << i;
  }
  EXPECT_GT(opened, 30);
}

TEST(StoreFuzz, MangledLogsDoNoHarm) {
  const test::TestFolder folder;
  const std::string whole = folder.file("whole.sash");
  std::string bytes;
  std::string log;
  {
    auto store = Store::create(whole, test::small_record());
    ASSERT_TRUE(store.ok());
    for (std::int64_t id = 100; id < 120; ++id) ASSERT_TRUE(store->commit(test::pin_figure(id, "seed")).ok());
    bytes = test::bytes_of(whole);
    log = test::bytes_of(whole + "-wal");
  }
  ASSERT_FALSE(log.empty());
  Mangler mangler(13);
  int opened = 0;
  for (int i = 0; i < 60; ++i) {
    const test::TestFolder inner;
    const std::string path = inner.file("a.sash");
    test::write_bytes(path, bytes);
    test::write_bytes(path + "-wal", mangler.mangle_pages(log, 4096 + 24));
    check_file(path, opened);
    ASSERT_FALSE(HasFatalFailure()) << "at log " << i;
  }
  EXPECT_EQ(opened, 60);
}

}  // namespace
}  // namespace sash::store
