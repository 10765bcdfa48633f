#pragma once
// Where the files of a record are: as the record keeps them, and as they are on this disk. Looks at the disk only to
// find names that are free. Safe from any thread.

#include <filesystem>
#include <string>

namespace sash::session {

/// `file` as the record keeps it: relative to the record's folder where it lies inside, so that the folder can be moved
/// as a whole; absolute otherwise.
std::string path_for_record(const std::string& record_path, const std::string& file);

/// Where a kept path is on this disk; empty for an empty one.
std::string path_on_disk(const std::string& record_path, const std::string& kept);

/// A name beside `wanted` that is not taken yet: "bench.sash", "bench 2.sash", ...
std::string free_name(const std::filesystem::path& wanted);

}  // namespace sash::session
