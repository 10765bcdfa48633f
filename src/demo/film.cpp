#include "demo/film.h"

#include <filesystem>

#include "demo/lines.h"
#include "demo/pen.h"
#include "demo/scene.h"
#include "embedded/demo_sound.h"
#include "media/film_writer.h"

namespace sash::demo {
namespace {

constexpr int frames_a_second = 25;

Done write_film(const std::string& path, Progress& progress) {
  auto film = media::FilmWriter::create(path, {film_width, film_height}, {frames_a_second, 1});
  if (!film) return film.fault();
  if (Done done = film->set_sound(embedded::demo_sound); !done) return done;
  Pen pen(film_width, film_height);
  const int frames = static_cast<int>(film_seconds * frames_a_second);
  for (int i = 0; i < frames; ++i) {
    if (progress.cancelled()) return Fault::of(Code::cancelled, "Making the demo was stopped.");
    draw_film(pen, static_cast<double>(i) / frames_a_second);
    if (Done done = film->add_picture(pen.pixels(), pen.stride()); !done) return done;
    progress.at(static_cast<double>(i) / frames);
  }
  return film->finish();
}

}  // namespace

Done make_film(const std::string& path, Progress& progress) {
  const std::string aside = path + ".part";
  Done done = write_film(aside, progress);
  std::error_code error;
  if (done) std::filesystem::rename(aside, path, error);
  if (done && !error) return {};
  std::error_code ignored;
  std::filesystem::remove(aside, ignored);
  if (!done) return done;
  return Fault::of(Code::unreadable, "The film '" + path + "' cannot be written; check the folder and the free space.",
                   path);
}

}  // namespace sash::demo
