#pragma once
// The records opened lately, newest first, kept as one path a line. A list that cannot be read or written is an empty
// one: nothing of a record is lost with it. Main thread only.

#include <string>
#include <vector>

namespace sash::session {

class Recent {
 public:
  explicit Recent(std::string folder);  ///< empty: nothing is kept
  const std::vector<std::string>& paths() const { return paths_; }
  void opened(const std::string& path);

 private:
  std::string folder_;
  std::vector<std::string> paths_;
};

}  // namespace sash::session
