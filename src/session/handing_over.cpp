#include "session/handing_over.h"

#include <algorithm>
#include <filesystem>
#include <map>

#include "media/image_file.h"
#include "media/stills.h"
#include "safety/cover.h"
#include "script/script.h"
#include "session/files.h"
#include "store/json_form.h"
#include "workings/check.h"

namespace sash::session {
namespace {

namespace fs = std::filesystem;

constexpr media::Size still_box{320, 320};
constexpr int still_quality = 80;

// Exact stills for the script's rows, footage by footage; footage that cannot be read has none, and the script goes out
// all the same.
std::vector<script::StillPicture> make_script_stills(const model::Record& record, const fs::path& record_folder,
                                                     Progress& progress) {
  std::map<model::FootageId, std::vector<Moment>> wanted;
  std::size_t all = 0;
  for (const auto& place : script::stills_wanted(record)) {
    wanted[place.footage].push_back(place.from);
    ++all;
  }
  std::vector<script::StillPicture> out;
  for (const auto& entry : wanted) {
    const model::FootageId footage = entry.first;
    const std::vector<Moment>& moments = entry.second;
    const auto* file = model::find(record, footage);
    const auto take = [&](std::size_t which, const media::Still& still) {
      const auto bytes = media::jpeg_bytes(still.image, still_quality);
      if (bytes) out.push_back({footage, moments[which], std::string(bytes->begin(), bytes->end())});
      progress.at(0.9 * static_cast<double>(out.size()) / static_cast<double>(all));
    };
    Progress part;
    static_cast<void>(
        media::make_stills(record_folder / file->path, moments, Moment(), still_box, nullptr, part, take));
    if (progress.cancelled()) break;
  }
  return out;
}

}  // namespace

Outcome<std::string> write_script(const model::Record& record, const std::string& record_path,
                                  const std::string& folder, Progress& progress) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) {
    return Fault::of(Code::unreadable,
                     "The folder '" + folder + "' cannot be made (" + error.message() + "); choose another.", folder);
  }
  const auto report = workings::check(record);
  const auto cover = safety::check_cover(record);
  const script::Materials materials{
      record, report, cover, make_script_stills(record, fs::absolute(record_path, error).parent_path(), progress)};
  if (progress.cancelled()) return Fault::of(Code::cancelled, "Writing the script was stopped; nothing was written.");
  auto files = script::write_files(materials);
  files.push_back({"record.json", store::to_json(record)});
  for (const auto& file : files) {
    if (const Done done = write_whole((fs::path(folder) / file.name).string(), file.bytes); !done) return done.fault();
  }
  progress.at(1);
  return folder;
}

}  // namespace sash::session
