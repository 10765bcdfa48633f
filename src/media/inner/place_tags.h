#pragma once
// Whether footage says where on earth it was made: in tags, in telemetry, in the EXIF data of its pictures (motion
// JPEG, cover pictures) or in what cameras write beside the streams of an MP4 or MOV. Tells that there is something,
// not what. Private to media. Sources: CIPA DC-008 (Exif 2.32), 4.5.2, 4.6.2 and 4.6.3 (APP1, IFD, GPS IFD pointer);
// ISO/IEC 14496-12, 4.2 (boxes); Adobe XMP Specification Part 2 (exif:GPSLatitude). The names cameras give their tags
// are from memory.

#include <cstdint>
#include <filesystem>
#include <span>

extern "C" {
#include <libavformat/avformat.h>
}

namespace sash::media::inner {

/// Whether a JPEG picture has an EXIF block that points to a GPS one, or XMP with a latitude. Bounded by the bytes.
bool jpeg_names_a_place(std::span<const std::uint8_t> jpeg);

/// The whole of an opened file. Reads its first picture where that may carry EXIF data, and its index.
bool names_a_place(AVFormatContext& format, const std::filesystem::path& path);

}  // namespace sash::media::inner
