#pragma once
// Records and edits made up for the store's tests, and a folder for each test.

#include <random>
#include <string>

#include "model/edit.h"
#include "model/record.h"

namespace sash::store::test {

/// A folder that is there for one test and goes away with it.
class TestFolder {
 public:
  TestFolder();
  ~TestFolder();
  TestFolder(const TestFolder&) = delete;
  TestFolder& operator=(const TestFolder&) = delete;
  std::string file(const std::string& name) const { return path_ + "/" + name; }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

std::string bytes_of(const std::string& path);  ///< aborts when the file cannot be read
void write_bytes(const std::string& path, std::string_view bytes);

/// One footage, and one or two things of every type that use every field.
model::Record small_record();

/// Up to a handful of things of every type with odd text, extreme numbers and every closed set drawn from.
model::Record random_record(std::mt19937_64& random);

/// The edit that pins one figure with that id at the first footage.
model::Edit pin_figure(std::int64_t id, const std::string& label);

}  // namespace sash::store::test
