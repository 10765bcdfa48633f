#include "demo/demo.h"

#include <filesystem>

#include "demo/film.h"
#include "demo/story.h"
#include "media/fingerprint.h"
#include "store/store.h"

namespace sash::demo {

namespace fs = std::filesystem;

Outcome<std::string> make_demo(const std::string& folder, Progress& progress) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) {
    return Fault::of(Code::unreadable,
                     "The folder '" + folder + "' cannot be made (" + error.message() + "); choose another.", folder);
  }
  const std::string film = (fs::path(folder) / "copper-cycle.mp4").string();
  const std::string path = (fs::path(folder) / "copper-cycle.sash").string();
  if (!fs::exists(film, error)) {
    if (Done done = make_film(film, progress); !done) return done.fault();
  }
  if (fs::exists(path, error)) return path;
  model::Record record = make_record(fs::path(film).filename().string());
  if (auto mark = media::fingerprint(film)) record.footages.front().fingerprint = *mark;
  const auto made = store::Store::create(path, record);
  if (!made) return made.fault();
  return path;
}

}  // namespace sash::demo
