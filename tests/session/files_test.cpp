#include "session/files.h"

#include <gtest/gtest.h>

#include "session/importing.h"
#include "session/scratch.h"

namespace sash::session {
namespace {

TEST(Files, AFileIsReplacedWholeOrNotAtAll) {
  const Scratch scratch;
  const auto path = scratch.write("a.txt", "before");
  ASSERT_TRUE(write_whole(path, std::string_view("after")).ok());
  EXPECT_EQ(*read_file(path, 100), "after");
  EXPECT_FALSE(std::filesystem::exists(path + ".part"));
  const Done done = write_whole(scratch.path("no/such/folder.txt"), std::string_view("x"));
  ASSERT_FALSE(done.ok());
  EXPECT_EQ(done.fault().code, Code::unreadable);
}

TEST(Files, ReadingSaysWhatIsWrongInOneSentence) {
  const Scratch scratch;
  EXPECT_EQ(read_file(scratch.path("none"), 10).fault().sentence,
            "There is no file '" + scratch.path("none") + "'; check the name and the folder.");
  EXPECT_EQ(read_file(scratch.path(""), 10).fault().code, Code::wrong_use);
  EXPECT_EQ(read_file(scratch.write("big", std::string(100, 'x')), 10).fault().code, Code::out_of_range);
}

}  // namespace
}  // namespace sash::session
