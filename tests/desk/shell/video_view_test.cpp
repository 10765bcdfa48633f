// The shader against libswscale told the colour space, and against the program's own conversion on the processor.
#include "desk/shell/video_view.h"

#include <epoxy/gl.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <thread>

#include "desk/shell/made_picture.h"
#include "draw/kit/surfaceless.h"
#include "media/rgba.h"

namespace sash::desk {
namespace {

using media::Matrix;
using media::PlaneKind;
using media::Primaries;
using media::Range;
using media::Size;
using media::Transfer;
using testing::by_swscale;
using testing::made_picture;
using testing::Make;

std::vector<std::uint8_t> read(const ShownPicture& p) {
  std::vector<std::uint8_t> out(static_cast<std::size_t>(p.size.width * p.size.height) * 4);
  glBindTexture(GL_TEXTURE_2D, p.texture);
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glGetTexImage(GL_TEXTURE_2D, 0, GL_RGBA, GL_UNSIGNED_BYTE, out.data());
  return out;
}

struct Difference {
  int most = 0;
  double mean = 0;
};

/// Over the pixels at least `margin` from the edge; `channels` says how many of each pixel are in `two`.
Difference difference(const std::vector<std::uint8_t>& rgba, const std::vector<std::uint8_t>& two, int channels,
                      Size size, int margin) {
  Difference d;
  std::int64_t sum = 0;
  std::int64_t count = 0;
  for (int y = margin; y < size.height - margin; ++y) {
    for (int x = margin; x < size.width - margin; ++x) {
      for (int c = 0; c < 3; ++c) {
        const auto at = static_cast<std::size_t>(y * size.width + x);
        const int off = std::abs(rgba[at * 4 + static_cast<std::size_t>(c)] -
                                 two[at * static_cast<std::size_t>(channels) + static_cast<std::size_t>(c)]);
        d.most = std::max(d.most, off);
        sum += off;
        ++count;
      }
    }
  }
  d.mean = static_cast<double>(sum) / static_cast<double>(count);
  return d;
}

std::unique_ptr<VideoView> view(PicturePath path, std::function<void()> wake = {}) {
  auto made = VideoView::make(path, std::move(wake));
  if (!made) throw std::runtime_error(made.fault().sentence);
  return *std::move(made);
}

struct Case {
  PlaneKind kind;
  int bits;
  Matrix matrix;
  Range range;
};

/// The largest difference allowed, of 255. Full chroma differs by rounding alone; halved chroma also by how finely the
/// two interpolate it (swscale in steps of its filter, the card in 1/256 of a texel), once for each direction that is
/// halved.
int allowed(const Case& c) {
  const bool deep = c.bits > 8;
  if (c.kind == PlaneKind::yuv422) return deep ? 1 : 2;
  if (c.kind == PlaneKind::yuv420 || c.kind == PlaneKind::nv12) return deep ? 3 : 4;
  return 1;
}

std::string name_of_kind(PlaneKind k) {
  constexpr std::string_view names[] = {"420", "422", "444", "nv12", "grey", "rgba"};
  return std::string(names[static_cast<std::size_t>(k)]);
}

class EachFormat : public ::testing::TestWithParam<Case> {};

std::vector<Case> all_formats() {
  std::vector<Case> out;
  for (const PlaneKind k : {PlaneKind::yuv420, PlaneKind::yuv422, PlaneKind::yuv444}) {
    for (const int bits : {8, 10}) {
      for (const Matrix m : {Matrix::bt601, Matrix::bt709, Matrix::bt2020, Matrix::smpte240}) {
        for (const Range r : {Range::limited, Range::full}) out.push_back({k, bits, m, r});
      }
    }
  }
  for (const Range r : {Range::limited, Range::full}) {
    out.push_back({PlaneKind::nv12, 8, Matrix::bt709, r});
    out.push_back({PlaneKind::grey, 8, Matrix::bt709, r});
    out.push_back({PlaneKind::yuv444, 12, Matrix::bt2020, r});
  }
  return out;
}

INSTANTIATE_TEST_SUITE_P(All, EachFormat, ::testing::ValuesIn(all_formats()), [](const auto& p) {
  return name_of_kind(p.param.kind) + "_" + std::to_string(p.param.bits) + "bit_" +
         std::to_string(static_cast<int>(p.param.matrix)) + (p.param.range == Range::full ? "_full" : "_limited");
});

TEST_P(EachFormat, ShaderAgreesWithSwscaleToldTheColourSpace) {
  const testing::Surfaceless gl(64, 64);
  const auto v = view(PicturePath::shader);
  Make make{.kind = GetParam().kind, .bits = GetParam().bits};
  make.colour.matrix = GetParam().matrix;
  make.colour.range = GetParam().range;
  const auto picture = made_picture(make);
  const ShownPicture shown = v->show(picture, {});
  ASSERT_EQ(shown.size, make.size);
  const Difference d = difference(read(shown), by_swscale(*picture), 3, make.size, 2);
  RecordProperty("most", d.most);
  EXPECT_LE(d.most, allowed(GetParam()));
  EXPECT_LE(d.mean, 0.8);
}

TEST(VideoView, TurnsAndMirrorsAsTheProcessorDoes) {
  const testing::Surfaceless gl(64, 64);
  const auto v = view(PicturePath::shader);
  for (const int turn : {0, 90, 180, 270}) {
    for (const bool mirrored : {false, true}) {
      const auto picture = made_picture({.kind = PlaneKind::yuv444, .turn = turn, .mirrored = mirrored});
      const media::RgbaImage expected = to_rgba(*picture, {}, media::Quality::accurate);
      const ShownPicture shown = v->show(picture, {});
      ASSERT_EQ(shown.size, expected.size);
      EXPECT_LE(difference(read(shown), expected.pixels, 4, shown.size, 0).most, 2) << turn << mirrored;
    }
  }
}

TEST(VideoView, ToneMapsHdrAsTheProcessorDoes) {
  const testing::Surfaceless gl(64, 64);
  const auto v = view(PicturePath::shader);
  for (const Transfer transfer : {Transfer::pq, Transfer::hlg}) {
    Make make{.kind = PlaneKind::yuv444, .bits = 10};
    make.colour = {Matrix::bt2020, Primaries::bt2020, transfer, Range::limited};
    const auto picture = made_picture(make);
    const media::RgbaImage expected = to_rgba(*picture, {}, media::Quality::accurate);
    const auto got = read(v->show(picture, {}));
    EXPECT_LE(difference(got, expected.pixels, 4, make.size, 0).mean, 0.7);
    // Compared as light: where wide colours fall off the edge of the narrow gamut, near black, a code is next to
    // nothing.
    double most = 0;
    for (std::size_t i = 0; i < got.size(); ++i) {
      most = std::max(most, std::abs(std::pow(got[i] / 255.0, 2.4) - std::pow(expected.pixels[i] / 255.0, 2.4)));
    }
    EXPECT_LE(most, 0.025) << name_of(transfer);
    RecordProperty(std::string(name_of(transfer)), std::to_string(most));
  }
}

TEST(VideoView, ShowsSquarePixelsInsideTheRoomAndNeverEnlarges) {
  const testing::Surfaceless gl(64, 64);
  const auto v = view(PicturePath::shader);
  auto wide = std::make_shared<media::Picture>(*made_picture({.size = {720, 576}}));
  wide->pixel_aspect = {64, 45};  // 576-line wide screen, ITU-R BT.601 sampling as used for DVD: 16:9 within a line
  EXPECT_EQ(v->show(wide, {512, 512}).size, (Size{512, 288}));
  EXPECT_EQ(v->show(made_picture({.size = {64, 36}}), {640, 640}).size, (Size{64, 36}));
}

TEST(VideoView, AveragesWhatItShrinks) {
  const testing::Surfaceless gl(64, 64);
  const auto v = view(PicturePath::shader);
  // Columns of black and white, one pixel each, four times too large: grey, not one of them.
  auto picture = std::make_shared<media::Picture>(*made_picture({.kind = PlaneKind::grey, .size = {256, 64}}));
  auto columns = std::make_shared<std::vector<std::uint8_t>>();
  for (int i = 0; i < 256 * 64; ++i) columns->push_back(i % 2 == 0 ? 16 : 235);
  picture->planes = {{columns->data(), 256, 256, 64}};
  picture->keeper = columns;
  const ShownPicture shown = v->show(picture, {64, 64});
  ASSERT_EQ(shown.size, (Size{64, 16}));
  const auto rgba = read(shown);
  for (std::size_t x = 2; x < 62; ++x) EXPECT_NEAR(rgba[(8 * 64 + x) * 4], 128, 12) << x;
}

TEST(VideoView, ReadsPlanesStoredBottomUp) {
  const testing::Surfaceless gl(64, 64);
  const auto v = view(PicturePath::shader);
  const auto upright = made_picture({.kind = PlaneKind::yuv444});
  const auto expected = read(v->show(upright, {}));
  // The same rows in memory in the opposite order, read with a negative stride.
  struct Turned {
    std::vector<std::vector<std::uint8_t>> planes;
  };
  auto turned = std::make_shared<Turned>();
  auto picture = std::make_shared<media::Picture>(*upright);
  for (media::Plane& plane : picture->planes) {
    auto& bytes = turned->planes.emplace_back();
    for (int y = plane.height - 1; y >= 0; --y) {
      bytes.insert(bytes.end(), plane.bytes + y * plane.stride, plane.bytes + (y + 1) * plane.stride);
    }
    plane.bytes = bytes.data() + (plane.height - 1) * plane.stride;
    plane.stride = -plane.stride;
  }
  picture->keeper = turned;
  EXPECT_EQ(read(v->show(picture, {})), expected);
}

TEST(VideoView, WorksOnlyWhenPictureOrSizeChanges) {
  const testing::Surfaceless gl(64, 64);
  const auto v = view(PicturePath::shader);
  auto bytes = std::make_shared<std::vector<std::uint8_t>>(64 * 64, std::uint8_t{235});
  auto picture = std::make_shared<media::Picture>(*made_picture({.kind = PlaneKind::grey, .size = {64, 64}}));
  picture->planes = {{bytes->data(), 64, 64, 64}};
  const ShownPicture first = v->show(picture, {});
  std::fill(bytes->begin(), bytes->end(), std::uint8_t{16});
  EXPECT_EQ(read(v->show(picture, {}))[0], 255);  // not uploaded again
  EXPECT_EQ(v->show(picture, {32, 32}).size, (Size{32, 32}));
  EXPECT_EQ(first.texture, v->show(picture, {}).texture);
}

TEST(VideoView, TheWorkerGivesWhatTheProcessorMakesAndWakes) {
  const testing::Surfaceless gl(64, 64);
  std::atomic<int> woken = 0;
  const auto v = view(PicturePath::worker, [&] { ++woken; });
  const auto picture = made_picture({});
  EXPECT_EQ(v->show(picture, {128, 128}).texture, 0U);
  for (int i = 0; i < 1000 && woken == 0; ++i) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  ASSERT_EQ(woken, 1);
  const ShownPicture shown = v->show(picture, {128, 128});
  ASSERT_EQ(shown.size, (Size{128, 72}));
  EXPECT_EQ(read(shown), to_rgba(*picture, {128, 128}, media::Quality::fast).pixels);
}

TEST(VideoView, SoftwareRenderersTakeTheWorker) {
  const testing::Surfaceless gl(64, 64);
  const std::string renderer = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
  const bool software =
      renderer.find("llvmpipe") != std::string::npos || renderer.find("softpipe") != std::string::npos;
  EXPECT_EQ(best_picture_path(), software ? PicturePath::worker : PicturePath::shader) << renderer;
}

}  // namespace
}  // namespace sash::desk
