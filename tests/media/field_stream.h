#pragma once
// Writes a tiny H.264 stream of interlaced field pictures, as camcorders record: each frame is two pictures, one a
// field. No encoder at hand writes these, so the test does: uncompressed (I_PCM) macroblocks. Source: ITU-T H.264
// (08/2021), 7.3 (syntax), 7.4.1.1 (emulation prevention).

#include <string>

namespace sash::media::test {

/// `frames` frames of 64x64, an IDR each `group` frames; every frame's fields carry greys of their own.
std::string field_stream(int frames, int group);

}  // namespace sash::media::test
