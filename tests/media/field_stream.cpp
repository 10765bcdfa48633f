#include "field_stream.h"

#include <cstdint>

namespace sash::media::test {
namespace {

constexpr int mbs_wide = 4;
constexpr int field_mbs_high = 2;

class Bits {
 public:
  void put(std::uint32_t value, int count) {
    for (int i = count - 1; i >= 0; --i) bit((value >> i & 1) != 0);
  }
  void ue(std::uint32_t value) {
    int length = 0;
    while ((value + 1) >> (length + 1) != 0) ++length;
    put(0, length);
    put(value + 1, length + 1);
  }
  void align_zero() {
    while (filled_ != 0) bit(false);
  }
  void byte(int v) { put(static_cast<std::uint32_t>(v), 8); }
  std::string finish() {
    bit(true);
    align_zero();
    return bytes_;
  }

 private:
  void bit(bool b) {
    current_ = current_ << 1 | (b ? 1 : 0);
    if (++filled_ < 8) return;
    bytes_ += static_cast<char>(current_);
    current_ = 0;
    filled_ = 0;
  }
  std::string bytes_;
  int current_ = 0;
  int filled_ = 0;
};

std::string nal(int header, const std::string& payload) {
  std::string out("\x00\x00\x00\x01", 4);
  out += static_cast<char>(header);
  int zeros = 0;
  for (const char c : payload) {
    if (zeros >= 2 && static_cast<unsigned char>(c) <= 3) {
      out += '\x03';
      zeros = 0;
    }
    out += c;
    zeros = c == 0 ? zeros + 1 : 0;
  }
  return out;
}

std::string sequence_parameters() {
  Bits b;
  b.byte(77);  // Main
  b.byte(0);
  b.byte(30);  // level 3
  b.ue(0);
  b.ue(0);  // frame_num: 4 bits
  b.ue(0);  // picture order count type 0
  b.ue(4);  // its low part: 8 bits
  b.ue(1);  // one reference frame
  b.put(0, 1);
  b.ue(mbs_wide - 1);
  b.ue(field_mbs_high - 1);
  b.put(0, 1);  // frame_mbs_only_flag: fields possible
  b.put(0, 1);  // no mixing inside a frame
  b.put(1, 1);  // direct_8x8_inference, required with fields
  b.put(0, 1);  // no cropping
  b.put(1, 1);  // vui: only the timing, 50 fields a second
  b.put(0, 4);  // aspect, overscan, signal, chroma: none
  b.put(1, 1);
  b.put(1, 32);
  b.put(50, 32);
  b.put(1, 1);  // fixed
  b.put(0, 4);  // no HRD twice, no pic_struct, no restrictions
  return nal(0x67, b.finish());
}

std::string picture_parameters() {
  Bits b;
  b.ue(0);
  b.ue(0);
  b.put(0, 2);  // CAVLC, no bottom order offsets
  b.ue(0);
  b.ue(0);
  b.ue(0);
  b.put(0, 3);
  b.ue(0);
  b.ue(0);
  b.ue(0);
  b.put(1, 1);  // deblocking said in the slice
  b.put(0, 2);
  return nal(0x68, b.finish());
}

std::string field(int frame, int in_group, int group_number, bool bottom) {
  const bool idr = in_group == 0 && !bottom;
  Bits b;
  b.ue(0);
  b.ue(7);  // I
  b.ue(0);
  b.put(static_cast<std::uint32_t>(in_group % 16), 4);
  b.put(1, 1);  // field picture
  b.put(bottom ? 1 : 0, 1);
  if (idr) b.ue(static_cast<std::uint32_t>(group_number % 2));
  b.put(static_cast<std::uint32_t>((2 * in_group + (bottom ? 1 : 0)) % 256), 8);
  b.put(0, idr ? 2 : 1);  // reference marking: as usual
  b.ue(0);                // quantiser unchanged
  b.ue(1);                // no deblocking
  for (int mb = 0; mb < mbs_wide * field_mbs_high; ++mb) {
    b.ue(25);  // I_PCM
    b.align_zero();
    for (int i = 0; i < 256; ++i) b.byte(16 + (frame * 7 + mb * 3 + i % 16 + (bottom ? 40 : 0)) % 200);
    for (int i = 0; i < 128; ++i) b.byte(100 + frame % 50);
  }
  return nal(idr ? 0x65 : 0x61, b.finish());
}

}  // namespace

std::string field_stream(int frames, int group) {
  std::string out;
  const std::string delimiter = nal(0x09, std::string(1, '\x10'));  // only I slices follow
  for (int frame = 0; frame < frames; ++frame) {
    const int in_group = frame % group;
    for (const bool bottom : {false, true}) {
      out += delimiter;
      if (in_group == 0 && !bottom) out += sequence_parameters() + picture_parameters();
      out += field(frame, in_group, frame / group, bottom);
    }
  }
  return out;
}

}  // namespace sash::media::test
