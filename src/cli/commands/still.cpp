#include <filesystem>
#include <fstream>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/time_text.h"
#include "media/image_file.h"
#include "media/stills.h"
#include "session/files.h"

namespace sash::cli {

int still(const std::string& file, const std::string& at, const std::string& to, const Console& console) {
  const auto moment = read_time(at);
  if (!moment) return console.fail(moment.fault());
  Progress progress;
  const auto picture = media::still_at(file, *moment, {}, media::Quality::accurate, nullptr, progress);
  if (!picture) return console.fail(picture.fault());
  const auto png = media::png_bytes(picture->image);
  if (!png) return console.fail(png.fault());
  if (const Done done = session::write_whole(to, *png); !done) return console.fail(done.fault());
  console.out << to << ": the frame that begins at " << time_text(picture->at) << ", " << picture->image.size.width
              << "x" << picture->image.size.height << '\n';
  return fine;
}

}  // namespace sash::cli
