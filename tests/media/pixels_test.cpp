// From samples to RGBA: against the equations of the standards, not against the scaler that makes them.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

#include "clips.h"
#include "media/image_file.h"
#include "media/rgba.h"
#include "media/stills.h"
#include "media/tone_map.h"

namespace sash::media {
namespace {

using test::clip;

/// A picture of one colour, or of what `sample` says for plane and place.
template <class Sample>
Picture make_picture(PlaneKind kind, int bits, Size size, Sample sample) {
  Picture p;
  p.kind = kind;
  p.bits = bits;
  p.size = size;
  auto bytes = std::make_shared<std::vector<std::vector<std::uint8_t>>>();
  const int planes = kind == PlaneKind::grey ? 1 : 3;
  for (int i = 0; i < planes; ++i) {
    const bool small_x = i > 0 && kind != PlaneKind::yuv444;
    const bool small_y = i > 0 && kind == PlaneKind::yuv420;
    const int w = small_x ? (size.width + 1) / 2 : size.width;
    const int h = small_y ? (size.height + 1) / 2 : size.height;
    const int wide = bits > 8 ? 2 : 1;
    // Rows padded, and bytes to spare, as decoders give them.
    const std::ptrdiff_t stride = (w * wide + 63) / 64 * 64;
    auto& plane = bytes->emplace_back(static_cast<std::size_t>(stride * h) + 64);
    for (int y = 0; y < h; ++y) {
      for (int x = 0; x < w; ++x) {
        const int v = sample(i, x, y);
        const auto at = static_cast<std::size_t>(y * stride + x * wide);
        plane[at] = static_cast<std::uint8_t>(v);
        if (wide == 2) plane[at + 1] = static_cast<std::uint8_t>(v >> 8);
      }
    }
    p.planes.push_back({plane.data(), stride, w, h});
  }
  p.keeper = bytes;
  return p;
}

struct Case {
  Matrix matrix;
  Range range;
  int bits;
  double kr;  ///< BT.601-7 2.5.1; BT.709-6 3.2; BT.2020-2 table 4; SMPTE ST 240
  double kb;
};

/// The standards' equation, straight: E'R = E'Y + 2(1-Kr) E'Cr and so on.
std::array<double, 3> by_equation(const Case& c, int y, int cb, int cr) {
  const double unit = std::pow(2.0, c.bits - 8);
  const double top = std::pow(2.0, c.bits) - 1;
  const bool full = c.range == Range::full;
  const double ey = full ? y / top : (y / unit - 16) / 219;
  const double middle = std::pow(2.0, c.bits - 1);
  const double eb = full ? (cb - middle) / top : (cb - middle) / unit / 224;
  const double er = full ? (cr - middle) / top : (cr - middle) / unit / 224;
  const double r = ey + 2 * (1 - c.kr) * er;
  const double b = ey + 2 * (1 - c.kb) * eb;
  const double g = (ey - c.kr * r - c.kb * b) / (1 - c.kr - c.kb);
  const auto in_8 = [](double v) { return 255 * std::min(1.0, std::max(0.0, v)); };
  return {in_8(r), in_8(g), in_8(b)};
}

const std::vector<Case>& cases() {
  static const std::vector<Case> all{
      {Matrix::bt709, Range::limited, 8, 0.2126, 0.0722},  {Matrix::bt709, Range::full, 8, 0.2126, 0.0722},
      {Matrix::bt601, Range::limited, 8, 0.299, 0.114},    {Matrix::bt601, Range::full, 8, 0.299, 0.114},
      {Matrix::bt709, Range::limited, 10, 0.2126, 0.0722}, {Matrix::bt2020, Range::limited, 10, 0.2627, 0.0593},
      {Matrix::smpte240, Range::limited, 8, 0.212, 0.087}, {Matrix::bt709, Range::limited, 12, 0.2126, 0.0722},
  };
  return all;
}

/// The worst difference of 255 over a grid of colours.
double worst(const Case& c, Quality quality) {
  const int steps = 16;
  const int unit = 1 << (c.bits - 8);
  const Size size{steps * steps, steps};
  const auto sample = [&](int plane, int x, int y) {
    if (plane == 0) return (16 + y * 14) * unit;
    return plane == 1 ? (16 + x % steps * 14) * unit : (16 + x / steps * 14) * unit;
  };
  Picture p = make_picture(PlaneKind::yuv444, c.bits, size, sample);
  p.colour.matrix = c.matrix;
  p.colour.range = c.range;
  const RgbaImage image = to_rgba(p, {}, quality);
  double most = 0;
  for (int y = 0; y < size.height; ++y) {
    for (int x = 0; x < size.width; ++x) {
      const auto wanted = by_equation(c, sample(0, x, y), sample(1, x, y), sample(2, x, y));
      const std::size_t at = static_cast<std::size_t>(y * size.width + x) * 4;
      for (std::size_t i = 0; i < 3; ++i) most = std::max(most, std::abs(image.pixels[at + i] - wanted[i]));
      EXPECT_EQ(image.pixels[at + 3], 255);
    }
  }
  return most;
}

TEST(Rgba, AccurateStaysWithinTwoOfTheStandardsEquations) {
  for (const Case& c : cases()) {
    const double most = worst(c, Quality::accurate);
    EXPECT_LE(most, 2.0) << name_of(c.matrix) << ' ' << name_of(c.range) << ' ' << c.bits;
    RecordProperty(std::string("accurate_") + std::string(name_of(c.matrix)) + std::to_string(c.bits),
                   std::to_string(most));
  }
}

TEST(Rgba, FastStaysWithinFourOfTheStandardsEquations) {
  for (const Case& c : cases()) {
    EXPECT_LE(worst(c, Quality::fast), 4.0) << name_of(c.matrix) << ' ' << name_of(c.range) << ' ' << c.bits;
  }
}

TEST(Rgba, TheShadersNumbersAreTheEquations) {
  for (const Case& c : cases()) {
    const RgbFromYuv rgb = rgb_from_yuv(c.matrix, c.range, c.bits);
    const double top = std::pow(2.0, c.bits) - 1;
    const int unit = 1 << (c.bits - 8);
    for (int y = 16; y < 236; y += 31) {
      for (int cb = 16; cb < 241; cb += 37) {
        for (int cr = 16; cr < 241; cr += 41) {
          const auto wanted = by_equation(c, y * unit, cb * unit, cr * unit);
          const double in[3] = {y * unit / top - rgb.offset[0], cb * unit / top - rgb.offset[1],
                                cr * unit / top - rgb.offset[2]};
          for (std::size_t i = 0; i < 3; ++i) {
            const double v = rgb.m[i * 3] * in[0] + rgb.m[i * 3 + 1] * in[1] + rgb.m[i * 3 + 2] * in[2];
            EXPECT_NEAR(255 * std::min(1.0, std::max(0.0, v)), wanted[i], 0.01);
          }
        }
      }
    }
  }
}

TEST(Rgba, EveryKindOfPlaneGivesGreyForGrey) {
  for (const PlaneKind kind : {PlaneKind::yuv420, PlaneKind::yuv422, PlaneKind::yuv444, PlaneKind::grey}) {
    for (const int bits : {8, 10, 12}) {
      const int unit = 1 << (bits - 8);
      const Picture p =
          make_picture(kind, bits, {50, 38}, [&](int plane, int, int) { return (plane == 0 ? 126 : 128) * unit; });
      const RgbaImage image = to_rgba(p, {}, Quality::accurate);
      // (126 - 16) / 219 of 255.
      for (std::size_t i = 0; i < image.pixels.size(); ++i) {
        if (i % 4 == 3) continue;
        ASSERT_NEAR(image.pixels[i], 128.1, 1.2) << static_cast<int>(kind) << ' ' << bits;
      }
    }
  }
}

TEST(Rgba, UntaggedPicturesTakeTheMatrixOfTheirSize) {
  EXPECT_EQ(resolve({}, {1920, 1080}).matrix, Matrix::bt709);
  EXPECT_EQ(resolve({}, {1280, 720}).matrix, Matrix::bt709);
  EXPECT_EQ(resolve({}, {720, 576}).matrix, Matrix::bt601);
  ColourTags tagged;
  tagged.matrix = Matrix::bt2020;
  EXPECT_EQ(resolve(tagged, {320, 180}).matrix, Matrix::bt2020);
}

/// Four corners, each its own grey, to see where they go.
Picture corners(int turn, bool mirrored) {
  Picture p = make_picture(PlaneKind::yuv444, 8, {40, 20}, [](int plane, int x, int y) {
    if (plane > 0) return 128;
    return (x < 20 ? 30 : 60) + (y < 10 ? 0 : 100);  // top: 30 60, bottom: 130 160
  });
  p.colour.range = Range::full;
  p.turn = turn;
  p.mirrored = mirrored;
  return p;
}

std::array<int, 4> corners_of(const RgbaImage& i) {  // top left, top right, bottom left, bottom right
  const auto at = [&](int x, int y) {
    return static_cast<int>(i.pixels[static_cast<std::size_t>(y * i.size.width + x) * 4]);
  };
  return {at(1, 1), at(i.size.width - 2, 1), at(1, i.size.height - 2), at(i.size.width - 2, i.size.height - 2)};
}

TEST(Rgba, TurnsAndMirrorsAsShown) {
  const auto shown = [](int turn, bool mirrored) {
    return corners_of(to_rgba(corners(turn, mirrored), {}, Quality::accurate));
  };
  EXPECT_EQ(shown(0, false), (std::array{30, 60, 130, 160}));
  EXPECT_EQ(shown(90, false), (std::array{130, 30, 160, 60}));  // clockwise: bottom left comes to the top left
  EXPECT_EQ(shown(180, false), (std::array{160, 130, 60, 30}));
  EXPECT_EQ(shown(270, false), (std::array{60, 160, 30, 130}));
  EXPECT_EQ(shown(0, true), (std::array{60, 30, 160, 130}));
  EXPECT_EQ(shown(90, true), (std::array{160, 60, 130, 30}));
  EXPECT_EQ(to_rgba(corners(90, false), {}, Quality::fast).size, (Size{20, 40}));
  EXPECT_EQ(to_rgba(corners(90, false), {10, 10}, Quality::fast).size, (Size{5, 10}));
}

TEST(Rgba, ATurnedClipIsShownAsFfmpegTurnsIt) {
  Progress progress;
  const auto still = still_at(clip("rotated.mp4"), Moment(), {}, Quality::accurate, nullptr, progress);
  ASSERT_TRUE(still.ok());
  ASSERT_EQ(still->image.size, (Size{180, 320}));
  const std::string raw =
      test::output_of("ffmpeg -nostdin -v error -i '" + clip("rotated.mp4").string() +
                      "' -vf scale=in_color_matrix=bt601:flags=bicubic+accurate_rnd+full_chroma_int+full_chroma_inp "
                      "-frames:v 1 -pix_fmt rgba -f rawvideo -");
  ASSERT_EQ(raw.size(), still->image.pixels.size());
  double sum = 0;
  for (std::size_t i = 0; i < raw.size(); ++i)
    sum += std::abs(static_cast<int>(static_cast<std::uint8_t>(raw[i])) - still->image.pixels[i]);
  // Turning before or after the chroma is widened differs a little; turning wrongly differs by 60 and more.
  EXPECT_LT(sum / static_cast<double>(raw.size()), 1.5);
}

// Published points. PQ: ITU-R BT.2408-4, table 1 (10, 100, 203, 1000 cd/m2 are 30, 51, 58, 75 %) and BT.2100 (1 is
// 10000). HLG: BT.2408-4, 75 % is 203 cd/m2 on a 1000 cd/m2 display; BT.2100-2, 50 % is scene light 1/12.
TEST(ToneMap, SignalsMeanThePublishedLight) {
  EXPECT_NEAR(light_to_pq(10), 0.30, 0.005);
  EXPECT_NEAR(light_to_pq(100), 0.51, 0.005);
  EXPECT_NEAR(light_to_pq(203), 0.58, 0.005);
  EXPECT_NEAR(light_to_pq(1000), 0.75, 0.005);
  EXPECT_NEAR(pq_to_light(1), 10000, 0.01);
  EXPECT_EQ(pq_to_light(0), 0);
  for (double x = 0.05; x <= 1; x += 0.05) EXPECT_NEAR(light_to_pq(pq_to_light(x)), x, 1e-9);
  EXPECT_NEAR(hlg_to_scene(0.5), 1.0 / 12, 1e-12);
  EXPECT_NEAR(hlg_to_scene(1), 1, 1e-6);
  EXPECT_NEAR(1000 * std::pow(hlg_to_scene(0.75), 1.2), 203, 0.5);
}

// BT.2390-9, 5.4.1: unchanged below the knee, the peak becomes white, rising and never above.
TEST(ToneMap, TheBendKeepsDarkAndFitsThePeak) {
  for (const double peak : {400.0, 1000.0, 4000.0, 10000.0}) {
    EXPECT_NEAR(bend_light(peak, peak, 203), 203, 0.01);
    double before = -1;
    for (double light = 0; light <= peak; light += peak / 500) {
      const double bent = bend_light(light, peak, 203);
      EXPECT_GE(bent, before);
      EXPECT_LE(bent, 203.01);
      before = bent;
    }
  }
  // Knee = 1.5 * PQ(203)/PQ(1000) - 0.5 = 0.658 of PQ(1000): 0.495, which is about 87 cd/m2.
  for (const double light : {0.0, 1.0, 20.0, 80.0}) EXPECT_NEAR(bend_light(light, 1000, 203), light, 1e-6);
  EXPECT_LT(bend_light(203, 1000, 203), 203);
}

TEST(ToneMap, WhiteIsWhiteBlackIsBlackAndGreyStaysGrey) {
  for (const Transfer t : {Transfer::pq, Transfer::hlg}) {
    const ToneMap map(t, 1000, Primaries::bt2020);
    const auto signal = [](double v) { return static_cast<std::uint16_t>(std::lround(v * 65535)); };
    const double top = t == Transfer::pq ? light_to_pq(1000) : 1.0;
    EXPECT_EQ(map.map(0, 0, 0), (std::array<std::uint8_t, 3>{0, 0, 0}));
    for (const std::uint8_t v : map.map(signal(top), signal(top), signal(top))) EXPECT_GE(v, 254);
    int before = -1;
    for (double x = 0; x <= top; x += 0.01) {
      const auto [r, g, b] = map.map(signal(x), signal(x), signal(x));
      EXPECT_NEAR(r, g, 1);
      EXPECT_NEAR(g, b, 1);
      EXPECT_GE(g, before);
      before = g;
    }
  }
  // 50 cd/m2 lies below the knee: 50/203 of white, BT.1886 encoded, is 255 * (50/203)^(1/2.4).
  const auto s = static_cast<std::uint16_t>(std::lround(light_to_pq(50) * 65535));
  EXPECT_NEAR(ToneMap(Transfer::pq, 1000, Primaries::bt2020).map(s, s, s)[1], 255 * std::pow(50.0 / 203, 1 / 2.4), 1.0);
}

TEST(ToneMap, HdrClipsAreNotWashedOut) {
  // The same test card, PQ-tagged: taken for what it says, its darkest patches must stay dark and its picture use the
  // range.
  Progress progress;
  for (const char* name : {"pq.mp4", "hlg.mp4"}) {
    const auto still = still_at(clip(name), Moment(), {}, Quality::fast, nullptr, progress);
    ASSERT_TRUE(still.ok());
    int low = 255;
    int high = 0;
    for (std::size_t i = 1; i < still->image.pixels.size(); i += 4) {
      low = std::min<int>(low, still->image.pixels[i]);
      high = std::max<int>(high, still->image.pixels[i]);
    }
    EXPECT_LE(low, 8) << name;
    EXPECT_GE(high, 240) << name;
  }
}

/// The file's pixels as ffmpeg decodes them.
std::vector<std::uint8_t> decoded(const std::string& name, const std::vector<std::uint8_t>& bytes) {
  const auto file = test::clip_of_bytes(name, {bytes.begin(), bytes.end()});
  const std::string raw = test::output_of("ffmpeg -nostdin -v error -i '" + file.string() +
                                          "' -pix_fmt rgba -sws_flags accurate_rnd -f rawvideo -");
  return {raw.begin(), raw.end()};
}

TEST(ImageFile, PngIsLosslessAndRepeatable) {
  Progress progress;
  const auto still = still_at(clip("h264_2997.mp4"), Moment::seconds(1), {}, Quality::accurate, nullptr, progress);
  ASSERT_TRUE(still.ok());
  const auto png = png_bytes(still->image);
  ASSERT_TRUE(png.ok());
  EXPECT_EQ(decoded("still.png", *png), still->image.pixels);
  EXPECT_EQ(*png_bytes(still->image), *png);
  const RgbaImage odd{{3, 1}, {1, 2, 3, 255, 4, 5, 6, 255, 250, 251, 252, 255}};
  EXPECT_EQ(decoded("odd.png", *png_bytes(odd)), odd.pixels);
}

TEST(ImageFile, JpegIsCloseAndItsQualityCounts) {
  Progress progress;
  const auto still = still_at(clip("h264_2997.mp4"), Moment::seconds(1), {}, Quality::accurate, nullptr, progress);
  ASSERT_TRUE(still.ok());
  const auto good = jpeg_bytes(still->image, 95);
  const auto small = jpeg_bytes(still->image, 30);
  ASSERT_TRUE(good.ok() && small.ok());
  EXPECT_EQ(*jpeg_bytes(still->image, 95), *good);
  EXPECT_LT(small->size(), good->size());
  const auto pixels = decoded("still.jpg", *good);
  ASSERT_EQ(pixels.size(), still->image.pixels.size());
  double sum = 0;
  for (std::size_t i = 0; i < pixels.size(); ++i) sum += std::abs(pixels[i] - still->image.pixels[i]);
  EXPECT_LT(sum / static_cast<double>(pixels.size()), 2.0);
}

TEST(ImageFile, RefusesEmptyPicturesAndOddQualities) {
  EXPECT_EQ(png_bytes({}).fault().sentence, "A picture file needs a picture of 1 to 65500 pixels each way.");
  EXPECT_EQ(jpeg_bytes({{1, 1}, {0, 0, 0, 255}}, 0).fault().sentence, "The quality of a JPEG file goes from 1 to 100.");
}

}  // namespace
}  // namespace sash::media
