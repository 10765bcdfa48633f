#pragma once
// FilmWriter: makes a new MP4 from drawn pictures and ready-made sound: H.264 (8 bit, 4:2:0, BT.709) with AAC. For
// footage the program draws itself; never for changing somebody's footage. One thread at a time.

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "media/rate.h"
#include "support/outcome.h"

namespace sash::media {

class FilmWriter {
 public:
  /// Begins the file at `path`. Requires: width and height even, rate positive.
  /// Fails: unreadable (cannot be written); unsupported (this libav has no H.264 or AAC encoder).
  static Outcome<FilmWriter> create(const std::string& path, Size size, Rate rate);
  FilmWriter(FilmWriter&&) noexcept;
  FilmWriter& operator=(FilmWriter&&) noexcept;
  ~FilmWriter();  ///< without finish() the file is not playable

  /// The whole sound, as the bytes of any audio file libav reads. At most once, before the first picture.
  /// Fails: damaged; unsupported.
  Done set_sound(std::string_view file_bytes);

  /// The next picture: rows of B, G, R, unused bytes, `stride` bytes apart.
  Done add_picture(const std::uint8_t* bgra, int stride);

  /// Writes what is left and closes the file.
  Done finish();

 private:
  struct State;
  explicit FilmWriter(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace sash::media
