#include "store/cache.h"

#include <gtest/gtest.h>

#include "made.h"
#include "store/store.h"

namespace sash::store {
namespace {

using Bytes = std::vector<std::uint8_t>;
using test::TestFolder;

TEST(ContentCache, KeepsBytesAcrossClosing) {
  const TestFolder folder;
  const std::string path = folder.file("new/folders/cache.db");
  const Bytes index{0, 255, 1, 0};
  {
    auto cache = ContentCache::open(path);
    EXPECT_EQ(cache.get("frame index 1", "f00d"), std::nullopt);
    cache.put("frame index 1", "f00d", Bytes{9});
    cache.put("frame index 1", "f00d", index);
    cache.put("waveform 1", "f00d", {});
  }
  auto cache = ContentCache::open(path);
  EXPECT_EQ(cache.get("frame index 1", "f00d"), index);
  EXPECT_EQ(cache.get("waveform 1", "f00d"), Bytes{});
  EXPECT_EQ(cache.get("frame index 2", "f00d"), std::nullopt);
  EXPECT_EQ(cache.size(), index.size());
  cache.forget("frame index 1", "f00d");
  EXPECT_EQ(cache.get("frame index 1", "f00d"), std::nullopt);
  EXPECT_EQ(cache.size(), 0U);
}

TEST(ContentCache, DropsFirstWhatWasNotUsedForLongest) {
  const TestFolder folder;
  auto cache = ContentCache::open(folder.file("cache.db"), 1000);
  for (const char* name : {"a", "b", "c"}) cache.put("still", name, Bytes(300, 1));
  ASSERT_TRUE(cache.get("still", "a").has_value());
  cache.put("still", "d", Bytes(300, 1));
  EXPECT_TRUE(cache.get("still", "a").has_value());
  EXPECT_FALSE(cache.get("still", "b").has_value());
  EXPECT_TRUE(cache.get("still", "c").has_value());
  EXPECT_TRUE(cache.get("still", "d").has_value());
  EXPECT_EQ(cache.size(), 900U);
  cache.put("still", "huge", Bytes(1001, 1));
  EXPECT_FALSE(cache.get("still", "huge").has_value());
  EXPECT_EQ(cache.size(), 900U);
}

TEST(ContentCache, ReplacesAFileThatIsNoCache) {
  const TestFolder folder;
  const std::string path = folder.file("cache.db");
  test::write_bytes(path,
                    "this is no database, but longer than a hundred bytes, so that SQLite must look at it twice "
                    "before it says so to anybody");
  auto cache = ContentCache::open(path);
  cache.put("still", "a", Bytes{1});
  auto again = ContentCache::open(path);
  EXPECT_EQ(again.get("still", "a"), Bytes{1});
}

TEST(ContentCache, StartsAnewWhenItsFileIsDamaged) {
  const TestFolder folder;
  const std::string path = folder.file("cache.db");
  {
    auto cache = ContentCache::open(path);
    for (int i = 0; i < 50; ++i) cache.put("still", std::to_string(i), Bytes(2000, 7));
  }
  std::string bytes = test::bytes_of(path);
  ASSERT_GT(bytes.size(), 100000U);
  for (std::size_t i = 4096; i < bytes.size(); ++i) bytes[i] = static_cast<char>(i * 31);
  test::write_bytes(path, bytes);
  auto cache = ContentCache::open(path);
  for (int i = 0; i < 50; ++i) static_cast<void>(cache.get("still", std::to_string(i)));
  cache.put("still", "fresh", Bytes{5});
  EXPECT_EQ(cache.get("still", "fresh"), Bytes{5});
}

TEST(ContentCache, WorksInMemoryWhereNoFileCanBeMade) {
  const TestFolder folder;
  auto cache = ContentCache::open(folder.path());  // a folder is no file
  cache.put("still", "a", Bytes{1});
  EXPECT_EQ(cache.get("still", "a"), Bytes{1});
}

TEST(ContentCache, IsSharedByTwoDesks) {
  const TestFolder folder;
  auto one = ContentCache::open(folder.file("cache.db"));
  auto two = ContentCache::open(folder.file("cache.db"));
  one.put("still", "a", Bytes{1});
  EXPECT_EQ(two.get("still", "a"), Bytes{1});
  two.put("still", "a", Bytes{2});
  EXPECT_EQ(one.get("still", "a"), Bytes{2});
}

}  // namespace
}  // namespace sash::store
